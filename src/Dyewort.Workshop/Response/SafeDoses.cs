using Dyewort.Notebook;
using Dyewort.Response;

namespace Dyewort.Workshop.Response;

/// <summary>How much of a hazardous addition a plan may ask for.</summary>
internal static class SafeDoses
{
    /// <summary>The most of each addition that carries a signal word, g/L: what is usual, or what this maker has already painted,
    /// whichever is more. The others have no limit here.</summary>
    /// <param name="additions">Additions by their name in the trials.</param>
    /// <param name="model">What was painted; null where nothing was yet.</param>
    /// <param name="typed">Limits that somebody gave; they go first.</param>
    public static Doses Of(IEnumerable<KeyValuePair<string, Material>> additions, ResponseModel? model, Doses typed)
    {
        var limits = typed;
        foreach (var (name, material) in additions)
        {
            if (Caution.HazardOf(material)?.SignalWord is "Danger" or "Warning" && !limits.Contains(name))
                limits = limits.With(name, Math.Max(UsualDoses.Of(name).High, Painted(model, name)));
        }

        return limits;
    }

    /// <summary>The largest painted dose, g/L; 0 where nothing was painted with it.</summary>
    public static double Painted(ResponseModel? model, string addition) => model?.Rows.Max(row => row.Point.Dose(addition)) ?? 0;
}

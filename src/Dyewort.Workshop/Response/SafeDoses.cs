using Dyewort.Chemistry;
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
    public static Doses Of(IEnumerable<KeyValuePair<string, Material>> additions, ResponseModel? model) =>
        Of(additions.Select(pair => (pair.Key, Caution.HazardOf(pair.Value.Substance, pair.Value.Name))), model, Doses.None);

    /// <summary>The same for a table, by the names alone where no pantry stands behind it; a limit that was typed goes first.</summary>
    public static Doses Of(IEnumerable<string> additions, TrialSource? trials, ResponseModel? model, Doses typed) =>
        Of(additions.Select(name => (name, Caution.HazardOf(trials?.Materials.GetValueOrDefault(name)?.Substance, name))), model, typed);

    private static Doses Of(IEnumerable<(string Name, Hazard? Hazard)> additions, ResponseModel? model, Doses typed)
    {
        var limits = typed;
        foreach (var (name, hazard) in additions)
        {
            if (hazard?.SignalWord is "Danger" or "Warning" && !limits.Contains(name))
                limits = limits.With(name, Math.Max(UsualDoses.Of(name).High, Painted(model, name)));
        }

        return limits;
    }

    /// <summary>The largest painted dose, g/L; 0 where nothing was painted with it.</summary>
    public static double Painted(ResponseModel? model, string addition) => model?.Rows.Max(row => row.Point.Dose(addition)) ?? 0;
}

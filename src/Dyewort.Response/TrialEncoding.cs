namespace Dyewort.Response;

/// <summary>How a sample's words become the numbers that the process sees.</summary>
/// <param name="Additions">The additions, in the order of the doses.</param>
/// <param name="Papers">The papers that were painted on.</param>
/// <param name="States">The states that were read.</param>
/// <param name="Pots">The pots that were painted from.</param>
internal sealed record TrialEncoding(string[] Additions, string[] Papers, string[] States, string[] Pots)
{
    public static TrialEncoding Of(IReadOnlyCollection<TrialRow> painted, IReadOnlyList<string> additions)
    {
        string[] Levels(Func<TrialPoint, string> pick) =>
            [.. painted.Select(row => pick(row.Point)).Distinct(StringComparer.OrdinalIgnoreCase)];
        return new([.. additions], Levels(point => point.Paper), Levels(point => point.State), Levels(point => point.Pot));
    }

    public FilmInput Input(TrialPoint point, PhSurface ph) =>
        new(
            ph,
            Array.ConvertAll(Additions, point.Dose),
            point.Wash * point.Coats,
            Place(Papers, point.Paper),
            Place(States, point.State),
            Place(Pots, point.Pot)
        );

    private static int Place(string[] names, string name) =>
        Array.FindIndex(names, known => string.Equals(known, name, StringComparison.OrdinalIgnoreCase));
}

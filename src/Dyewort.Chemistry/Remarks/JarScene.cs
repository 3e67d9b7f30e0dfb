namespace Dyewort.Chemistry;

/// <summary>A jar as the rules for remarks look at it.</summary>
internal sealed class JarScene(JarContents contents, double celsius, JarReport report)
{
    private readonly Dictionary<string, double> totals = contents.Totals(celsius);
    private readonly List<Portion> portions = [.. contents.Portions.Where(portion => portion.Grams > 0)];

    public JarContents Contents => contents;

    public double Celsius => celsius;

    public JarReport Report => report;

    /// <summary>The jar after fizzing: what a maker meets.</summary>
    public JarState State => report.AfterFizzing;

    public double Ph => State.Ph;

    public bool IsAcid => Ph < 7;

    public double Litres => State.VolumeMillilitres / 1000;

    /// <summary>What was added of each substance that is there, the first portion of each.</summary>
    public IEnumerable<Portion> Portions => portions.DistinctBy(portion => portion.Substance.Key);

    /// <summary>Iron of either kind is there.</summary>
    public bool HasIron => Has("Fe+2") || Has("Fet+3");

    /// <summary>Tannin is there, added or of the liquor's own.</summary>
    public bool HasTannin => contents.HoldsTannin;

    /// <summary>True where a component of the tables is in the jar, in whatever form.</summary>
    public bool Has(string component) => Moles(component) > 1e-9;

    /// <summary>Moles of a component in the whole jar.</summary>
    public double Moles(string component) => totals.GetValueOrDefault(component);

    /// <summary>True where a substance of one of the classes was added.</summary>
    public bool Holds(SubstanceClasses any) => portions.Exists(portion => portion.Substance.IsAny(any));

    /// <summary>Grams of the pure substances of a class.</summary>
    public double PureGrams(SubstanceClasses any) =>
        contents.Portions.Where(portion => portion.Substance.IsAny(any)).Sum(portion => portion.PureGrams);

    /// <summary>Grams of a solid of the tables.</summary>
    public double Solid(string key) => State.Solids.Where(solid => solid.Key == key).Sum(solid => solid.Grams);

    /// <summary>The solids of a group that can be seen, with their grams; null where there are none.</summary>
    public string? Fallen(IReadOnlyCollection<string> group)
    {
        var lying = State
            .Solids.Where(solid => group.Contains(solid.Key) && solid.Grams > SmallestSeenGrams)
            .Select(solid => $"{solid.Name} ({Said.Grams(solid.Grams)})")
            .ToList();
        return lying.Count == 0 ? null : string.Join(" and ", lying);
    }

    /// <summary>Two milligrams: less is a haze that nobody notices (common practice, no source).</summary>
    public const double SmallestSeenGrams = 0.002;
}

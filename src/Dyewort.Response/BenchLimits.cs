namespace Dyewort.Response;

/// <summary>What the bench allows a trial.</summary>
public sealed record BenchLimits
{
    /// <summary>Volume of one sample, ml, above 0 to 10 000.</summary>
    public required double SampleMillilitres { get; init; }

    /// <summary>Liquor that may be used, ml; null where nobody measured it.</summary>
    public double? LiquorMillilitres { get; init; }

    /// <summary>Jars at hand.</summary>
    public int Jars { get; init; } = 24;

    /// <summary>Grams of the smallest measure of each addition (a level spoon, or what the scale can tell); 0.1 g where it is missing.</summary>
    public IReadOnlyDictionary<string, double> SmallestGrams { get; init; } = new Dictionary<string, double>(StringComparer.OrdinalIgnoreCase);

    /// <summary>The most of each addition that is safe or sensible, g/L; missing where nothing forbids more.</summary>
    public IReadOnlyDictionary<string, double> MostGramsPerLitre { get; init; } = new Dictionary<string, double>(StringComparer.OrdinalIgnoreCase);

    /// <summary>What a kitchen scale of good make tells apart (common practice, no source).</summary>
    internal const double KitchenScaleGrams = 0.1;

    internal double Smallest(string addition) => Find(SmallestGrams, addition) ?? KitchenScaleGrams;

    internal double Most(string addition) => Find(MostGramsPerLitre, addition) ?? double.PositiveInfinity;

    private static double? Find(IReadOnlyDictionary<string, double> table, string addition)
    {
        foreach (var (name, value) in table)
        {
            if (string.Equals(name, addition, StringComparison.OrdinalIgnoreCase)) return value;
        }

        return null;
    }
}

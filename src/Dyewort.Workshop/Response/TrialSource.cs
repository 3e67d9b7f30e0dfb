using System.Security.Cryptography;
using System.Text;
using Dyewort.Chemistry;
using Dyewort.Notebook;
using Dyewort.Quantities;
using Dyewort.Response;

namespace Dyewort.Workshop.Response;

/// <summary>What was painted and read, from the notebook or from a file, and what the maker's own pantry says of the additions in
/// it.</summary>
/// <param name="Table">What was painted.</param>
/// <param name="Materials">The pantry's entry of each addition, by its name in the table; empty for a table out of a file.</param>
/// <param name="Teaspoon">Which teaspoon the maker means.</param>
public sealed record TrialSource(TrialTable Table, IReadOnlyDictionary<string, Material> Materials, Teaspoon Teaspoon)
{
    /// <summary>A table without a pantry: the additions are what the tables of chemistry know by their names.</summary>
    public static TrialSource Of(TrialTable table) =>
        new(table, new Dictionary<string, Material>(StringComparer.OrdinalIgnoreCase), Teaspoon.Metric);

    /// <summary>Before anything was painted.</summary>
    public static TrialSource None { get; } = Of(TrialTable.Of([], [], []));

    /// <summary>The painted rows with their place in the notebook; empty for a table out of a file.</summary>
    public IReadOnlyList<NotebookTrialsPainted> Painted { get; init; } = [];

    /// <summary>Millilitres of the maker's teaspoon.</summary>
    public double TeaspoonMl => KitchenMeasures.TeaspoonMillilitres(Teaspoon);

    /// <summary>The plants that were painted, those with most readings first.</summary>
    public IReadOnlyList<string> Plants =>
        [
            .. PaintedRows
                .GroupBy(row => row.Point.Plant, StringComparer.OrdinalIgnoreCase)
                .OrderByDescending(group => group.Count())
                .Select(group => group.Key),
        ];

    /// <summary>The papers that something was painted on.</summary>
    public IReadOnlyList<string> Papers =>
        [.. PaintedRows.Select(row => row.Point.Paper).Where(name => name.Length > 0).Distinct(StringComparer.OrdinalIgnoreCase)];

    /// <summary>Rows that hold ink, without those of bare paper.</summary>
    internal IEnumerable<TrialRow> PaintedRows => Table.Rows.Where(row => row.Point.Wash > 0);

    /// <summary>The painted rows of a sample, by its code in the table.</summary>
    public IEnumerable<NotebookTrialsPainted> Of(string sample) =>
        Painted.Where(one => string.Equals(one.Row.Point.Sample, sample, StringComparison.OrdinalIgnoreCase));

    /// <summary>Where in the notebook a row stands; null for one out of a file.</summary>
    public NotebookTrialsPainted? Of(TrialRow row) => Painted.FirstOrDefault(one => OneReading(one.Row, row));

    /// <summary>One painted reading per sample of a plant.</summary>
    public IReadOnlyList<NotebookTrialsPainted> OnePerSample(string plant) =>
        [
            .. Painted
                .Where(one => string.Equals(one.Row.Point.Plant, plant, StringComparison.OrdinalIgnoreCase))
                .GroupBy(one => one.Row.Point.Sample, StringComparer.OrdinalIgnoreCase)
                .Select(NotebookTrials.Speaking),
        ];

    /// <summary>A material's name in the table; null where nothing painted holds it.</summary>
    public string? NameOf(Material material) => Materials.FirstOrDefault(pair => pair.Value.Id == material.Id).Key;

    /// <summary>The pantry's entry of an addition, else what the tables of chemistry know by its name.</summary>
    public Material MaterialOf(string name)
    {
        ArgumentNullException.ThrowIfNull(name);
        return Materials.GetValueOrDefault(name)
            ?? new Material
            {
                // The same addition is the same material however often it is asked for.
                Id = new Guid(SHA256.HashData(Encoding.UTF8.GetBytes(name.ToUpperInvariant())).AsSpan(0, 16)),
                WrittenAt = DateTimeOffset.UnixEpoch,
                Name = name,
                Kind = MaterialKind.Addition,
            };
    }

    /// <summary>An addition as the table names it: by that name, or as another name of the same thing.</summary>
    public string Named(string name)
    {
        if (Table.Additions.FirstOrDefault(known => string.Equals(known, name, StringComparison.OrdinalIgnoreCase)) is { } same)
            return same;
        return
            KnownMaterials.Of(name) is { } meant
            && Table.Additions.Where(known => KnownMaterials.Of(known)?.Substance.Key == meant.Substance.Key).ToList() is [var only]
            ? only
            : name;
    }

    /// <summary>Grams of an amount of an addition. The maker's own spoon weight goes before the table's.</summary>
    public Outcome<Mass> Weigh(string field, string name, Amount amount)
    {
        var portion = Portion.Measured(field, Measured(name), amount, Teaspoon);
        return portion.TryGet(out var read) ? Outcome.Of(Mass.FromGrams(read.Grams)) : Outcome.Refused<Mass>(portion.Problems);
    }

    /// <summary>Grams of the smallest measure of each addition with an ordinary kitchen scale: 0.1 g, or a drop of what is
    /// poured.</summary>
    internal Doses SmallestGrams =>
        [.. Table.Additions.Select(name => new Dose(name, BenchMeasure.KitchenScale.Grams(MaterialOf(name), TeaspoonMl)))];

    /// <summary>Grams of a level teaspoon of each addition, where somebody knows it: the pantry first.</summary>
    internal Doses SpoonGrams => [.. Table.Additions.Select(name => new Dose(name, Measured(name).Spoonful(TeaspoonMl)?.Typical ?? 0))];

    private NamedSubstance Measured(string name) =>
        Materials.GetValueOrDefault(name) is { } material ? KnownMaterials.Measured(material) : KnownMaterials.Measured(name);

    // What is left of the liquor may have changed since a row was looked at; it says nothing of a colour.
    private static bool OneReading(TrialRow one, TrialRow other) =>
        one with { Point = one.Point with { LeftMillilitres = other.Point.LeftMillilitres } } == other;
}

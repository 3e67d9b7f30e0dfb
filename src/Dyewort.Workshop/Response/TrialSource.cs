using Dyewort.Notebook;
using Dyewort.Quantities;
using Dyewort.Response;

namespace Dyewort.Workshop.Response;

/// <summary>A table of trials, and what the maker's own pantry says of the additions in it.</summary>
/// <param name="Table">What was painted.</param>
/// <param name="Materials">The pantry's entry of each addition, by its name in the table; empty for a table out of a file.</param>
/// <param name="Teaspoon">Which teaspoon the maker means.</param>
public sealed record TrialSource(TrialTable Table, IReadOnlyDictionary<string, Material> Materials, Teaspoon Teaspoon)
{
    /// <summary>A table without a pantry.</summary>
    public static TrialSource Of(TrialTable table) => new(table, new Dictionary<string, Material>(), Teaspoon.Metric);

    /// <summary>Grams of a level teaspoon of each addition, where somebody knows it: the pantry first.</summary>
    internal Doses SpoonGrams =>
        [
            .. Table
                .Additions.Select(name =>
                    (
                        name,
                        Grams: Materials.GetValueOrDefault(name)?.GramsPerTeaspoon
                            ?? KnownMaterials.Of(name)?.Substance.GramsPerTeaspoon?.Typical
                    )
                )
                .Select(one => new Dose(one.name, one.Grams ?? 0)),
        ];

    /// <summary>An addition as the table names it: by that name, or as another name of the same thing.</summary>
    internal string Named(string name)
    {
        if (Table.Additions.FirstOrDefault(known => string.Equals(known, name, StringComparison.OrdinalIgnoreCase)) is { } same)
            return same;
        return
            KnownMaterials.Of(name) is { } meant
            && Table.Additions.Where(known => KnownMaterials.Of(known)?.Substance.Key == meant.Substance.Key).ToList() is [var only]
            ? only
            : name;
    }
}

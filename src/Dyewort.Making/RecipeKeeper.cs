using System.Globalization;
using Dyewort.Chemistry;
using Dyewort.Notebook;
using Dyewort.Quantities;

namespace Dyewort.Making;

/// <summary>Turns a sample that is worth keeping into a recipe, and a recipe into a card that can be scaled.</summary>
public static class RecipeKeeper
{
    /// <summary>The code of the next recipe.</summary>
    /// <param name="recipes">How many the notebook has, withdrawn ones too.</param>
    public static string NextCode(int recipes) => string.Create(CultureInfo.InvariantCulture, $"R{recipes + 1}");

    /// <summary>What a recipe is made from.</summary>
    public sealed record Kept
    {
        /// <summary>The sample.</summary>
        public required Sample Sample { get; init; }

        /// <summary>The stage of it, as <see cref="Stage.LastStep"/> names it.</summary>
        public int AfterStep { get; init; }

        /// <summary>Its proportions, from <see cref="Proportions.Of"/>: every step that made it what it is, in order.</summary>
        public required IReadOnlyList<Proportions.Part> Parts { get; init; }

        /// <summary>The materials those additions name.</summary>
        public required IReadOnlyDictionary<Guid, Material> Materials { get; init; }

        /// <summary>The liquor in words: "elderberry EB25-1".</summary>
        public string? Liquor { get; init; }

        /// <summary>The chosen swatch; null when none was painted.</summary>
        public Swatch? Swatch { get; init; }

        /// <summary>The chart it lies on; null with <see cref="Swatch"/>.</summary>
        public Chart? Chart { get; init; }

        /// <summary>The reading that counts; null when it was never read.</summary>
        public Reading? Reading { get; init; }
    }

    /// <summary>The first step that is more than can be written down, once it is carried to the volume of the first; null where all
    /// fit.</summary>
    public static Addition? TooMuch(IReadOnlyList<Proportions.Part> parts) =>
        parts.FirstOrDefault(part => !(part.ForMl > 0) || !part.Addition.Amount.Fits(parts[0].ForMl / part.ForMl)).Addition;

    /// <summary>Writes the recipe of a sample: amounts as they were entered, for the liquor they were measured for.</summary>
    /// <remarks>A sample that was poured from another has steps that were measured for different volumes; then the amounts of the later
    /// ones
    /// are carried to the volume of the first.</remarks>
    /// <param name="kept">The sample with what belongs to it.</param>
    /// <param name="code">The recipe's code, from <see cref="NextCode"/>.</param>
    /// <param name="name">What the maker calls it.</param>
    /// <param name="newId">Gives a new key each time.</param>
    /// <param name="now">UTC.</param>
    /// <exception cref="ArgumentException">The sample has no volume, or a material is missing: a fault of ours.</exception>
    public static (Recipe Recipe, IReadOnlyList<RecipeStep> Steps) Keep(
        Kept kept,
        string code,
        string name,
        Func<Guid> newId,
        DateTimeOffset now
    )
    {
        if (!(kept.Sample.VolumeMl > 0))
            throw new ArgumentException("The sample holds nothing.", nameof(kept));
        var baseMl = kept.Parts.Count > 0 ? kept.Parts[0].ForMl : kept.Sample.VolumeMl;
        var recipe = new Recipe
        {
            Id = newId(),
            WrittenAt = now,
            Code = code,
            Name = name,
            SampleId = kept.Sample.Id,
            AfterStep = kept.AfterStep,
            PotId = kept.Sample.PotId,
            SwatchId = kept.Swatch?.Id,
            ChartPosition = kept is { Chart: { } chart, Swatch: { } swatch } ? $"{chart.Code} {swatch.Cell}" : null,
            BaseVolumeMl = baseMl,
            Liquor = kept.Liquor,
            Colour = kept.Reading?.Colour,
            UncertaintyDe00 = kept.Reading?.UncertaintyDe00,
        };
        var steps = kept
            .Parts.Select(
                (part, index) =>
                {
                    var ratio = baseMl / part.ForMl;
                    return new RecipeStep
                    {
                        Id = newId(),
                        WrittenAt = now,
                        RecipeId = recipe.Id,
                        Step = index + 1,
                        MaterialId = part.Addition.MaterialId,
                        Name = kept.Materials.TryGetValue(part.Addition.MaterialId, out var material)
                            ? material.Name
                            : throw new ArgumentException($"Material {part.Addition.MaterialId} is missing.", nameof(kept)),
                        Amount = part.Addition.Amount.Times(ratio),
                    };
                }
            )
            .ToList();
        return (recipe, steps);
    }

    /// <summary>The card of a recipe. What a spoon weighed when it was measured goes before what the pantry says of the jar that stands
    /// there today.</summary>
    /// <param name="recipe">The recipe.</param>
    /// <param name="steps">Its steps.</param>
    /// <param name="weighs">What a step's material is today, with its spoon.</param>
    public static RecipeCard Card(Recipe recipe, IReadOnlyList<RecipeStep> steps, Func<RecipeStep, NamedSubstance> weighs)
    {
        var lines = new List<RecipeLine>();
        foreach (var step in steps.Where(step => step.Counts).OrderBy(step => step.Step))
        {
            var amount = step.Amount.ToAmount();
            lines.Add(new RecipeLine(step.Name, amount, AsItWas(weighs(step), step, amount)));
        }

        return new RecipeCard(recipe.Name, Volume.FromMillilitres(recipe.BaseVolumeMl), lines);
    }

    private static NamedSubstance AsItWas(NamedSubstance today, RecipeStep step, Amount amount)
    {
        double? spoon =
            step.Amount is { Grams: { } grams, Ml: > 0 and { } ml } && 5 * grams / ml is >= 0.05 and <= 100 and var five ? five : null;
        double? piece =
            amount is { Unit: AmountUnit.Piece, Number: > 0 } && step.Amount.Grams is > 0 and { } all ? all / amount.Number : null;
        return spoon is null && piece is null ? today : today with { Substance = today.Substance.Weighed(spoon, piece) };
    }
}

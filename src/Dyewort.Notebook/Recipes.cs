namespace Dyewort.Notebook;

/// <summary>A sample's proportions, independent of volume, with the colour it gave.</summary>
public sealed class Recipe : Entry
{
    /// <summary>Counts up through the notebook from 1; the code is "R" and this number.</summary>
    public required int Number { get; init; }

    /// <summary>What the maker calls it; it goes on labels.</summary>
    public required string Name { get; set; }

    /// <summary>The sample that was worth keeping.</summary>
    public required Guid SampleId { get; init; }

    /// <summary>The swatch that was chosen; null when the sample was kept before it was painted.</summary>
    public Guid? SwatchId { get; init; }

    /// <summary>The reading that says what colour it gave; null while nothing was read.</summary>
    public Guid? ReadingId { get; set; }

    /// <summary>Share of liquor in what was painted when the colour was chosen: 1 is undiluted.</summary>
    public required double Wash { get; set; }

    /// <summary>How many months a bottle of it is to be kept, 1 to 120; null when the program's usual time is taken.</summary>
    public int? KeepsMonths { get; set; }

    /// <summary>Anything else worth knowing when it is made again.</summary>
    public string? Note { get; set; }

    /// <summary>"R7".</summary>
    public string Code => FormattableString.Invariant($"R{Number}");
}

/// <summary>One thing that goes into a recipe, as it was measured once.</summary>
public sealed class RecipeLine : Entry
{
    /// <summary>The recipe.</summary>
    public required Guid RecipeId { get; init; }

    /// <summary>What goes in, a <see cref="Material"/>.</summary>
    public required Guid MaterialId { get; init; }

    /// <summary>Its place in the order, from 1; order can matter.</summary>
    public required int Step { get; init; }

    /// <summary>Millilitres of liquor that the amount was measured for, above zero.</summary>
    public required double ForMl { get; set; }

    /// <summary>The amount as it was entered: "¼ tsp".</summary>
    public required string AmountText { get; set; }

    /// <summary>Grams of it, when the amount could be carried to a mass.</summary>
    public double? Grams { get; set; }

    /// <summary>Millilitres of it, when the amount could be carried to a volume.</summary>
    public double? Ml { get; set; }
}

/// <summary>What a sample's proportions are.</summary>
public static class Proportions
{
    /// <summary>One amount and the liquor it belongs to.</summary>
    /// <param name="Addition">The step as it was written at the bench.</param>
    /// <param name="ForMl">Millilitres of plain liquor it was measured for.</param>
    public readonly record struct Part(Addition Addition, double ForMl);

    /// <summary>Every step that made a sample what it is, in order, those of the jars it was poured from first.</summary>
    /// <param name="sample">The sample.</param>
    /// <param name="jars">The samples it was poured from, by their keys; the sample itself need not be among them.</param>
    /// <param name="additions">The steps on a sample; withdrawn ones are left out.</param>
    /// <param name="isLiquid">True for a step that added a liquid: a spoon of powder vanishes into the liquor, a spoon of vinegar does not.</param>
    /// <remarks>
    /// What is poured from a jar holds less than its volume of plain liquor when liquids had been added to that jar; volumes are taken to
    /// add up (common practice, no source). Steps on the first jar after the second was poured from it do not count.
    /// </remarks>
    public static IReadOnlyList<Part> Of(Sample sample, IReadOnlyDictionary<Guid, Sample> jars, Func<Guid, IEnumerable<Addition>> additions, Func<Addition, bool> isLiquid) =>
        Trace(sample, jars, additions, isLiquid, DateTimeOffset.MaxValue, depth: 0).Parts;

    private static (IReadOnlyList<Part> Parts, double LiquorMl, double WholeMl) Trace(
        Sample sample, IReadOnlyDictionary<Guid, Sample> jars, Func<Guid, IEnumerable<Addition>> additions, Func<Addition, bool> isLiquid, DateTimeOffset until, int depth)
    {
        if (depth > 100) throw new InvalidOperationException("A sample cannot have been poured from itself.");
        IReadOnlyList<Part> before = [];
        var share = 1.0;
        if (sample.ParentId is { } parentId)
        {
            var (parts, liquorMl, wholeMl) = Trace(jars[parentId], jars, additions, isLiquid, sample.PouredAt, depth + 1);
            before = parts;
            share = liquorMl / wholeMl;
        }

        var own = additions(sample.Id).Where(step => step.Counts && step.At <= until).OrderBy(step => step.Step).ToList();
        var liquor = sample.VolumeMl * share;
        var poured = own.Where(isLiquid).Sum(step => step.Ml ?? 0);
        return ([.. before, .. own.Select(step => new Part(step, liquor))], liquor, sample.VolumeMl + poured);
    }
}

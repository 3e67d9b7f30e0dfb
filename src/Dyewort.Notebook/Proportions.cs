namespace Dyewort.Notebook;

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
    /// <param name="isLiquid">True for a step that added a liquid: a spoon of powder vanishes into the liquor, a spoon of vinegar does
    /// not.</param>
    /// <remarks>
    /// What is poured from a jar holds less than its volume of plain liquor when liquids had been added to that jar; volumes are taken to
    /// add up (common practice, no source). Steps on the first jar after the second was poured from it do not count.
    /// </remarks>
    public static IReadOnlyList<Part> Of(
        Sample sample,
        IReadOnlyDictionary<Guid, Sample> jars,
        Func<Guid, IEnumerable<Addition>> additions,
        Func<Addition, bool> isLiquid
    ) => Trace(sample, jars, additions, isLiquid, DateTimeOffset.MaxValue, depth: 0).Parts;

    /// <summary>The same of one stage of a sample.</summary>
    public static IReadOnlyList<Part> OfStage(
        Stage stage,
        IReadOnlyDictionary<Guid, Sample> jars,
        Func<Guid, IEnumerable<Addition>> additions,
        Func<Addition, bool> isLiquid
    )
    {
        ArgumentNullException.ThrowIfNull(stage);
        return Of(stage.Sample, jars, id => id == stage.Sample.Id ? stage.Steps : additions(id), isLiquid);
    }

    private static (IReadOnlyList<Part> Parts, double LiquorMl, double WholeMl) Trace(
        Sample sample,
        IReadOnlyDictionary<Guid, Sample> jars,
        Func<Guid, IEnumerable<Addition>> additions,
        Func<Addition, bool> isLiquid,
        DateTimeOffset until,
        int depth
    )
    {
        if (depth > 100)
            throw new InvalidOperationException("A sample cannot have been poured from itself.");
        IReadOnlyList<Part> before = [];
        var share = 1.0;
        if (sample.ParentId is { } parentId)
        {
            var (parts, liquorMl, wholeMl) = Trace(jars[parentId], jars, additions, isLiquid, sample.PouredAt, depth + 1);
            before = parts;
            share = liquorMl / wholeMl;
        }

        var own = Stage.Now(sample, additions(sample.Id).Where(step => step.At <= until)).Steps;
        var liquor = sample.VolumeMl * share;
        var poured = own.Where(isLiquid).Sum(step => step.Amount.Ml ?? 0);
        return ([.. before, .. own.Select(step => new Part(step, liquor))], liquor, sample.VolumeMl + poured);
    }
}

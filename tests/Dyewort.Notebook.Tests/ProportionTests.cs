using Dyewort.Quantities;
using Xunit;

namespace Dyewort.Notebook.Tests;

public sealed class ProportionTests
{
    private static readonly DateTimeOffset Start = new(2025, 9, 6, 8, 0, 0, TimeSpan.Zero);

    [Fact]
    public void What_was_poured_from_a_jar_carries_that_jars_proportions()
    {
        // 90 ml with 2 g, then 10 ml of a liquid: 100 ml in all. 50 ml of it hold 45 ml of liquor and 1 g.
        var first = Jar(90, null, 0);
        var second = Jar(50, first.Id, 60);
        var steps = new[]
        {
            Step(first, 1, 10, grams: 2),
            Step(first, 2, 20, ml: 10),
            Step(second, 1, 70, grams: 0.9),
            Step(first, 3, 80, grams: 5),
        };
        var proportions = Proportions.Of(
            second,
            new Dictionary<Guid, Sample> { [first.Id] = first },
            id => steps.Where(step => step.SampleId == id),
            step => step.Amount.Ml is not null
        );
        Assert.Equal([(2, 90), (null, 90), (0.9, 45)], proportions.Select(part => (part.Addition.Amount.Grams, part.ForMl)));
    }

    private static Sample Jar(double ml, Guid? parent, int minutes) =>
        new()
        {
            Id = Guid.CreateVersion7(Start.AddMinutes(minutes)),
            WrittenAt = Start,
            PotId = Guid.Empty,
            TrialId = Guid.Empty,
            ParentId = parent,
            Jar = "A",
            VolumeMl = ml,
            PouredAt = Start.AddMinutes(minutes),
        };

    private static Addition Step(Sample jar, int step, int minutes, double? grams = null, double? ml = null) =>
        new()
        {
            Id = Guid.CreateVersion7(Start.AddMinutes(minutes)),
            WrittenAt = Start,
            SampleId = jar.Id,
            MaterialId = Guid.Empty,
            Step = step,
            At = Start.AddMinutes(minutes),
            Amount = MeasuredAmount.Of(Amount.Of(1, AmountUnit.Gram), grams, ml: ml),
        };
}

using Dyewort.Quantities;
using Xunit;

namespace Dyewort.Notebook.Tests;

public sealed class StageTests
{
    private static readonly DateTimeOffset Start = new(2025, 9, 6, 8, 0, 0, TimeSpan.Zero);

    private static readonly Sample Jar = new()
    {
        Id = Guid.CreateVersion7(Start),
        WrittenAt = Start,
        PotId = Guid.Empty,
        TrialId = Guid.Empty,
        Jar = "A3",
        VolumeMl = 90,
        PouredAt = Start,
    };

    [Fact]
    public void What_goes_in_later_changes_no_stage_before_it()
    {
        var (first, second, third) = (Step(1), Step(2), Step(3));
        Assert.Empty(Stage.Of(Jar, 0, [third, first, second]).Steps);
        var after = Stage.Of(Jar, 2, [third, first, second]);
        Assert.Equal([first, second], after.Steps);
        Assert.Equal([third], after.Later);
        Assert.Equal(2, after.LastStep);
        Assert.Equal([first, second, third], Stage.Now(Jar, [third, first, second]).Steps);
        Assert.Empty(Stage.Now(Jar, [third]).Later);
    }

    [Fact]
    public void A_withdrawn_step_leaves_every_stage()
    {
        var (first, second, third) = (Step(1), Step(2), Step(3));
        second.WithdrawnAt = Start.AddHours(1);
        var stage = Stage.Of(Jar, 2, [first, second, third]);
        Assert.Equal([first], stage.Steps);
        Assert.Equal((1, true, true, false), (stage.LastStep, stage.IsAfter(1), stage.IsAfter(2), stage.IsAfter(3)));
        Assert.False(stage.IsAfter(0));
    }

    [Fact]
    public void A_step_written_up_later_lies_in_the_stage_of_the_step_it_followed()
    {
        var (first, second) = (Step(1), Step(2));
        var (late, before) = (Step(1, minutes: 60), Step(0, minutes: 90));
        Assert.Equal([before, first, late], Stage.Of(Jar, 1, [first, second, late, before]).Steps);
        Assert.Equal([before], Stage.Of(Jar, 0, [first, second, late, before]).Steps);
    }

    [Fact]
    public void Its_pH_is_the_last_tested_up_to_it_and_only_the_last_step_s_is_of_everything()
    {
        var (first, second, third) = (Step(1, ph: 4.1), Step(2), Step(3, ph: 8.2));
        Addition[] steps = [first, second, third];
        Assert.Equal((null, null), (Stage.Of(Jar, 0, steps).Ph, Stage.Of(Jar, 0, steps).PhWithAllIn));
        Assert.Equal((4.1, 4.1), (Stage.Of(Jar, 1, steps).Ph, Stage.Of(Jar, 1, steps).PhWithAllIn));
        Assert.Equal((4.1, null), (Stage.Of(Jar, 2, steps).Ph, Stage.Of(Jar, 2, steps).PhWithAllIn));
        Assert.Equal((8.2, 8.2), (Stage.Of(Jar, 3, steps).Ph, Stage.Of(Jar, 3, steps).PhWithAllIn));
    }

    [Fact]
    public void Stages_that_were_painted_are_counted_and_squares_of_one_share_its_name()
    {
        Addition[] steps = [Step(1), Step(2), Step(3), Step(4)];
        var (plain, wash, second, third, waiting) = (Square(0), Square(0), Square(2), Square(3), Square(null));
        var stages = Stage.OfSquares(Jar, steps, [waiting, third, second, wash, plain]);
        Assert.Equal(
            ["A3", "A3", "A3.2", "A3.3", "A3.4"],
            new[] { plain, wash, second, third, waiting }.Select(square => stages[square.Id].Code)
        );
        Assert.Equal(4, stages[waiting.Id].Stage.LastStep);

        // Step 3 was never put in: its square was painted from what step 2 left.
        steps[2].WithdrawnAt = Start.AddHours(1);
        Assert.Equal("A3.2", Stage.OfSquares(Jar, steps, [third, second, plain])[third.Id].Code);
    }

    [Fact]
    public void A_stage_is_called_what_is_printed_under_its_first_square()
    {
        Addition[] steps = [Step(1), Step(2)];

        // Twice from the plain liquor, then a wash and the undiluted ink after both steps, and a second sheet that begins anew.
        var (first, again, wash, later, sheet2) = (
            Square(0, "A3"),
            Square(0, "A3.2"),
            Square(2, "A3.3/4"),
            Square(2, "A3.3"),
            Square(1, "A3")
        );
        var stages = Stage.OfSquares(Jar, steps, [first, again, wash, later, sheet2]);
        Assert.Equal(["A3", "A3", "A3.3", "A3.3"], new[] { first, again, wash, later }.Select(square => stages[square.Id].Code));
        Assert.Equal("A3.2", stages[sheet2.Id].Code);
    }

    private static Swatch Square(int? after, string cell = "A1") =>
        new()
        {
            Id = Guid.CreateVersion7(Start),
            WrittenAt = Start,
            ChartId = Guid.Empty,
            Cell = cell,
            SampleId = Jar.Id,
            Coats = 1,
            Wash = 1,
            AfterStep = after,
        };

    private static Addition Step(int step, double? ph = null, int? minutes = null) =>
        new()
        {
            Id = Guid.CreateVersion7(Start.AddMinutes(minutes ?? step)),
            WrittenAt = Start,
            SampleId = Jar.Id,
            MaterialId = Guid.Empty,
            Step = step,
            At = Start.AddMinutes(minutes ?? step),
            Amount = MeasuredAmount.Of(Amount.Of(1, AmountUnit.Gram), 1),
            Ph = ph,
        };
}

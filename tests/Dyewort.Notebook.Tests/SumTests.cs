using Dyewort.Quantities;
using Xunit;

namespace Dyewort.Notebook.Tests;

/// <summary>The notebook's own sums: liquor left in a pot, and what is in a jar so far.</summary>
public sealed class SumTests
{
    private static readonly DateTimeOffset Start = new(2025, 9, 6, 8, 0, 0, TimeSpan.Zero);

    [Fact]
    public void Liquor_left_is_the_last_measure_less_what_was_drawn_since()
    {
        List<PotLogEntry> log = [Log(LogKind.Strained, 60, 790), Log(LogKind.Reduced, 180, 540), Log(LogKind.PouredAway, 200, 20)];
        var drawn = new[] { (Start.AddMinutes(90), 100.0), (Start.AddMinutes(240), 160.0) };
        Assert.Equal(540 - 20 - 160, LiquorSum.LeftMl(log, drawn));
        Assert.Equal(540, LiquorSum.MeasuredMl(log));
    }

    [Fact]
    public void Nothing_is_left_to_say_while_nobody_measured()
    {
        Assert.Null(LiquorSum.LeftMl([Log(LogKind.Note, 10, null)], []));
        Assert.Null(LiquorSum.MeasuredMl([]));
    }

    [Fact]
    public void A_withdrawn_line_does_not_count()
    {
        var slip = Log(LogKind.Reduced, 180, 54);
        slip.WithdrawnAt = Start.AddMinutes(181);
        Assert.Equal(790, LiquorSum.LeftMl([Log(LogKind.Strained, 60, 790), slip], []));
    }

    [Fact]
    public void A_jar_adds_up_by_material_in_grams_dose_and_spoons()
    {
        var alum = Guid.NewGuid();
        var vinegar = Guid.NewGuid();
        var undone = Step(4, alum, grams: 9);
        undone.WithdrawnAt = Start;
        var totals = RunningTotal.Of(
            90,
            [Step(1, alum, grams: 1.2), Step(2, vinegar, ml: 2.5), Step(3, alum, grams: 2.4), undone],
            id => id == alum ? 4.8 : null,
            Teaspoon.Metric
        );
        Assert.Equal([alum, vinegar], totals.Select(total => total.MaterialId));
        Assert.Equal(2, totals[0].Times);
        Assert.Equal(3.6, totals[0].Grams!.Value, 1e-12);
        Assert.Equal(4.0, totals[0].GramsPer100Ml!.Value, 1e-12);
        Assert.Equal(0.75, totals[0].Teaspoons!.Value, 1e-12);
        Assert.Null(totals[1].Grams);
        Assert.Equal(0.5, totals[1].Teaspoons!.Value, 1e-12);
    }

    [Fact]
    public void Half_a_teaspoon_is_half_a_teaspoon_of_any_size()
    {
        // An imperial teaspoon of 5.919 ml: the spoon's weight and its volume are both the maker's own.
        var spoonMl = KitchenMeasures.TeaspoonMillilitres(Teaspoon.Imperial);
        var (alum, vinegar) = (Guid.NewGuid(), Guid.NewGuid());
        var totals = RunningTotal.Of(
            90,
            [Step(1, alum, grams: 0.5 * 4.94 * spoonMl / 5), Step(2, vinegar, ml: 0.5 * spoonMl)],
            id => id == alum ? 4.94 * spoonMl / 5 : null,
            Teaspoon.Imperial
        );
        Assert.Equal([0.5, 0.5], totals.Select(total => Math.Round(total.Teaspoons!.Value, 12)));
    }

    private static PotLogEntry Log(LogKind kind, int minutes, double? ml) =>
        new()
        {
            Id = Guid.CreateVersion7(Start.AddMinutes(minutes)),
            WrittenAt = Start,
            PotId = Guid.Empty,
            At = Start.AddMinutes(minutes),
            Kind = kind,
            Ml = ml,
        };

    private static Addition Step(int step, Guid material, double? grams = null, double? ml = null) =>
        new()
        {
            Id = Guid.CreateVersion7(Start.AddMinutes(step)),
            WrittenAt = Start,
            SampleId = Guid.Empty,
            MaterialId = material,
            Step = step,
            At = Start,
            Amount = MeasuredAmount.Of(Amount.Of(1, AmountUnit.Gram), grams, ml: ml),
        };
}

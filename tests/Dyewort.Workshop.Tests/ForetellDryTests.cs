using Dyewort.Colour;
using Dyewort.Readings;
using Dyewort.Workshop.Readings;
using Xunit;

namespace Dyewort.Workshop.Tests;

public sealed class ForetellDryTests
{
    private static readonly Lab Paper = new(95, 0, 3);

    [Fact]
    public void Earlier_readings_of_a_chart_wet_and_dry_teach_what_a_wet_photo_dries_to()
    {
        var wet = Result([("A1", new(40, 30, -20), 1), ("B1", new(55, 10, 30), 1), ("C1", Paper, 0)]);
        var dry = Result([("A1", new(46, 26, -17), 1), ("B1", new(61, 9, 26), 1), ("C1", Paper, 0)]);
        Assert.True(ForetellDry.PairsFrom(ReadingJson.Write(wet), ReadingJson.Write(dry)).TryGet(out var pairs));
        Assert.Equal(2, pairs.Count);
        var guess = new ForetellDry().Handle(new(wet.Swatches, Paper, []));
        var learnt = new ForetellDry().Handle(new(wet.Swatches, Paper, pairs));
        Assert.Equal(["A1", "B1"], learnt.Keys.Order(StringComparer.Ordinal));
        Assert.Equal((0, 2), (guess["A1"].Pairs, learnt["A1"].Pairs));
        Assert.True(learnt["A1"].UncertaintyDe00 < guess["A1"].UncertaintyDe00);
        Assert.True(
            Difference.Ciede2000(learnt["A1"].Dry, new(46, 26, -17)) < Difference.Ciede2000(guess["A1"].Dry, new(46, 26, -17)) + 0.01
        );
        Assert.Contains("\"dry\"", ReadingJson.Write(wet, null, learnt), StringComparison.Ordinal);
    }

    [
        Theory,
        InlineData("{}"),
        InlineData("not json"),
        InlineData("{\"swatches\":[],\"calibration\":{\"paperLab\":[95,0,3]}}"),
        InlineData("[]")
    ]
    public void What_is_no_reading_is_refused(string json) =>
        Assert.Equal("dried", Assert.Single(ForetellDry.PairsFrom(json, json).Problems).Field);

    private static ReadingResult Result((string Id, Lab Lab, double Coverage)[] swatches) =>
        new(
            [.. swatches.Select(one => new SwatchReading(one.Id, one.Lab.ToXyz(), 2, 1, one.Coverage, []))],
            new("paper", 1, null) { Paper = Paper },
            [],
            []
        );
}

using Dyewort.Response.Tests.Generated;

namespace Dyewort.Response.Tests;

/// <summary>What every maker of berry ink sees (common practice, no source), said by the program of made-up anthocyanin plants.</summary>
public sealed class TradeFactsTests
{
    [Theory]
    [InlineData(4, "citric acid", 5, "redder", "turns red")]
    [InlineData(4, "bicarbonate of soda", 5, "blue", "green")]
    [InlineData(4, "copperas", 2.5, "darker", "greyer")]
    [InlineData(5, "citric acid", 5, "redder", "turns red")]
    [InlineData(5, "bicarbonate of soda", 5, "blue", "green")]
    [InlineData(5, "copperas", 2.5, "darker", "greyer")]
    public void Acid_reddens_soda_turns_blue_to_green_iron_darkens_and_greys(double ph, string addition, double dose, params string[] words)
    {
        // A plant of about this pH that was tested with all three.
        var plant = Enumerable
            .Range(0, 400)
            .Select(i => new PlantMaker(4 * i))
            .First(one =>
                one.Used.Contains("citric acid")
                && one.Used.Contains("bicarbonate of soda")
                && one.Used.Contains("copperas")
                && Math.Abs(one.PhOf(Doses.None) - ph) < 0.6
            );
        Assert.Equal("anthocyanin", plant.Kind);
        var rows = Enumerable.Range(0, 20).Select(i => plant.Read(plant.Draw($"S{i}", plain: i == 0), 0.7)).ToArray();
        Assert.True(ResponseModel.Fit(rows, plant.Used).TryGet(out var model));
        var plain = model.Predict(model.UsualSetting());
        var after = model.Predict(model.UsualSetting() with { GramsPerLitre = [new(addition, dose)] });
        var said = ColourMove.Describe(plain.Colour, after.Colour);
        if (addition == "copperas")
            Assert.True(
                words.All(word => said.Contains(word, StringComparison.Ordinal)),
                $"{said}; pH {plain.Ph.Ph:0.0} to {after.Ph.Ph:0.0}; {plain.Colour} to {after.Colour}"
            );
        else
            Assert.True(words.Any(word => said.Contains(word, StringComparison.Ordinal)), said);
    }
}

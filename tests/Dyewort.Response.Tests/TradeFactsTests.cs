using Dyewort.Response.Tests.Generated;

namespace Dyewort.Response.Tests;

/// <summary>What every maker of berry ink sees (common practice, no source), said by the program of a made-up anthocyanin plant.</summary>
public sealed class TradeFactsTests
{
    [Theory]
    [InlineData("citric acid", 5, "redder", "turns red")]
    [InlineData("bicarbonate of soda", 5, "blue", "green")]
    [InlineData("copperas", 2.5, "darker", "greyer")]
    public void Acid_reddens_soda_turns_blue_to_green_iron_darkens_and_greys(string addition, double dose, params string[] words)
    {
        // A plant near pH 4 that was tested with all three.
        var plant = Enumerable.Range(0, 400).Select(i => new PlantMaker(4 * i))
            .First(one => one.Used.Contains("citric acid") && one.Used.Contains("bicarbonate of soda") && one.Used.Contains("copperas")
                && one.PhOf(new Dictionary<string, double>()) is > 3.4 and < 4.6);
        Assert.Equal("anthocyanin", plant.Kind);
        var rows = Enumerable.Range(0, 20).Select(i => plant.Read(plant.Draw($"S{i}", plain: i == 0), 0.7)).ToArray();
        Assert.True(ResponseModel.Fit(rows, plant.Used).TryGet(out var model));
        var plain = model.Predict(model.UsualSetting());
        var after = model.Predict(model.UsualSetting() with { GramsPerLitre = new Dictionary<string, double>(StringComparer.OrdinalIgnoreCase) { [addition] = dose } });
        var said = ColourMove.Describe(plain.Colour, after.Colour);
        if (addition == "copperas") Assert.All(words, word => Assert.Contains(word, said, StringComparison.Ordinal));
        else Assert.True(words.Any(word => said.Contains(word, StringComparison.Ordinal)), said);
    }
}

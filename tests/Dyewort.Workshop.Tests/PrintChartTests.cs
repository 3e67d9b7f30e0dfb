using Dyewort.Workshop.Charts;
using Dyewort.Workshop.Trials;
using Xunit;

namespace Dyewort.Workshop.Tests;

public sealed class PrintChartTests
{
    private const string Reading =
        """{"swatches":[{"id":"A1","lab":[35,14,-21],"uncertaintyDe00":1.2,"evenness":0.9,"warnings":["glare"]},"""
        + """{"id":"B1"}],"calibration":{"method":"paper"}}""";

    [Fact]
    public void A_chart_is_made_of_what_a_photo_was_read_as()
    {
        Assert.True(
            new PrintChart(TimeProvider.System)
                .Handle(
                    new()
                    {
                        Reading = Reading,
                        Title = "Elder",
                        Chart = "C3",
                        Captions = """{"A1":"alum 2 g"}""",
                    }
                )
                .TryGet(out var pdf)
        );
        Assert.Equal("%PDF"u8.ToArray(), pdf[..4]);
    }

    [Theory]
    [InlineData("", "A4", "JSON")]
    [InlineData("{}", "A4", "no swatches")]
    [InlineData("""{"swatches":[{"id":"A1","lab":[35,14]}]}""", "A4", "“A1”")]
    [InlineData("""{"swatches":[{"id":"A1","lab":[135,14,0]}]}""", "A4", "“A1”")]
    [InlineData("""{"swatches":[{"lab":[35,14,0]}]}""", "A4", "no code")]
    [InlineData("""{"swatches":[{"id":"A1","lab":[35,14,0]}]}""", "60x60", "does not fit")]
    [InlineData("""{"swatches":[{"id":"A1","lab":[35,14,0]}]}""", "A12", "page size")]
    public void What_is_no_reading_is_refused(string reading, string page, string part) =>
        Assert.Contains(
            part,
            Assert.Single(new PrintChart(TimeProvider.System).Handle(new() { Reading = reading, Page = page }).Problems).What,
            StringComparison.Ordinal
        );

    [Theory]
    [InlineData("[]", "", "no jar")]
    [InlineData("[{}]", "", "no code")]
    [InlineData("{", "", "JSON")]
    [InlineData("""[{"jar":"A1"}]""", """{"page":"A4","columns":1,"rows":1,"widthMm":20,"heightMm":10,"leftMm":5,"topMm":5}""", "30 × 18")]
    public void Jars_that_are_none_get_no_tags(string jars, string sheet, string part) =>
        Assert.Contains(
            part,
            Assert.Single(new PrintJarTags(TimeProvider.System).Handle(jars, sheet).Problems).What,
            StringComparison.Ordinal
        );

    [Fact]
    public void Jars_get_tags() =>
        Assert.True(
            new PrintJarTags(TimeProvider.System)
                .Handle("""[{"jar":"A1","liquor":"20 ml of EB25-1","additions":[{"name":"alum","amount":"0.4 g"}]}]""", "")
                .TryGet(out _)
        );
}

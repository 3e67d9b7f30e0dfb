using Xunit;

namespace Dyewort.Safety.Tests;

public sealed class PlantHazardTests
{
    /// <summary>Plants of poison-centre and growers' lists that the table names with each row, and from memory where it says so.</summary>
    [Theory]
    [InlineData("yew needles")]
    [InlineData("Lily-of-the-valley")]
    [InlineData("oleander")]
    [InlineData("hemlock")]
    [InlineData("Laburnum anagyroides")]
    [InlineData("autumn crocus")]
    [InlineData("castor beans")]
    [InlineData("datura")]
    public void A_deadly_plant_stops(string plant) => Assert.Equal(CareLevel.Stop, PlantHazard.For(plant)[0].Level);

    [Theory]
    [InlineData("pokeberries")]
    [InlineData("alder buckthorn bark")]
    [InlineData("lords-and-ladies")]
    [InlineData("spurge")]
    [InlineData("walnut hulls")]
    [InlineData("black turtle beans")]
    [InlineData("cherry laurel")]
    public void A_plant_that_hurts_asks_for_care(string plant) => Assert.Equal(CareLevel.Careful, PlantHazard.For(plant)[0].Level);

    [Theory]
    [InlineData("sea buckthorn")]
    [InlineData("hemlock bark")]
    [InlineData("staghorn sumac")]
    [InlineData("ground elder")]
    [InlineData("weld")]
    [InlineData("something else")]
    [InlineData(null)]
    public void A_plant_does_not_get_another_ones_warning(string? plant) => Assert.Empty(PlantHazard.For(plant));

    [Fact]
    public void Bay_laurel_is_no_cherry_laurel()
    {
        var bay = Assert.Single(PlantHazard.For("bay laurel"));
        Assert.Equal(CareLevel.Note, bay.Level);
        Assert.Contains("cherry laurel", bay.LookAlike, StringComparison.Ordinal);
    }

    [Fact]
    public void Every_row_is_whole()
    {
        Assert.True(PlantHazard.All.Count > 200);
        Assert.All(
            PlantHazard.All,
            row =>
            {
                Assert.NotEmpty(row.What);
                Assert.NotEmpty(row.Source);
                Assert.DoesNotContain("existing row", row.Words, StringComparison.Ordinal);
            }
        );
        Assert.Contains(PlantHazard.All, row => row.IsSeen);
        Assert.Contains(PlantHazard.All, row => !row.IsSeen);
    }

    /// <summary>A label names the plant by both its names.</summary>
    [Fact]
    public void Every_plant_has_a_botanical_name() => Assert.All(PlantHazard.All, row => Assert.NotEmpty(row.Latin));
}

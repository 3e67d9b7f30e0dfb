using Dyewort.Safety;
using Xunit;

namespace Dyewort.Chemistry.Tests;

/// <summary>A poison that the cupboard does not have is never led to a food of a like name.</summary>
public sealed class PoisonNameTests
{
    [Theory]
    [InlineData("potassium dichromate", "cancer")]
    [InlineData("lead acetate", "children")]
    [InlineData("oxalic acid", "kidneys")]
    [InlineData("mercuric chloride", "deadly")]
    [InlineData("potassium permanganate", "lights")]
    public void The_refusal_says_what_it_is(string name, string says)
    {
        var problem = Assert.Single(SubstanceCatalogue.Standard.Find("name", name).Problems);
        Assert.Contains("dangerous", problem.What, StringComparison.Ordinal);
        Assert.Contains(says, problem.Remedy, StringComparison.Ordinal);
        Assert.DoesNotContain("Did you mean", problem.Remedy, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("oxalic acid")]
    [InlineData("lead acetate")]
    [InlineData("barium acetate")]
    [InlineData("potassium dichromate")]
    [InlineData("potassium chlorate")]
    public void No_other_thing_is_proposed(string name) => Assert.Empty(SubstanceCatalogue.Standard.Nearest(name));

    [Theory]
    [InlineData("potasium bicarbonat", "potassium bicarbonate")]
    [InlineData("citrik acid", "citric acid")]
    [InlineData("vineger", "vinegar")]
    public void A_slip_of_the_pen_is_still_understood(string typed, string meant) =>
        Assert.Contains(meant, SubstanceCatalogue.Standard.Nearest(typed));

    [Fact]
    public void Every_hazard_that_the_cupboard_names_is_in_the_list() =>
        Assert.All(
            SubstanceCatalogue.Standard.Substances.Where(one => one.HazardKey.Length > 0),
            one => Assert.Contains(one.HazardKey, HazardList.Keys)
        );

    [Theory]
    [InlineData("white vinegar 5 %", "none")]
    [InlineData("white vinegar 25 %", "Danger")]
    [InlineData("acetic acid 80 %", "Danger")]
    [InlineData("household ammonia 25 %", "Danger")]
    [InlineData("vodka", "Warning")]
    [InlineData("aluminium sulfate", "Danger")]
    [InlineData("alum", "none")]
    public void The_strength_that_was_said_decides(string name, string signal)
    {
        Assert.True(SubstanceCatalogue.Standard.Find("name", name).TryGet(out var found));
        Assert.Equal(signal, found.Hazard!.SignalWord);
    }
}

using Xunit;

namespace Dyewort.Safety.Tests;

public sealed class HazardListTests
{
    /// <summary>What a strength changes. gischem.de (BG RCI) sheets 2348, 6345, 4435, 4413, 577, 770, 6380, 916 and 7372 as read; the
    /// others are the limits of Regulation (EC) 1272/2008 from memory.</summary>
    [Theory]
    [InlineData("acetic-acid", 5, "none", "")]
    [InlineData("acetic-acid", 24, "Warning", "H315 H319")]
    [InlineData("acetic-acid", 25, "Danger", "H290 H314")]
    [InlineData("acetic-acid", 80, "Danger", "H290 H314")]
    [InlineData("acetic-acid", 99, "Danger", "H226 H290 H314")]
    [InlineData("formic-acid", 10, "Danger", "H290 H314")]
    [InlineData("ammonia", 2, "Warning", "H315 H319")]
    [InlineData("ammonia", 4, "Danger", "H315 H318")]
    [InlineData("ammonia", 9, "Danger", "H290 H314 H335")]
    [InlineData("ammonia", 25, "Danger", "H290 H314 H335 H400")]
    [InlineData("caustic-soda", 1, "Warning", "H290 H315 H319")]
    [InlineData("caustic-soda", 100, "Danger", "H290 H314")]
    [InlineData("hydrogen-peroxide", 3, "none", "")]
    [InlineData("hydrogen-peroxide", 6, "Warning", "H319")]
    [InlineData("hydrogen-peroxide", 12, "Danger", "H272 H318")]
    [InlineData("iron-sulfate", 1.3, "none", "")]
    [InlineData("iron-sulfate", 100, "Warning", "H302 H315 H319")]
    [InlineData("copper-sulfate", 1.6, "Warning", "H319 H412")]
    [InlineData("copper-sulfate", 100, "Danger", "H302 H318 H410")]
    [InlineData("aluminium-sulfate", 100, "Danger", "H290 H318")]
    [InlineData("borax", 0.2, "none", "")]
    [InlineData("borax", 0.3, "Danger", "H360FD")]
    [InlineData("ethanol", 40, "Warning", "H226")]
    [InlineData("ethanol", 95, "Danger", "H225 H319")]
    public void A_class_follows_the_strength(string key, double percent, string signal, string codes)
    {
        var hazard = HazardList.At(key, percent);
        Assert.Equal((signal, codes), (hazard.SignalWord, hazard.HCodes));
    }

    [Fact]
    public void Every_row_has_a_caution_a_way_out_and_statements_that_are_known()
    {
        Assert.True(HazardList.Keys.Count >= 80);
        foreach (var key in HazardList.Keys)
        {
            foreach (var percent in new[] { 0, 0.5, 3, 10, 25, 60, 100 })
            {
                var hazard = HazardList.At(key, percent);
                Assert.True(key == "water" || hazard.Caution.Length > 10, key);
                Assert.NotEmpty(hazard.Disposal);
                Assert.True(hazard.HCodes.Length == 0 || hazard.Source.Length > 0, key);
                Assert.DoesNotContain("H3", hazard.Words, StringComparison.Ordinal);
            }
        }
    }

    [Theory]
    [InlineData("Potassium dichromate", CareLevel.Stop)]
    [InlineData("lead acetate", CareLevel.Stop)]
    [InlineData("sugar of lead", CareLevel.Stop)]
    [InlineData("thick bleach", CareLevel.Stop)]
    [InlineData("oxalic acid", CareLevel.Careful)]
    [InlineData("copper sulphate", CareLevel.Careful)]
    [InlineData("slaked lime", CareLevel.Careful)]
    [InlineData("wintergreen oil", CareLevel.Careful)]
    [InlineData("oat milk", null)]
    public void A_name_is_found_as_it_is_said(string name, CareLevel? level) => Assert.Equal(level, HazardList.Find(name)?.Level);
}

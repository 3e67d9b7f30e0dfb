using Dyewort.Numerics;
using Xunit;

namespace Dyewort.Safety.Tests;

public sealed class PairHazardTests
{
    /// <summary>What every household warning and school book of chemistry says must not meet; from memory.</summary>
    [Theory]
    [InlineData("bleach", "white vinegar", CareLevel.Stop)]
    [InlineData("vinegar", "thick bleach", CareLevel.Stop)]
    [InlineData("bleach", "citric acid", CareLevel.Stop)]
    [InlineData("bleach", "alum", CareLevel.Stop)]
    [InlineData("bleach", "ammonia", CareLevel.Stop)]
    [InlineData("pool chlorine", "vodka", CareLevel.Stop)]
    [InlineData("bleach", "acetone", CareLevel.Stop)]
    [InlineData("hydrogen peroxide", "vinegar", CareLevel.Stop)]
    [InlineData("hydrogen peroxide", "acetone", CareLevel.Stop)]
    [InlineData("sodium metabisulfite", "citric acid", CareLevel.Stop)]
    [InlineData("sodium dithionite", "vinegar", CareLevel.Stop)]
    [InlineData("liver of sulfur", "alum", CareLevel.Stop)]
    [InlineData("red prussiate", "tartaric acid", CareLevel.Stop)]
    [InlineData("potassium permanganate", "glycerine", CareLevel.Stop)]
    [InlineData("nitric acid", "vodka", CareLevel.Stop)]
    [InlineData("hydrogen peroxide", "citric acid", CareLevel.Careful)]
    [InlineData("bicarbonate of soda", "vinegar", CareLevel.Careful)]
    [InlineData("slaked lime", "sal ammoniac", CareLevel.Careful)]
    [InlineData("copper sulfate", "ammonia", CareLevel.Careful)]
    [InlineData("vitamin C", "sodium benzoate", CareLevel.Careful)]
    [InlineData("iron sulfate", "tannic acid", CareLevel.Note)]
    [InlineData("salt", "alum", null)]
    [InlineData("honey", "gum arabic", null)]
    public void Two_things_that_meet(string first, string second, CareLevel? level)
    {
        var (one, other) = (HazardList.Find(first)!, HazardList.Find(second)!);
        Assert.Equal(level, PairHazard.Between(one, other)?.Level);
        Assert.Equal(level, PairHazard.Between(other, one)?.Level);
    }

    [Fact]
    public void Every_kind_of_the_pairs_is_a_kind_or_a_key_of_the_list()
    {
        var known = HazardList.Keys.Concat(HazardList.Keys.SelectMany(key => HazardList.At(key).Kinds.Split(' '))).ToHashSet();
        var rows = TextTable.Embedded(typeof(PairHazard), "pairs.csv").Rows;
        Assert.True(rows.Count > 50);
        foreach (var row in rows)
        {
            Assert.Contains(row["first"], known);
            Assert.Contains(row["second"], known);
            Assert.True(Enum.TryParse<CareLevel>(row["level"], ignoreCase: true, out var level) && level > CareLevel.None);
            Assert.True(row["what"].Length > 10 && row["source"].Length > 0 && row["sure"] is "seen" or "memory");
        }
    }

    [Fact]
    public void The_worst_of_several_stands_first()
    {
        (string, Hazard)[] jar =
        [
            ("soda", HazardList.Find("washing soda")!),
            ("vinegar", HazardList.Find("vinegar")!),
            ("metabisulfite", HazardList.Find("metabisulfite")!),
        ];
        var pairs = PairHazard.Among(jar);
        Assert.Equal((CareLevel.Stop, "vinegar", "metabisulfite"), (pairs[0].Level, pairs[0].First, pairs[0].Second));
        Assert.Contains(pairs, pair => pair.Level == CareLevel.Careful && pair.First == "soda");
    }
}

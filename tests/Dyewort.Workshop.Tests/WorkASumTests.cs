using Dyewort.Workshop.Chemistry;
using Xunit;

namespace Dyewort.Workshop.Tests;

public sealed class WorkASumTests
{
    [Fact]
    public void A_lake_of_ten_grams_of_alum_names_its_soda_its_gas_and_its_white_body()
    {
        var lines = Lines(
            new()
            {
                Sum = "lake",
                Salt = "alum",
                SaltGrams = "10",
                Alkali = "soda ash",
                LiquorMl = "500",
                DryYieldGrams = "2.5",
            }
        );
        Assert.Contains("between 3.4 g", lines[0], StringComparison.Ordinal);
        Assert.Contains("6.7 g", lines[0], StringComparison.Ordinal);
        Assert.Contains("0.76 litres", lines[0], StringComparison.Ordinal);
        Assert.Contains("1.64 g", lines[0], StringComparison.Ordinal);
        Assert.Contains("as it should be", lines[1], StringComparison.Ordinal);
        Assert.Contains("safety data sheet", lines[2], StringComparison.Ordinal);
    }

    [Fact]
    public void A_stock_bottle_counts_its_drops_and_warns_of_its_iron()
    {
        var lines = Lines(
            new()
            {
                Sum = "stock",
                Substance = "copperas",
                Doses = "0.005 0.01, 0.02",
                Tool = "drops",
            }
        );
        Assert.Equal(3, lines.Count(line => line.Contains("drops (", StringComparison.Ordinal)));
        Assert.DoesNotContain(lines, line => line.Contains(": 1 drops", StringComparison.Ordinal));
        Assert.Contains(lines, line => line.Contains("make children gravely ill when swallowed", StringComparison.Ordinal));
    }

    [Fact]
    public void Iron_gum_spirit_and_titration_answer_in_sentences()
    {
        Assert.Contains(
            "1.7 times balance",
            Lines(
                new()
                {
                    Sum = "iron",
                    CopperasGrams = "1",
                    TanninGrams = "1",
                }
            )[0],
            StringComparison.Ordinal
        );
        Assert.Contains(
            "of the gum solution",
            Lines(
                new()
                {
                    Sum = "gum",
                    GumParts = "1",
                    WaterParts = "3",
                    GumPer100 = "3",
                    InkMl = "90",
                }
            )[0],
            StringComparison.Ordinal
        );
        var spirit = Lines(
            new()
            {
                Sum = "spirit",
                SpiritPercent = "96",
                GoalPercent = "20",
                InkMl = "100",
            }
        );
        Assert.Contains("brings 100 ml of water ink to 20 %", spirit[0], StringComparison.Ordinal);
        Assert.Contains("no flame", spirit[1], StringComparison.Ordinal);
        Assert.Contains(
            "g of copperas in a litre",
            Lines(
                new()
                {
                    Sum = "titration",
                    TanninGrams = "0.1",
                    IronLiquorMl = "2",
                }
            )[0],
            StringComparison.Ordinal
        );
    }

    [Theory]
    [InlineData("lake", "ten", "100", "5", "1", "20")]
    [InlineData("lake", "-1", "100", "5", "1", "20")]
    [InlineData("spirit", "10", "90", "5", "1", "95")]
    [InlineData("gum", "10", "90", "80", "1", "20")]
    [InlineData("gum", "10", "90", "3", "9", "20")]
    [InlineData("stock", "10", "90", "3", "1", "20")]
    [InlineData("nothing", "10", "90", "3", "1", "20")]
    public void What_cannot_be_reckoned_is_refused_in_a_sentence(
        string sum,
        string grams,
        string ink,
        string gum,
        string parts,
        string goal
    )
    {
        var outcome = new WorkASum().Handle(
            new()
            {
                Sum = sum,
                Salt = "alum",
                Alkali = "soda ash",
                SaltGrams = grams,
                LiquorMl = "500",
                InkMl = ink,
                GumPer100 = gum,
                GumParts = parts,
                WaterParts = "3",
                SpiritPercent = "40",
                GoalPercent = goal,
                Substance = "alum",
            }
        );
        Assert.False(outcome.TryGet(out _));
        Assert.All(outcome.Problems, problem => Assert.EndsWith(".", problem.What, StringComparison.Ordinal));
    }

    [Fact]
    public void A_jar_says_how_to_reach_a_pH_what_paper_makes_of_it_and_how_to_tip_it_away()
    {
        var describe = new DescribeJar();
        Assert.True(
            describe
                .Handle(
                    new()
                    {
                        Volume = "90 ml",
                        Liquor = "hibiscus",
                        Additions = ["copper sulfate = 1/16 tsp"],
                    }
                )
                .TryGet(out var answer)
        );
        Assert.Contains(
            describe.Reaching(answer, "4"),
            line => line.Contains("bicarbonate of soda", StringComparison.Ordinal) && line.Contains("pH 4.0", StringComparison.Ordinal)
        );
        Assert.Single(describe.Reaching(answer, "sour"));
        Assert.Empty(describe.Reaching(answer, ""));
        Assert.Contains(answer.OnPapers, line => line.Contains("violet, blue or grey", StringComparison.Ordinal));
        Assert.Contains(answer.TippingAway, line => line.Contains("hazardous-waste point", StringComparison.Ordinal));
    }

    private static IReadOnlyList<string> Lines(WorkASumForm form)
    {
        var outcome = new WorkASum().Handle(form);
        Assert.True(outcome.TryGet(out var answer), outcome.Problems.Count > 0 ? outcome.Problems[0].What : "");
        return answer.Lines;
    }
}

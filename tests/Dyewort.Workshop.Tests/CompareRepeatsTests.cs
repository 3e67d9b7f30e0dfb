using Dyewort.Colour;
using Dyewort.Quantities;
using Dyewort.Response;
using Dyewort.Workshop.Response;
using Xunit;

namespace Dyewort.Workshop.Tests;

public sealed class CompareRepeatsTests
{
    private static TrialRow Row(string sample, string state, double lightness) =>
        new(
            new()
            {
                Sample = sample,
                Plant = "weld",
                Paper = "rag",
                State = state,
                Wash = 1,
            },
            new Lab(lightness, 5, 40)
        );

    private static Outcome<CompareRepeatsAnswer> Compare(TrialTable table, string one, string other)
    {
        var trials = TrialSource.Of(table);
        return new CompareRepeats().Handle([ComparedSquares.Of(trials, one)!], [ComparedSquares.Of(trials, other)!], trials);
    }

    [Fact]
    public void Nothing_is_compared_with_itself() =>
        Assert.Contains(
            "itself",
            Assert.Single(Compare(TrialTable.Of([Row("A1", "dry", 40)], [], []), "A1", "A1").Problems).What,
            StringComparison.Ordinal
        );

    [Fact]
    public void A_week_is_not_taken_for_a_difference()
    {
        // Both read alike when dry; A1 was read twice after a week as well, and much darker.
        var table = TrialTable.Of(
            [Row("A1", "settled", 40), Row("A1", "settled", 40.5), Row("A1", "dry", 60), Row("B1", "dry", 60.2)],
            [],
            []
        );
        Assert.True(Compare(table, "A1", "B1").TryGet(out var found));
        Assert.Equal(DifferenceVerdict.No, found.Found.Verdict);
        Assert.InRange(found.Found.De00, 0.05, 0.5);
        Assert.Equal("dry", found.State);
    }

    [Fact]
    public void Samples_that_were_never_read_alike_are_not_compared()
    {
        var refused = Compare(TrialTable.Of([Row("A1", "wet", 40), Row("B1", "dry", 60)], [], []), "A1", "B1");
        Assert.False(refused.TryGet(out _));
        Assert.Contains("same state", Assert.Single(refused.Problems).What, StringComparison.Ordinal);
    }
}

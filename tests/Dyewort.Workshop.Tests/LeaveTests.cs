using Dyewort.Pots;
using Dyewort.Workshop.Pots;
using Xunit;

namespace Dyewort.Workshop.Tests;

/// <summary>Leave to gather and sell has one home: the lot's fields.</summary>
public sealed class LeaveTests
{
    [Fact]
    public async Task What_a_maker_says_of_leave_is_on_file_and_what_it_covers_is_asked_for()
    {
        await using var bench = await Bench.SetUpAsync();
        var pot = await bench.DoneAsync<StartPot, string>(start =>
            start.HandleAsync(new() { Plant = "weld", LeaveFrom = "the farm, in writing" }, default)
        );
        var lot = (await bench.DoAsync<ShowPot, ShowPotAnswer?>(show => show.HandleAsync(pot, default)))!.Lot;
        var line = await LineAsync(bench, lot.Id);
        Assert.Equal("the farm, in writing", line.Sheet!.LeaveFrom);
        Assert.All(
            line.AgainstSale.Concat(line.AgainstOwnUse),
            against => Assert.Contains("the farm, in writing", against, StringComparison.Ordinal)
        );
        Assert.DoesNotContain(line.AgainstSale, against => against.Contains("No permission", StringComparison.Ordinal));

        await bench.DoneAsync<PlantLots, Guid>(lots =>
            lots.SaveAsync(
                lot.Id,
                new()
                {
                    LeaveFrom = "the farm",
                    Covers = nameof(PlantUse.Sale),
                    LeaveWritten = "yes",
                },
                default
            )
        );
        Assert.Empty((await LineAsync(bench, lot.Id)).AgainstSale);
        var shown = (await bench.DoAsync<ShowPot, ShowPotAnswer?>(show => show.HandleAsync(pot, default)))!;
        Assert.Equal("the farm, for sale, in writing", shown.LeaveWords);
    }

    [Fact]
    public async Task A_lot_of_which_nothing_was_said_has_no_permission_on_file_and_no_page_says_otherwise()
    {
        await using var bench = await Bench.SetUpAsync();
        var shown = (await bench.DoAsync<ShowPot, ShowPotAnswer?>(show => show.HandleAsync(bench.Pot, default)))!;
        Assert.Null(shown.LeaveWords);
        Assert.Contains(
            (await LineAsync(bench, shown.Lot.Id)).AgainstSale,
            against => against.StartsWith("No permission", StringComparison.Ordinal)
        );
    }

    private static async Task<PlantLotsLine> LineAsync(Bench bench, Guid lotId) =>
        (await bench.DoAsync<PlantLots, IReadOnlyList<PlantLotsLine>>(lots => lots.HandleAsync(default))).Single(line =>
            line.Lot.Id == lotId
        );
}

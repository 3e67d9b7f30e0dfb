using Dyewort.Colour;
using Dyewort.Imaging;
using Dyewort.Quantities;
using Dyewort.Workshop.Pots;
using Microsoft.EntityFrameworkCore;
using Xunit;

namespace Dyewort.Workshop.Tests;

/// <summary>A pot's drops, read from one photo of its printed strip.</summary>
public sealed class DropStripPhotoTests
{
    private static readonly Lab[] Drops = [new(85, 5, 0), new(72, 14, -4), new(60, 20, -8), new(55, 22, -9)];

    [Fact]
    public async Task One_photo_gives_every_drop_its_minute_and_colour()
    {
        await using var bench = await Bench.SetUpAsync();
        var photo = await PhotoAsync(bench);
        var written = await bench.DoneAsync<DropStrip, int>(strip =>
            strip.ReadAsync(bench.Pot, photo, new() { DropMinutes = "5 10 20 40" }, default)
        );
        Assert.Equal(4, written);
        await using var db = bench.Read();
        var drops = await db.PotDrops.OrderBy(drop => drop.Minute).ToListAsync();
        Assert.Equal([5, 10, 20, 40], drops.Select(drop => drop.Minute));
        foreach (var (drop, painted) in drops.Zip(Drops))
        {
            var off = Difference.Ciede2000(Lab.FromXyz(drop.Colour!.Value), painted);
            Assert.True(off < 4, $"Minute {drop.Minute} was read {off:0.0} off.");
            Assert.True(drop.RadiusDe00 > 0);
        }

        var shown = await bench.DoAsync<ShowPotWork, ShowPotWorkAnswer?>(show => show.HandleAsync(bench.Pot, default));
        Assert.NotNull(shown?.Curve);
    }

    [Theory]
    [InlineData("5 ten 20", "ten")]
    [InlineData("", "missing")]
    [InlineData("5 10 20 40 60", "looks bare")]
    public async Task What_is_wrong_with_the_minutes_is_said_and_nothing_is_written(string minutes, string said)
    {
        await using var bench = await Bench.SetUpAsync();
        var photo = await PhotoAsync(bench);
        var outcome = await bench.DoAsync<DropStrip, Outcome<int>>(strip =>
            strip.ReadAsync(bench.Pot, photo, new() { DropMinutes = minutes }, default)
        );
        Assert.False(outcome.TryGet(out _));
        Assert.Contains(outcome.Problems, problem => problem.What.Contains(said, StringComparison.Ordinal));
        await using var db = bench.Read();
        Assert.False(await db.PotDrops.AnyAsync());
    }

    private static async Task<byte[]> PhotoAsync(Bench bench)
    {
        var layout = await bench.DoAsync<DropStrip, Dyewort.Readings.SheetLayout>(strip => Task.FromResult(strip.LayoutOf(bench.Pot)));
        string[] places = ["A1", "B1", "C1", "D1"];
        return SheetPicture.Draw(
            layout,
            new SheetShot
            {
                Paint = places.Zip(Drops).ToDictionary(pair => pair.First, pair => pair.Second.ToXyz()),
                Paper = Paper.DrawingPaperGuess.Colour,
            }
        );
    }
}

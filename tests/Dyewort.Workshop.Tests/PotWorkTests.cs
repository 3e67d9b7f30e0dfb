using Dyewort.Workshop.Pots;
using Microsoft.Extensions.DependencyInjection;
using Xunit;

namespace Dyewort.Workshop.Tests;

public sealed class PotWorkTests : IDisposable
{
    private readonly string folder = Path.Combine(Path.GetTempPath(), $"dyewort-stove-{Guid.NewGuid():N}");
    private readonly Clock clock = new(new DateTimeOffset(2025, 9, 6, 9, 0, 0, TimeSpan.Zero));

    public void Dispose()
    {
        Microsoft.Data.Sqlite.SqliteConnection.ClearAllPools();
        if (Directory.Exists(folder))
            Directory.Delete(folder, recursive: true);
    }

    /// <summary>The program is shut while a timer runs; opened again, the timer has gone on.</summary>
    [Fact]
    public async Task A_timer_survives_the_program()
    {
        var code = await AskAsync<StartPot, string>(start =>
            start.HandleAsync(
                new StartPotForm
                {
                    Plant = "Elderberry",
                    PlantGrams = "900",
                    LiquidMl = "260",
                },
                default
            )
        );
        await AskAsync<TimePot, Guid>(time => time.StartAsync(code, new TimePotForm { Minutes = "35", Name = "strain" }, default));
        clock.Now += TimeSpan.FromMinutes(40);
        var timer = Assert.Single((await ShowAsync(code)).Timers);
        Assert.Equal(-5, timer.Left(clock.Now).TotalMinutes, 1e-9);
        Assert.Null(timer.AnsweredAt);
        await AskAsync<TimePot, Guid>(time => time.AnswerAsync(code, timer.Id, default));
        Assert.Equal(clock.Now, Assert.Single((await ShowAsync(code)).Timers).AnsweredAt);
    }

    [Fact]
    public async Task A_pot_teaches_the_plan_of_the_next_and_a_repeat_in_another_vessel_is_flagged()
    {
        var first = await AskAsync<StartPot, string>(start =>
            start.HandleAsync(
                new StartPotForm
                {
                    Plant = "Elderberry",
                    PlantGrams = "900",
                    LiquidMl = "260",
                    Vessel = "S4",
                },
                default
            )
        );
        await AskAsync<AddToLog, Guid>(log => log.HandleAsync(first, new AddToLogForm { Kind = "Strained", Ml = "790" }, default));
        await AskAsync<SavePotSheet, string>(save =>
            save.HandleAsync(
                first,
                new SavePotSheetForm
                {
                    Water = "rain butt",
                    Hardness = "10",
                    Strength = "0.62",
                },
                default
            )
        );
        clock.Now += TimeSpan.FromDays(370);
        var second = await AskAsync<StartPot, string>(start =>
            start.HandleAsync(
                new StartPotForm
                {
                    Plant = "Elderberry",
                    PlantGrams = "1000",
                    LiquidMl = "280",
                    Vessel = "A4",
                },
                default
            )
        );
        await AskAsync<SavePotSheet, string>(save =>
            save.HandleAsync(
                second,
                new SavePotSheetForm
                {
                    Metal = "Aluminium",
                    Water = "tap",
                    Hardness = "210",
                    Repeats = first,
                },
                default
            )
        );

        var work = await ShowAsync(second);
        Assert.Equal(first, work.Repeats!.Code);
        Assert.Equal(2, work.Differences.Count);
        Assert.Contains(work.Hidden, hidden => hidden.Substance == "alum");
        await using var desk = await Desk.OpenAsync(folder, clock, default);
        using var scope = desk.CreateScope();
        var past = await scope.ServiceProvider.GetRequiredService<PastPots>().HandleAsync("elderberries", default);
        Assert.Equal((first, 790, 0.62), (Assert.Single(past).Code, past[0].StrainedMillilitres, past[0].Strength!.Value));
        Assert.Equal(0.62 * 790 / 900, (await ShowAsync(first)).UnitsPerGram!.Value, 1e-9);
    }

    [Fact]
    public async Task A_pot_started_again_carries_its_making_and_nothing_of_what_it_became()
    {
        var form = new StartPotForm
        {
            Plant = "Elderberry",
            PlantGrams = "900",
            LiquidMl = "260",
            Vessel = "S4",
            Place = "the hedge",
        };
        var first = await AskAsync<StartPot, string>(start => start.HandleAsync(form, default));
        await AskAsync<SavePotSheet, string>(save =>
            save.HandleAsync(
                first,
                new SavePotSheetForm
                {
                    Metal = "Aluminium",
                    Water = "rain butt",
                    Hardness = "10",
                    Strength = "0.62",
                    LidOn = "yes",
                },
                default
            )
        );
        await AskAsync<SavePotSheet, string>(save => save.StartAsync(first, default));
        clock.Now += TimeSpan.FromDays(370);
        var old = (await OfAsync<RepeatPot, RepeatPotAnswer>(repeat => repeat.HandleAsync(first, default)))!;
        Assert.Equal((900.0, "S4", "Elderberry"), (old.Pot.PlantGrams, old.Pot.Vessel, old.Plant.Name));

        var second = await AskAsync<StartPot, string>(start => start.HandleAsync(form with { Again = first, PlantGrams = "450" }, default));
        var work = await ShowAsync(second);
        Assert.Equal(first, work.Repeats!.Code);
        Assert.Empty(work.Differences);
        var sheet = work.Sheet!;
        Assert.Equal(
            ("rain butt", 10.0, Dyewort.Pots.PotMetal.Aluminium, true, null, null),
            (sheet.Water, sheet.HardnessMgPerL, sheet.Metal, sheet.LidOn, sheet.Strength, sheet.StartedAt)
        );
        Assert.NotEqual(old.Lot.Id, work.Lot.Id);

        // Of a lot that is there: no second lot is written down.
        var third = await AskAsync<StartPot, string>(start =>
            start.HandleAsync(form with { Again = first, Lot = work.Lot.Id.ToString(), PlantGrams = "100" }, default)
        );
        Assert.Equal(work.Lot.Id, (await ShowAsync(third)).Lot.Id);
        var lots = await OfAsync<PlantLots, IReadOnlyList<PlantLotsLine>>(all => all.HandleAsync(default)!);
        Assert.Equal(2, lots!.Count);
        await using var desk = await Desk.OpenAsync(folder, clock, default);
        using var scope = desk.CreateScope();
        var start = scope.ServiceProvider.GetRequiredService<StartPot>();
        var foreign = await start.HandleAsync(form with { Plant = "Weld", Lot = work.Lot.Id.ToString() }, default);
        Assert.Equal(nameof(StartPotForm.Lot), Assert.Single(foreign.Problems).Field);
        var nobody = await start.HandleAsync(form with { Again = "EB01-1" }, default);
        Assert.Equal(nameof(StartPotForm.Again), Assert.Single(nobody.Problems).Field);
    }

    private async Task<T?> OfAsync<TUseCase, T>(Func<TUseCase, Task<T?>> ask)
        where TUseCase : notnull
        where T : class
    {
        await using var desk = await Desk.OpenAsync(folder, clock, default);
        using var scope = desk.CreateScope();
        return await ask(scope.ServiceProvider.GetRequiredService<TUseCase>());
    }

    private async Task<T> AskAsync<TUseCase, T>(Func<TUseCase, Task<Quantities.Outcome<T>>> ask)
        where TUseCase : notnull
        where T : notnull
    {
        await using var desk = await Desk.OpenAsync(folder, clock, default);
        using var scope = desk.CreateScope();
        var outcome = await ask(scope.ServiceProvider.GetRequiredService<TUseCase>());
        Assert.True(outcome.TryGet(out var value), string.Join(' ', outcome.Problems));
        return value;
    }

    private async Task<ShowPotWorkAnswer> ShowAsync(string code)
    {
        await using var desk = await Desk.OpenAsync(folder, clock, default);
        using var scope = desk.CreateScope();
        return (await scope.ServiceProvider.GetRequiredService<ShowPotWork>().HandleAsync(code, default))!;
    }

    private sealed class Clock(DateTimeOffset now) : TimeProvider
    {
        public DateTimeOffset Now { get; set; } = now;

        public override DateTimeOffset GetUtcNow() => Now;
    }
}

using Dyewort.Colour;
using Dyewort.Response;
using Dyewort.Workshop.Response;
using Xunit;

namespace Dyewort.Workshop.Tests;

public sealed class ModelShelfTests
{
    private static readonly TrialTable Trials = TrialTable.Of(
        [
            .. Enumerable
                .Range(0, 9)
                .Select(i => new TrialRow(
                    new()
                    {
                        Sample = $"A{i}",
                        Plant = "elder",
                        Ph = 4,
                        GramsPerLitre = [new("alum", i * 0.5)],
                    },
                    new Lab(50 - (3 * i), 30 - (2 * i), -5 - i)
                )),
        ],
        ["alum"],
        []
    );

    [Fact]
    public async Task Who_does_not_wait_is_told_that_it_is_still_being_learned_and_finds_it_learned_once_later()
    {
        using var done = new ManualResetEventSlim();
        var fits = 0;
        var shelf = new ModelShelf(
            TimeSpan.Zero,
            (trials, plant) =>
            {
                Interlocked.Increment(ref fits);
                done.Wait();
                return new PlantModels(trials).Of(plant);
            }
        );
        Assert.Null(await shelf.AskAsync(Trials, "elder", default));
        Assert.Null(await shelf.AskAsync(Trials, "", default));
        Assert.Null(await shelf.AskAllAsync(Trials, default));
        Assert.Null(await shelf.AskForSlipsAsync(Trials, "elder", Doses.None, default));

        done.Set();
        await shelf.LearnAsync(Trials);
        Assert.True((await shelf.AskAsync(Trials, "Elder", default))!.TryGet(out var model));
        Assert.Equal(9, model.Rows.Count);
        Assert.Same(model, Assert.Single((await shelf.AskAllAsync(Trials, default))!.Value.Models));
        Assert.Equal(1, fits);
    }

    [Fact]
    public async Task Who_waits_gets_the_answer_and_a_table_that_changed_is_learned_anew()
    {
        var shelf = new ModelShelf();
        Assert.True((await shelf.AskAsync(Trials, "elder", default))!.TryGet(out var model));
        Assert.True(shelf.Of(Trials, "elder").TryGet(out var same));
        Assert.Same(model, same);
        var other = TrialTable.Of([.. Trials.Rows.Skip(1)], ["alum"], []);
        Assert.True(shelf.Of(other, "elder").TryGet(out var changed));
        Assert.NotSame(model, changed);
        Assert.True((await shelf.AskForSlipsAsync(Trials, "elder", Doses.None, default))!.TryGet(out _));
        Assert.False(shelf.Of(Trials, "weld").TryGet(out _));
    }

    [Fact]
    public async Task Whoever_gives_up_is_let_go_while_the_learning_goes_on()
    {
        using var done = new ManualResetEventSlim();
        using var given = new CancellationTokenSource();
        var shelf = new ModelShelf(
            TimeSpan.FromMinutes(5),
            (trials, plant) =>
            {
                done.Wait();
                return new PlantModels(trials).Of(plant);
            }
        );
        var asked = shelf.AskAsync(Trials, "elder", given.Token);
        await given.CancelAsync();
        await Assert.ThrowsAnyAsync<OperationCanceledException>(() => asked);
        done.Set();
        Assert.NotNull(await shelf.AskAsync(Trials, "elder", default));
    }
}

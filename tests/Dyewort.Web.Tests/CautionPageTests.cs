using System.Net;
using Dyewort.Chemistry;
using Dyewort.Notebook;
using Dyewort.Quantities;
using Dyewort.Safety;
using Dyewort.Store;
using Dyewort.Workshop.Batches;
using Dyewort.Workshop.Pantry;
using Dyewort.Workshop.Pots;
using Dyewort.Workshop.Recipes;
using Dyewort.Workshop.Trials;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Hosting.Server;
using Microsoft.AspNetCore.Hosting.Server.Features;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;
using Xunit;

namespace Dyewort.Web.Tests;

/// <summary>One thing is dangerous in the same words on every page.</summary>
public sealed class CautionPageTests : IAsyncLifetime
{
    private const string Own = "Keep it off the marble.";
    private readonly string folder = Path.Combine(Path.GetTempPath(), $"dyewort-web-{Guid.NewGuid():N}");
    private WebApplication app = null!;
    private HttpClient http = null!;

    public async ValueTask InitializeAsync()
    {
        app = await WebHost.BuildAsync(
            new WebOptions
            {
                Notebook = folder,
                Clock = TimeProvider.System,
                Port = 0,
            },
            CancellationToken.None
        );
        await app.StartAsync();
        var port = new Uri(app.Services.GetRequiredService<IServer>().Features.Get<IServerAddressesFeature>()!.Addresses.First()).Port;
        http = new HttpClient { BaseAddress = new($"http://localhost:{port}") };
    }

    public async ValueTask DisposeAsync()
    {
        http.Dispose();
        await app.StopAsync();
        await app.DisposeAsync();
        Microsoft.Data.Sqlite.SqliteConnection.ClearAllPools();
        if (Directory.Exists(folder))
            Directory.Delete(folder, recursive: true);
    }

    [Fact]
    public async Task A_deadly_plant_is_deadly_on_the_page_of_its_pot_at_the_stove_and_among_the_lots()
    {
        var pot = await DoAsync<StartPot, string>(start => start.HandleAsync(new() { Plant = "yew" }, default));
        var words = Assert.Single(PlantHazard.For("yew")).Words;
        Assert.StartsWith("Deadly", words, StringComparison.Ordinal);
        foreach (var page in new[] { $"/pots/{pot}", $"/pots/{pot}/stove", $"/pots/{pot}/repeat", "/lots" })
            Assert.Contains(words, await PageAsync(page), StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_substance_has_one_wording_in_the_pantry_in_a_jar_in_a_recipe_and_in_a_batch()
    {
        var pot = await DoAsync<StartPot, string>(start => start.HandleAsync(new() { Plant = "weld" }, default));
        await DoAsync<AddToLog, Guid>(log => log.HandleAsync(pot, new() { Kind = nameof(LogKind.Strained), Ml = "790" }, default));
        await DoAsync<SplitPot, string>(split => split.HandleAsync(pot, new() { Jars = "1", VolumeMl = "20" }, default));
        await DoAsync<StockCommon, int>(stock => stock.HandleAsync(["iron sulfate"], default));
        Guid iron,
            sample;
        await using (var scope = app.Services.CreateAsyncScope())
        {
            var db = scope.ServiceProvider.GetRequiredService<NotebookDb>();
            var material = await db.Materials.SingleAsync(one => one.Name == "iron sulfate");
            material.Caution = Own;
            await db.SaveChangesAsync();
            (iron, sample) = (material.Id, (await db.Samples.SingleAsync()).Id);
        }

        await DoAsync<AddToSample, Guid>(add =>
            add.HandleAsync(pot, "A1", new() { Material = iron.ToString(), Amount = "0.1 g" }, default)
        );
        var recipe = await DoAsync<KeepRecipe, string>(keep =>
            keep.HandleAsync(new() { Sample = sample.ToString(), Name = "Grey" }, default)
        );
        var batch = await DoAsync<StartBatch, string>(start => start.HandleAsync(recipe, new() { Volume = "100 ml" }, default));
        var words = SubstanceCatalogue.Standard.ByKey("iron-sulfate")!.Hazard!.Caution;
        foreach (
            var page in new[]
            {
                "/pantry",
                $"/pantry/{iron}",
                $"/pots/{pot}/jars/A1",
                $"/pots/{pot}/jars/A1?add={iron}",
                $"/pots/{pot}/trials/A",
                $"/recipes/{recipe}?to=100+ml",
                $"/batches/{batch}",
            }
        )
        {
            var html = await PageAsync(page);
            Assert.Contains(words, html, StringComparison.Ordinal);
            Assert.Contains(Own, html, StringComparison.Ordinal);
        }
    }

    private async Task<string> PageAsync(string path) => WebUtility.HtmlDecode(await http.GetStringAsync(new Uri(path, UriKind.Relative)));

    private async Task<T> DoAsync<TUseCase, T>(Func<TUseCase, Task<Outcome<T>>> work)
        where TUseCase : notnull
        where T : notnull
    {
        await using var scope = app.Services.CreateAsyncScope();
        var outcome = await work(scope.ServiceProvider.GetRequiredService<TUseCase>());
        Assert.True(outcome.TryGet(out var made), string.Join(' ', outcome.Problems));
        return made;
    }
}

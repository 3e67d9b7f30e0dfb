using System.Diagnostics;
using System.Net;
using Dyewort.Response;
using Dyewort.Store.Sqlite;
using Dyewort.Workshop.Response;
using Microsoft.AspNetCore.Hosting.Server;
using Microsoft.AspNetCore.Hosting.Server.Features;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;
using Xunit;

namespace Dyewort.Web.Tests;

/// <summary>Pages that need a model, while it is still being learned.</summary>
public sealed class PatienceTests(SeasonNotebook notebook) : IClassFixture<SeasonNotebook>
{
    private const string Learning = "still learning from the trials";

    /// <summary>Far more than a page without a model takes on a busy machine, far less than the fit, which ends only when it is told
    /// to.</summary>
    private static readonly TimeSpan NoWait = TimeSpan.FromSeconds(20);

    [Fact]
    public async Task No_page_waits_for_a_model_and_the_next_look_shows_what_was_learned()
    {
        using var done = new ManualResetEventSlim();
        var slow = new ModelShelf(
            TimeSpan.FromMilliseconds(50),
            (trials, plant) =>
            {
                done.Wait();
                return new PlantModels(trials).Of(plant);
            }
        );
        await using var app = await WebHost.BuildAsync(
            new WebOptions
            {
                Notebook = notebook.Folder,
                Clock = TimeProvider.System,
                Port = 0,
                Models = slow,
            },
            CancellationToken.None
        );
        await app.StartAsync();
        try
        {
            var bound = new Uri(app.Services.GetRequiredService<IServer>().Features.Get<IServerAddressesFeature>()!.Addresses.First());
            using var client = new HttpClient { BaseAddress = new($"http://localhost:{bound.Port}/"), Timeout = TimeSpan.FromMinutes(5) };
            await using var db = (await SqliteNotebook.OpenAsync(notebook.Folder, TimeProvider.System, CancellationToken.None)).NewDb();
            var batch = await db.Batches.OrderBy(one => one.Id).FirstAsync();
            var added = await db
                .Samples.Where(sample => sample.Jar == "A2")
                .SelectMany(sample => db.Additions.Where(step => step.SampleId == sample.Id))
                .FirstAsync();

            // Whatever a page shows besides is shown at once; only what nothing is typed into loads itself again.
            (string Path, bool Reloads)[] pages =
            [
                ("/wanted?c=%236a7390", true),
                ("/plants/black%20bean", true),
                ("/plants/black%20bean/doubts", true),
                ("/pots/BB25-1/plan", false),
                ("/pots/BB25-1/plan?kind=next&jars=1&volume=20&measure=0.1", true),
                ($"/pots/BB25-1/jars/A2?add={added.MaterialId}", false),
                ($"/batches/{batch.Code}/correct?c=%236a7390", false),
            ];
            foreach (var (path, reloads) in pages)
            {
                var watch = Stopwatch.StartNew();
                using var answer = await client.GetAsync(new Uri(path, UriKind.Relative));
                Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
                Assert.True(watch.Elapsed < NoWait, $"{path} took {watch.Elapsed}");
                Assert.Contains(Learning, await answer.Content.ReadAsStringAsync(), StringComparison.Ordinal);
                Assert.Equal(reloads, answer.Headers.Contains("Refresh"));
            }

            done.Set();
            foreach (var (path, _) in pages)
            {
                var watch = Stopwatch.StartNew();
                while ((await client.GetStringAsync(new Uri(path, UriKind.Relative))).Contains(Learning, StringComparison.Ordinal))
                {
                    Assert.True(watch.Elapsed < TimeSpan.FromMinutes(4), $"{path} is still learning");
                    await Task.Delay(200);
                }
            }
        }
        finally
        {
            done.Set();
            await app.StopAsync();
        }
    }
}

using System.Net;
using System.Text.RegularExpressions;
using Dyewort.Colour;
using Dyewort.Notebook;
using Dyewort.Quantities;
using Dyewort.Store;
using Dyewort.Workshop.Pots;
using Dyewort.Workshop.Trials;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Hosting.Server;
using Microsoft.AspNetCore.Hosting.Server.Features;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;
using Xunit;

namespace Dyewort.Web.Tests;

/// <summary>From “keep this one” to the bottle's page, by plain requests without a browser.</summary>
public sealed partial class MakingPageTests : IAsyncLifetime
{
    private readonly string folder = Path.Combine(Path.GetTempPath(), $"dyewort-web-{Guid.NewGuid():N}");
    private WebApplication app = null!;
    private HttpClient http = null!;
    private Guid square;

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
        await FillAsync();
    }

    public async ValueTask DisposeAsync()
    {
        http.Dispose();
        await app.StopAsync();
        await app.DisposeAsync();
        Microsoft.Data.Sqlite.SqliteConnection.ClearAllPools();
        Directory.Delete(folder, recursive: true);
    }

    [Fact]
    public async Task A_chosen_square_goes_all_the_way_to_a_labelled_bottle_and_back_to_its_plant()
    {
        var kept = await PostAsync(
            $"/recipes/keep?swatch={square}",
            "/recipes/keep",
            ("Swatch", square.ToString()),
            ("Name", "Dusk <b>Elder</b>")
        );
        Assert.Equal((HttpStatusCode.OK, "/recipes/R1"), (kept.Status, kept.Path));
        Assert.Contains("Dusk &lt;b&gt;Elder", kept.Html, StringComparison.Ordinal);

        var scaled = await http.GetStringAsync("/recipes/R1?to=1.5%20L");
        Assert.Contains("45 g", scaled, StringComparison.Ordinal);
        Assert.Contains("Raw berries sicken", scaled, StringComparison.Ordinal);

        var batch = await PostAsync("/recipes/R1?to=400+ml", "/recipes/R1/batches", ("Volume", "400 ml"));
        Assert.Equal("/batches/AAA", batch.Path);
        var measured = await PostAsync("/batches/AAA", "/batches/AAA/measured", ("Step1", "12.3 g"), ("FilteredMl", "390"));
        Assert.Contains("2.5 % too much", measured.Html, StringComparison.Ordinal);
        var filled = await PostAsync("/batches/AAA", "/batches/AAA/bottles", ("FillMl", "29"), ("KeptBackMl", "13"));
        var code = BottlePath().Matches(filled.Html).Select(match => match.Value).Distinct().ToList();
        Assert.Equal(13, code.Count);

        using var pdf = await http.GetAsync(new Uri("/batches/AAA/labels.pdf", UriKind.Relative));
        Assert.Equal("application/pdf", pdf.Content.Headers.ContentType!.MediaType);
        Assert.Equal("%PDF"u8.ToArray(), (await pdf.Content.ReadAsByteArrayAsync())[..4]);

        var bottle = await http.GetStringAsync(code[^1].ToLowerInvariant());
        var lot = LotPath().Match(bottle).Value;
        Assert.NotEmpty(lot);
        Assert.Contains("the hedge", bottle, StringComparison.Ordinal);
        var forward = await http.GetStringAsync(lot);
        Assert.All(code, one => Assert.Contains(one, forward, StringComparison.Ordinal));
    }

    [Theory]
    [InlineData("/recipes/R1?to=-3%20ml")]
    [InlineData("/recipes/R1?to=lots")]
    public async Task A_volume_that_is_none_is_refused_beside_its_field_and_stays_typed(string path)
    {
        await PostAsync($"/recipes/keep?swatch={square}", "/recipes/keep", ("Swatch", square.ToString()), ("Name", "Dusk"));
        using var answer = await http.GetAsync(new Uri(path, UriKind.Relative));
        var html = await answer.Content.ReadAsStringAsync();
        Assert.Equal(HttpStatusCode.UnprocessableEntity, answer.StatusCode);
        Assert.Contains("class=\"wrong-why\"", html, StringComparison.Ordinal);
        Assert.Contains($"value=\"{Uri.UnescapeDataString(path.Split('=')[1])}\"", html, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("/b/AAA-AAA")]
    [InlineData("/b/0")]
    [InlineData("/recipes/R99")]
    [InlineData("/batches/XYZ")]
    [InlineData("/batches/XYZ/labels.pdf")]
    [InlineData("/recipes/keep")]
    public async Task What_is_not_there_is_said_in_words(string path)
    {
        using var answer = await http.GetAsync(new Uri(path, UriKind.Relative));
        Assert.Equal(HttpStatusCode.NotFound, answer.StatusCode);
        Assert.Contains("Not here", await answer.Content.ReadAsStringAsync(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task An_empty_form_is_refused_and_changes_nothing()
    {
        var nothing = await PostAsync($"/recipes/keep?swatch={square}", "/recipes/keep");
        Assert.Equal(HttpStatusCode.BadRequest, nothing.Status);
        var nameless = await PostAsync($"/recipes/keep?swatch={square}", "/recipes/keep", ("Swatch", square.ToString()), ("Name", " "));
        Assert.Equal(HttpStatusCode.UnprocessableEntity, nameless.Status);
        Assert.Contains("The name is missing.", nameless.Html, StringComparison.Ordinal);
    }

    [GeneratedRegex("/b/[0-9A-Z]{3}-[0-9A-Z]{3}")]
    private static partial Regex BottlePath();

    [GeneratedRegex("/lots/[0-9a-f-]{36}")]
    private static partial Regex LotPath();

    [GeneratedRegex("name=\"__RequestVerificationToken\" value=\"([^\"]+)\"")]
    private static partial Regex Token();

    private async Task<(HttpStatusCode Status, string Path, string Html)> PostAsync(
        string page,
        string action,
        params (string Name, string Value)[] fields
    )
    {
        var token = Token().Match(await http.GetStringAsync(page)).Groups[1].Value;
        using var form = new FormUrlEncodedContent([
            new("__RequestVerificationToken", WebUtility.HtmlDecode(token)),
            .. fields.Select(field => new KeyValuePair<string, string>(field.Name, field.Value)),
        ]);
        using var answer = await http.PostAsync(new Uri(action, UriKind.Relative), form);
        return (answer.StatusCode, answer.RequestMessage!.RequestUri!.AbsolutePath, await answer.Content.ReadAsStringAsync());
    }

    private async Task FillAsync()
    {
        await using var scope = app.Services.CreateAsyncScope();
        var services = scope.ServiceProvider;
        var pot = Made(
            await services.GetRequiredService<StartPot>().HandleAsync(new() { Plant = "elderberry", Place = "the hedge" }, default)
        );
        Made(
            await services.GetRequiredService<AddToLog>().HandleAsync(pot, new() { Kind = nameof(LogKind.Strained), Ml = "790" }, default)
        );
        Made(await services.GetRequiredService<SplitPot>().HandleAsync(pot, new() { Jars = "2", VolumeMl = "20" }, default));
        var db = services.GetRequiredService<NotebookDb>();
        var now = DateTimeOffset.UnixEpoch.AddYears(55);
        var alum = new Material
        {
            Id = Guid.CreateVersion7(now),
            WrittenAt = now,
            Name = "alum",
            Kind = MaterialKind.Addition,
            GramsPerTeaspoon = 4.8,
        };
        db.Add(alum);
        await db.SaveChangesAsync();
        Made(
            await services
                .GetRequiredService<AddToSample>()
                .HandleAsync(pot, "A1", new() { Material = alum.Id.ToString(), Amount = "⅛ tsp" }, default)
        );
        var sample = await db.Samples.SingleAsync(one => one.Jar == "A1");
        var chart = new Chart
        {
            Id = Guid.CreateVersion7(now),
            WrittenAt = now,
            Number = 1,
            TrialId = sample.TrialId,
            Title = "alum",
            LayoutJson = "{}",
            Page = "A5",
        };
        var swatch = new Swatch
        {
            Id = Guid.CreateVersion7(now),
            WrittenAt = now,
            ChartId = chart.Id,
            Cell = "A1",
            SampleId = sample.Id,
            Coats = 1,
            Wash = 1,
        };
        db.AddRange(
            chart,
            swatch,
            new Reading
            {
                Id = Guid.CreateVersion7(now),
                WrittenAt = now,
                SwatchId = swatch.Id,
                At = now,
                State = SwatchState.Dry,
                Colour = new Lab(35, 14, -21).ToXyz(),
                UncertaintyDe00 = 1.2,
                Source = ReadingSource.Photo,
            }
        );
        await db.SaveChangesAsync();
        square = swatch.Id;
    }

    private static T Made<T>(Outcome<T> outcome)
        where T : notnull
    {
        Assert.True(outcome.TryGet(out var made), string.Join(' ', outcome.Problems));
        return made;
    }
}

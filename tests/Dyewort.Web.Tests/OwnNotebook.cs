using Dyewort.Store;
using Dyewort.Store.Sqlite;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Hosting.Server;
using Microsoft.AspNetCore.Hosting.Server.Features;
using Microsoft.Extensions.DependencyInjection;

namespace Dyewort.Web.Tests;

/// <summary>A copy of the invented season that a test may write in and open again, as after the program was stopped.</summary>
internal sealed class OwnNotebook : IAsyncDisposable
{
    private WebApplication? app;
    private TimeSpan? patience;

    public string Folder { get; } = Path.Combine(Path.GetTempPath(), $"dyewort-own-{Guid.NewGuid():N}");

    public Uri Address { get; private set; } = new("http://localhost/");

    public IServiceProvider Services => app!.Services;

    /// <summary>Copies the season and starts the pages.</summary>
    /// <param name="also">More addresses, for a test.</param>
    /// <param name="patience">How long a page waits for what is being learned; null as long as it takes.</param>
    public static async Task<OwnNotebook> OpenAsync(Action<WebApplication>? also = null, TimeSpan? patience = null)
    {
        var own = new OwnNotebook { patience = patience };
        await SeasonTemplate.CopyToAsync(own.Folder);
        await own.StartAsync(also);
        return own;
    }

    /// <summary>Stops the program and starts it again on the same notebook.</summary>
    public async Task RestartAsync()
    {
        await StopAsync();
        await StartAsync(null);
    }

    /// <summary>A look into the notebook.</summary>
    public async Task<T> LookAsync<T>(Func<NotebookDb, Task<T>> look)
    {
        await using var db = (await SqliteNotebook.OpenAsync(Folder, TimeProvider.System, CancellationToken.None)).NewDb();
        return await look(db);
    }

    public async ValueTask DisposeAsync()
    {
        await StopAsync();
        Microsoft.Data.Sqlite.SqliteConnection.ClearAllPools();
        if (Directory.Exists(Folder))
            Directory.Delete(Folder, recursive: true);
    }

    private async Task StartAsync(Action<WebApplication>? also)
    {
        app = await WebHost.BuildAsync(
            new WebOptions
            {
                Notebook = Folder,
                Clock = TimeProvider.System,
                Port = 0,
                Models = new(patience),
            },
            CancellationToken.None
        );
        also?.Invoke(app);
        await app.StartAsync();
        var bound = new Uri(app.Services.GetRequiredService<IServer>().Features.Get<IServerAddressesFeature>()!.Addresses.First());
        Address = new($"http://localhost:{bound.Port}/");
    }

    private async Task StopAsync()
    {
        if (app is null)
            return;
        await app.StopAsync();
        await app.DisposeAsync();
        app = null;
    }
}

using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Hosting.Server;
using Microsoft.AspNetCore.Hosting.Server.Features;
using Microsoft.Extensions.DependencyInjection;
using Xunit;

namespace Dyewort.Web.Tests;

/// <summary>The web app on a notebook with one pot of the invented season.</summary>
public sealed class SeasonNotebook : IAsyncLifetime
{
    private WebApplication? app;

    public string Folder { get; } = Path.Combine(Path.GetTempPath(), $"dyewort-season-{Guid.NewGuid():N}");

    public Uri Address { get; private set; } = new("http://localhost/");

    public async ValueTask InitializeAsync()
    {
        await SeasonTemplate.CopyToAsync(Folder);
        app = await WebHost.BuildAsync(
            new WebOptions
            {
                Notebook = Folder,
                Clock = TimeProvider.System,
                Port = 0,
                Invented = true,
                Models = new(),
            },
            CancellationToken.None
        );
        await app.StartAsync();
        var bound = new Uri(app.Services.GetRequiredService<IServer>().Features.Get<IServerAddressesFeature>()!.Addresses.First());
        Address = new($"http://localhost:{bound.Port}/");
    }

    public async ValueTask DisposeAsync()
    {
        if (app is not null)
        {
            await app.StopAsync();
            await app.DisposeAsync();
        }

        Microsoft.Data.Sqlite.SqliteConnection.ClearAllPools();
        if (Directory.Exists(Folder))
            Directory.Delete(Folder, recursive: true);
    }
}

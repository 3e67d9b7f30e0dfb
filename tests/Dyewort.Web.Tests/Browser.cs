using Dyewort.Testing;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Hosting.Server;
using Microsoft.AspNetCore.Hosting.Server.Features;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Playwright;
using Xunit;

namespace Dyewort.Web.Tests;

/// <summary>The web app on a notebook of its own in a fresh folder, and one headless browser; skips with a reason where there is no browser.</summary>
public sealed class Browser : IAsyncLifetime
{
    private IPlaywright? playwright;
    private IBrowser? browser;
    private WebApplication? app;

    public string Folder { get; } = Path.Combine(Path.GetTempPath(), $"dyewort-web-{Guid.NewGuid():N}");

    public Uri Address { get; private set; } = new("http://localhost/");

    public async ValueTask InitializeAsync()
    {
        app = await WebHost.BuildAsync(
            new WebOptions
            {
                Notebook = Folder,
                Clock = TimeProvider.System,
                Port = 0,
            },
            CancellationToken.None
        );
        await app.StartAsync();
        var bound = new Uri(app.Services.GetRequiredService<IServer>().Features.Get<IServerAddressesFeature>()!.Addresses.First());
        Address = new($"http://localhost:{bound.Port}/");
    }

    public async ValueTask DisposeAsync()
    {
        if (browser is not null)
            await browser.CloseAsync();
        playwright?.Dispose();
        if (app is not null)
        {
            await app.StopAsync();
            await app.DisposeAsync();
        }

        Microsoft.Data.Sqlite.SqliteConnection.ClearAllPools();
        if (Directory.Exists(Folder))
            Directory.Delete(Folder, recursive: true);
    }

    /// <summary>A fresh page; the test is skipped when this machine has no Chromium.</summary>
    public async Task<IPage> OpenAsync(int width = 390, int height = 844, bool script = true, bool touch = false)
    {
        var chromium = Tool.Find("chromium") ?? Tool.Find("chromium-browser") ?? Tool.Find("google-chrome");
        Assert.SkipWhen(chromium is null, "Chromium is not on this machine.");
        playwright ??= await Playwright.CreateAsync();
        browser ??= await playwright.Chromium.LaunchAsync(
            new()
            {
                ExecutablePath = chromium,
                Headless = true,
                Args = ["--no-sandbox", "--disable-gpu", "--disable-dev-shm-usage"],
            }
        );
        var context = await browser.NewContextAsync(
            new()
            {
                BaseURL = Address.ToString(),
                ViewportSize = new() { Width = width, Height = height },
                JavaScriptEnabled = script,
                HasTouch = touch,
                AcceptDownloads = true,
            }
        );
        context.SetDefaultTimeout(30_000);
        return await context.NewPageAsync();
    }
}

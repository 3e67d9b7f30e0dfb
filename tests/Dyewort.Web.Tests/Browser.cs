using Dyewort.Testing;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Hosting.Server;
using Microsoft.AspNetCore.Hosting.Server.Features;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Playwright;
using Xunit;

namespace Dyewort.Web.Tests;

/// <summary>The web app on a notebook of its own in a fresh folder, and pages of the one headless browser that all tests share; skips
/// with a reason where there is no browser.</summary>
public sealed class Browser : IAsyncLifetime
{
    private static readonly SemaphoreSlim Door = new(1, 1);
    private static IPlaywright? playwright;
    private static IBrowser? chromium;
    private static int users;

    private readonly List<IBrowserContext> contexts = [];
    private bool uses;
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
        foreach (var context in contexts)
            await context.CloseAsync();
        if (uses)
            await LeaveAsync();
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
        var browser = await EnterAsync();
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
        contexts.Add(context);
        context.SetDefaultTimeout(30_000);
        return await context.NewPageAsync();
    }

    /// <summary>The browser, started by the first who needs it.</summary>
    private async Task<IBrowser> EnterAsync()
    {
        var program = Tool.Find("chromium") ?? Tool.Find("chromium-browser") ?? Tool.Find("google-chrome");
        Assert.SkipWhen(program is null, "Chromium is not on this machine.");
        await Door.WaitAsync();
        try
        {
            playwright ??= await Playwright.CreateAsync();
            chromium ??= await playwright.Chromium.LaunchAsync(
                new()
                {
                    ExecutablePath = program,
                    Headless = true,
                    Args = ["--no-sandbox", "--disable-gpu", "--disable-dev-shm-usage"],
                }
            );
            if (!uses)
                users++;
            uses = true;
            return chromium;
        }
        finally
        {
            Door.Release();
        }
    }

    /// <summary>The last who leaves closes it.</summary>
    private static async Task LeaveAsync()
    {
        await Door.WaitAsync();
        try
        {
            if (--users > 0)
                return;
            if (chromium is not null)
                await chromium.CloseAsync();
            playwright?.Dispose();
            (chromium, playwright) = (null, null);
        }
        finally
        {
            Door.Release();
        }
    }
}

using System.Net;
using Dyewort.Workshop;
using Dyewort.Workshop.Response;
using Microsoft.AspNetCore.Antiforgery;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.DataProtection;
using Microsoft.AspNetCore.Hosting;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.Features;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Logging;

namespace Dyewort.Web;

/// <summary>How the pages are to be served.</summary>
public sealed record WebOptions
{
    /// <summary>The notebook's folder.</summary>
    public required string Notebook { get; init; }

    /// <summary>The clock.</summary>
    public required TimeProvider Clock { get; init; }

    /// <summary>Port on this machine; 0 takes any free one.</summary>
    public int Port { get; init; } = 5077;

    /// <summary>True to listen to other machines of the house too, so that a phone can send photos. Anybody who can reach the port can then
    /// write in the notebook.</summary>
    public bool House { get; init; }

    /// <summary>What labels' codes point to, when it is not the address the maker came by.</summary>
    public Uri? PublicAddress { get; init; }

    /// <summary>What is learned from the trials, and how long a page waits for it before it is shown without.</summary>
    public ModelShelf Models { get; init; } = new(TimeSpan.FromSeconds(1.2));

    /// <summary>True for a notebook with invented work: every page says so.</summary>
    public bool Invented { get; init; }
}

/// <summary>Puts the pages together.</summary>
public static class WebHost
{
    /// <summary>The largest photo that is taken in, bytes.</summary>
    public const long LargestUpload = 60L * 1024 * 1024;

    /// <summary>Opens the notebook and makes the web app; the caller starts and stops it.</summary>
    public static async Task<WebApplication> BuildAsync(WebOptions options, CancellationToken cancel)
    {
        var desk = await Desk.OpenNotebookAsync(options.Notebook, options.Clock, cancel);
        var builder = WebApplication.CreateSlimBuilder(
            new WebApplicationOptions { ApplicationName = typeof(WebHost).Assembly.GetName().Name, ContentRootPath = desk.Folder }
        );
        builder.Logging.ClearProviders();
        builder.Logging.AddConsole(console => console.LogToStandardErrorThreshold = LogLevel.Trace);
        builder.Logging.SetMinimumLevel(LogLevel.Warning);
        builder.Logging.AddFilter("Microsoft.AspNetCore.Antiforgery", LogLevel.Error);
        builder.Logging.AddFilter("Microsoft.AspNetCore.DataProtection", LogLevel.Error);
        builder.WebHost.ConfigureKestrel(kestrel =>
        {
            kestrel.AddServerHeader = false;
            kestrel.Limits.MaxRequestBodySize = LargestUpload;
            if (options.House)
                kestrel.ListenAnyIP(options.Port);
            else
                kestrel.Listen(IPAddress.Loopback, options.Port);
        });
        builder.Services.Configure<FormOptions>(form =>
        {
            form.MultipartBodyLengthLimit = LargestUpload;
            form.ValueCountLimit = 4096;
        });

        // Kept with the notebook, so that a form on a sleeping phone still posts after the program was restarted.
        builder
            .Services.AddDataProtection()
            .SetApplicationName("Dyewort")
            .PersistKeysToFileSystem(new DirectoryInfo(Path.Combine(desk.Folder, "keys")));
        builder.Services.AddAntiforgery(antiforgery =>
        {
            antiforgery.Cookie.Name = "dyewort";
            antiforgery.Cookie.SameSite = SameSiteMode.Strict;
        });
        builder.Services.AddRazorComponents();
        builder.Services.AddHttpContextAccessor();
        builder.Services.AddSingleton(options);
        builder.Services.AddScoped<Typed>();
        desk.AddTo(builder.Services);
        builder.Services.AddSingleton(options.Models);
        builder.Services.AddHostedService<WarmModels>();

        var app = builder.Build();
        app.Use(Guard.Headers);
        app.Use(Guard.HostOf(options.House));
        app.Use(Guard.Faults);
        app.UseStatusCodePages(context => Guard.EmptyAnswers(context.HttpContext));
        app.UseRouting();
        app.UseAntiforgery();
        app.Use(new Once().PassAsync);
        app.Use(Understanding.Read);
        Asset.Map(app);
        var rooms = app.MapGroup("").WithMetadata(new RequireAntiforgeryTokenAttribute()).AddEndpointFilterFactory(FormFields.Ask);
        foreach (
            var pages in typeof(WebHost)
                .Assembly.GetTypes()
                .Where(type => type is { IsClass: true, IsAbstract: false } && type.IsAssignableTo(typeof(IPages)))
        )
            ((IPages)Activator.CreateInstance(pages)!).Map(rooms);
        app.MapFallback(() => Show.Missing("There is no such page."));
        await using var scope = app.Services.CreateAsyncScope();
        await scope.ServiceProvider.GetRequiredService<AnswerOnce>().ForgetOldAsync(cancel);
        return app;
    }
}

using System.ComponentModel;
using Dyewort.Web;
using Dyewort.Workshop;
using Microsoft.AspNetCore.Hosting.Server;
using Microsoft.AspNetCore.Hosting.Server.Features;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Hosting;
using Spectre.Console.Cli;

namespace Dyewort.Cli.Commands.Bench;

/// <summary>The web app on the maker's own notebook.</summary>
public sealed class ServeCommand : AsyncCommand<ServeSettings>
{
    public override async Task<int> ExecuteAsync(CommandContext context, ServeSettings settings, CancellationToken cancellationToken) =>
        await ServeAsync(
            new WebOptions
            {
                Notebook = settings.Notebook ?? Desk.UsualFolder,
                Clock = TimeProvider.System,
                Port = settings.Port,
                House = settings.House,
            },
            cancellationToken
        );

    internal static async Task<int> ServeAsync(WebOptions options, CancellationToken cancel)
    {
        if (options.Port is < 0 or > 65535)
            throw new RefusalException("--port", $"{options.Port} is not a port.", "Use 0 to 65535.");
        await using var app = await WebHost.BuildAsync(options, cancel);
        try
        {
            await app.StartAsync(cancel);
        }
        catch (IOException problem) when (problem.InnerException is Microsoft.AspNetCore.Connections.AddressInUseException)
        {
            throw new RefusalException(
                "--port",
                $"Port {options.Port} is taken by another program.",
                "Choose another with --port, or --port 0 for any free one."
            );
        }

        var port = new Uri(app.Services.GetRequiredService<IServer>().Features.Get<IServerAddressesFeature>()!.Addresses.First()).Port;
        Console.Out.WriteLine($"http://localhost:{port}/");
        Console.Error.WriteLine($"Notebook: {Path.GetFullPath(options.Notebook)}");
        if (options.House)
        {
            foreach (var address in Address.OfThisMachine())
                Console.Error.WriteLine($"For phones in this house: http://{address}:{port}/");
            Console.Error.WriteLine("Whoever can reach this address can read and write the notebook: only on a network you trust.");
        }

        Console.Error.WriteLine("Stop with Ctrl+C.");
        await app.WaitForShutdownAsync(cancel);
        return Program.Done;
    }
}

public class ServeSettings : CommandSettings
{
    [CommandOption("--notebook <DIR>"), Description("The notebook's folder; ~/Dyewort unless you say otherwise")]
    public string? Notebook { get; init; }

    [CommandOption("--port <PORT>"), Description("Port on this machine; 5077 unless you say otherwise, 0 for any free one")]
    public int Port { get; init; } = 5077;

    [
        CommandOption("--house"),
        Description(
            "Listen to the other machines of the house too, so that a phone can send photos. Whoever reaches the port can write in "
                + "the notebook"
        )
    ]
    public bool House { get; init; }
}

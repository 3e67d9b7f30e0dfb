using System.ComponentModel;
using Dyewort.Cli.Commands.Bench;
using Dyewort.Web;
using Dyewort.Workshop.Demo;
using Spectre.Console.Cli;

namespace Dyewort.Cli.Commands.Demo;

/// <summary>A notebook with a season's invented work, and the web app on it.</summary>
public sealed class DemoCommand : AsyncCommand<DemoSettings>
{
    public override async Task<int> ExecuteAsync(CommandContext context, DemoSettings settings, CancellationToken cancellationToken)
    {
        var folder = settings.Notebook ?? Directory.CreateTempSubdirectory("dyewort-demo-").FullName;
        try
        {
            await MakeSeason.HandleAsync(folder, what => Console.Error.WriteLine($"Inventing {what} …"), cancellationToken);
            return await ServeCommand.ServeAsync(
                new WebOptions
                {
                    Notebook = folder,
                    Clock = TimeProvider.System,
                    Port = settings.Port,
                    House = settings.House,
                    Invented = true,
                },
                cancellationToken
            );
        }
        finally
        {
            if (settings.Notebook is null)
                Directory.Delete(folder, recursive: true);
        }
    }
}

public sealed class DemoSettings : CommandSettings
{
    [
        CommandOption("--notebook <DIR>"),
        Description("An empty folder for the invented notebook; a fresh one that goes away afterwards unless you say otherwise")
    ]
    public string? Notebook { get; init; }

    [CommandOption("--port <PORT>"), Description("Port on this machine; 5078 unless you say otherwise, 0 for any free one")]
    public int Port { get; init; } = 5078;

    [CommandOption("--house"), Description("Listen to the other machines of the house too")]
    public bool House { get; init; }
}

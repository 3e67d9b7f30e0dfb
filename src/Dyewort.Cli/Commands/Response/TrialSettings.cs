using System.ComponentModel;
using Spectre.Console.Cli;

namespace Dyewort.Cli.Commands.Response;

/// <summary>Where the trials of a command lie, and how it answers.</summary>
public class TrialSettings : CommandSettings
{
    [
        CommandOption("--trials <FILE>"),
        Description("Painted and read samples: sample,plant,<addition> g/L …,pH,wash,paper,state,L,a,b. Without it, those of the notebook.")
    ]
    public string? Trials { get; init; }

    [CommandOption("--notebook <DIR>"), Description("Your notebook's folder, where no file of trials is named.")]
    public string? Notebook { get; init; }

    [CommandOption("--json"), Description("Answer for machines.")]
    public bool Json { get; init; }
}

using System.ComponentModel;
using Spectre.Console.Cli;

namespace Dyewort.Cli.Commands.Response;

/// <summary>The trials of one plant.</summary>
public class PlantSettings : TrialSettings
{
    [CommandOption("--plant <PLANT>"), Description("The plant, where the trials hold several.")]
    public string Plant { get; init; } = "";
}

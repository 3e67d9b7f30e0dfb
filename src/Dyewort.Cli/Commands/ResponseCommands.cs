using Spectre.Console.Cli;

namespace Dyewort.Cli.Commands;

/// <summary>The commands that work from trials.</summary>
internal static class ResponseCommands
{
    public static void Register(IConfigurator config)
    {
        config.AddCommand<PredictCommand>("predict").WithDescription("Say what samples would look like before they are painted.").WithExample("predict", "--trials", "trials.csv", "--at", "points.csv", "--json");
        config.AddCommand<MatchCommand>("match").WithDescription("Find ways to make a wanted colour.").WithExample("match", "#5b3f7a", "--trials", "trials.csv", "--json");
        config.AddCommand<PlanCommand>("plan").WithDescription("Plan a dose ladder whose steps look even.").WithExample("plan", "--trials", "trials.csv", "--ladder", "alum", "--steps", "6");
        config.AddCommand<ChooseCommand>("choose").WithDescription("Choose the recipes that differ most, or that cover a palette.").WithExample("choose", "8", "--trials", "trials.csv", "--json");
    }
}

using Spectre.Console.Cli;

namespace Dyewort.Cli.Commands.Response;

/// <summary>The commands that work from trials.</summary>
internal static class ResponseCommands
{
    public static void Register(IConfigurator config)
    {
        config
            .AddCommand<PredictCommand>("predict")
            .WithDescription("Say what samples would look like before they are painted.")
            .WithExample("predict", "--trials", "trials.csv", "--at", "points.csv", "--json");
        config
            .AddCommand<MatchCommand>("match")
            .WithDescription("Find ways to make a wanted colour.")
            .WithExample("match", "\"#5b3f7a\"", "--trials", "trials.csv", "--json");
        config
            .AddCommand<PlanCommand>("plan")
            .WithDescription("Plan a trial: an even ladder, a few samples for several additions, or what would teach most next.")
            .WithExample("plan", "--trials", "trials.csv", "--ladder", "alum", "--steps", "6")
            .WithExample(
                "plan",
                "--design",
                "alum,copperas",
                "--count",
                "8",
                "--sample",
                "30ml",
                "--tags",
                "tags.pdf",
                "--sheet",
                "sheet.pdf"
            );
        config
            .AddCommand<ChooseCommand>("choose")
            .WithDescription("Choose the recipes that differ most, or that cover a palette.")
            .WithExample("choose", "8", "--trials", "trials.csv", "--json");
        config.AddBranch(
            "bench",
            bench =>
            {
                bench.SetDescription("While you work: the next measure, a batch that came out wrong, repeats, slips, the reach of a pot.");
                bench
                    .AddCommand<BenchStepCommand>("step")
                    .WithDescription("What one more measure would do, and whether it would be seen.")
                    .WithExample("bench", "step", "\"alum=1/4 tsp\"", "--volume", "90ml", "--trials", "trials.csv");
                bench
                    .AddCommand<BenchCorrectCommand>("correct")
                    .WithDescription("What to add to a batch that came out wrong, or what to blend it with.")
                    .WithExample(
                        "bench",
                        "correct",
                        "--recipe",
                        "E7",
                        "--measured",
                        "40,12,-18",
                        "--volume",
                        "500ml",
                        "--trials",
                        "trials.csv"
                    );
                bench
                    .AddCommand<BenchRepeatsCommand>("repeats")
                    .WithDescription("Do two samples really differ, given your own scatter?")
                    .WithExample("bench", "repeats", "--first", "E7", "--second", "E8", "--trials", "trials.csv");
                bench
                    .AddCommand<BenchSlipsCommand>("slips")
                    .WithDescription("Jars that are not what was written, and what would explain them.")
                    .WithExample("bench", "slips", "--trials", "trials.csv");
                bench
                    .AddCommand<BenchReachCommand>("reach")
                    .WithDescription("Which colours a pot can make.")
                    .WithExample("bench", "reach", "\"#5b3f7a\"", "--trials", "trials.csv");
            }
        );
    }
}

using System.Text;
using Dyewort.Cli.Commands.Bench;
using Dyewort.Cli.Commands.Bottles;
using Dyewort.Cli.Commands.Charts;
using Dyewort.Cli.Commands.Chemistry;
using Dyewort.Cli.Commands.Colours;
using Dyewort.Cli.Commands.Demo;
using Dyewort.Cli.Commands.Pots;
using Dyewort.Cli.Commands.Readings;
using Dyewort.Cli.Commands.Recipes;
using Dyewort.Cli.Commands.Response;
using Dyewort.Workshop;
using Spectre.Console;
using Spectre.Console.Cli;

namespace Dyewort.Cli;

/// <summary>The command line: one file per command in Commands, registered here.</summary>
public static class Program
{
    /// <summary>Done.</summary>
    public const int Done = 0;

    /// <summary>Something failed that the maker did not cause.</summary>
    public const int Failed = 1;

    /// <summary>The input was refused, with one clear line on standard error.</summary>
    public const int Refused = 2;

    private static readonly string[] Groups = ["colour", "pot", "bench"];

    public static Task<int> Main(string[] args)
    {
        Console.OutputEncoding = new UTF8Encoding(encoderShouldEmitUTF8Identifier: false);
        var app = new CommandApp();
        app.Configure(Configure);

        // A group's name alone asks what is in it; that is no mistake.
        return app.RunAsync(args is [var group] && Groups.Contains(group) ? [group, "--help"] : args);
    }

    public static void Configure(IConfigurator config)
    {
        config.SetApplicationName("dyewort");
        // A misspelt option that is passed over would print, read or write something other than what was asked for.
        config.UseStrictParsing();
        ResponseCommands.Register(config);
        config
            .AddCommand<ReadCommand>("read")
            .WithDescription("Read the colours of painted swatches from a photo or scan.")
            .WithExample("read", "photo.jpg", "--layout", "sheet.json", "--picture", "marked.png");
        config.AddBranch(
            "colour",
            colour =>
            {
                colour.SetDescription("What a colour is, and how far two lie apart.");
                colour
                    .AddCommand<ColourShowCommand>("show")
                    .WithDescription("Everything about one colour.")
                    .WithExample("colour", "show", "\"5P 4/8\"");
                colour
                    .AddCommand<ColourDifferenceCommand>("difference")
                    .WithDescription("How far two colours lie apart, in figures and words.")
                    .WithExample("colour", "difference", "\"#5b3f7a\"", "\"#604080\"");
            }
        );
        config
            .AddCommand<MixCommand>("mix")
            .WithDescription("What inks mixed by volume would look like.")
            .WithExample("mix", "\"#5b3f7a=2\"", "\"#d9b94a=1\"", "--wash", "1/4");
        config.SetExceptionHandler((problem, _) => Report(problem));
        config.AddCommand<DemoCommand>("demo").WithDescription("A season of invented work, and the web app on it");
        config.AddCommand<ServeCommand>("serve").WithDescription("The web app on your notebook");
        config
            .AddCommand<LiquidCommand>("liquid")
            .WithDescription("What is in the jar: pH, what dissolves, what foams")
            .WithExample("liquid", "--volume", "90ml", "--add", "\"bicarbonate of soda=1/4 tsp\"");
        config
            .AddCommand<ScaleCommand>("scale")
            .WithDescription("Carry a recipe to another volume, in grams and in spoons.")
            .WithExample("scale", "\"90ml: bicarbonate of soda=1/4 tsp\"", "--to", "1.5L");
        config
            .AddCommand<ChartCommand>("chart")
            .WithDescription("Print a chart of measured chips.")
            .WithExample("chart", "reading.json", "--out", "chart.pdf", "--title", "\"Elder by dose\"", "--chart", "C3");
        config
            .AddCommand<LabelsCommand>("labels")
            .WithDescription("Print front and cap labels for bottles.")
            .WithExample("labels", "bottles.json", "--out", "labels.pdf");
        config
            .AddCommand<SheetCommand>("sheet")
            .WithDescription("Print a sheet to paint swatches on.")
            .WithExample("sheet", "--cells", "4x6", "--page", "A5", "--out", "sheet.pdf", "--layout", "sheet.json");
        config.AddBranch(
            "pot",
            pot =>
            {
                pot.SetDescription("Getting the colour out: planning, water sums, reducing, further runs");
                pot.AddCommand<PotPlanCommand>("plan")
                    .WithDescription("How much plant and water for so many bottles")
                    .WithExample("pot", "plan", "elderberry", "--bottles", "40", "--fill", "29ml", "--pot", "8L");
                pot.AddCommand<PotSumsCommand>("sums")
                    .WithDescription("Where the water went, and which figure looks wrong")
                    .WithExample("pot", "sums", "--in", "1500ml", "--out", "1140ml", "--plant", "75g", "--state", "dry", "--hours", "0.75");
                pot.AddCommand<PotReduceCommand>("reduce")
                    .WithDescription("How long to boil down, and every dose re-stated")
                    .WithExample("pot", "reduce", "--from", "700ml", "--to", "410ml", "--add", "\"alum=14 g\"");
                pot.AddCommand<PotCurveCommand>("curve")
                    .WithDescription("When to stop, from the drops of a pot")
                    .WithExample("pot", "curve", "drops.csv", "--class", "anthocyanin", "--temperature", "72");
                pot.AddCommand<PotRunsCommand>("runs")
                    .WithDescription("What a second and third run will give")
                    .WithExample("pot", "runs", "--out", "1140ml", "--held", "150ml", "--water", "600ml");
            }
        );
        config
            .AddCommand<StrengthCommand>("strength")
            .WithDescription("How strong liquors are, from drops or washes")
            .WithExample("strength", "drops.csv", "--paper", "\"lab(95 0 3)\"");
    }

    private static int Report(Exception problem)
    {
        switch (problem)
        {
            case RefusalException refusal:
                foreach (var one in refusal.Problems)
                    Console.Error.WriteLine(one.ToString());
                return Refused;
            case CommandRuntimeException { Pretty: { } pretty }:
                AnsiConsole.Create(new AnsiConsoleSettings { Out = new AnsiConsoleOutput(Console.Error) }).Write(pretty);
                return Refused;
            case CommandRuntimeException:
                Console.Error.WriteLine(problem.Message);
                return Refused;
            default:
                Console.Error.WriteLine($"Something went wrong: {problem.Message}");
                return Failed;
        }
    }
}

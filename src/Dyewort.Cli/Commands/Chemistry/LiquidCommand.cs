using System.ComponentModel;
using Dyewort.Workshop;
using Dyewort.Workshop.Chemistry;
using Spectre.Console.Cli;

namespace Dyewort.Cli.Commands.Chemistry;

/// <summary>Says what is in a jar: pH, what dissolved, what did not, what foams, and what to look out for.</summary>
public sealed class LiquidCommand : Command<LiquidSettings>
{
    public override int Execute(CommandContext context, LiquidSettings settings, CancellationToken cancellationToken)
    {
        var outcome = new DescribeJar().Handle(
            new()
            {
                Volume = settings.Volume,
                Additions = settings.Add,
                Liquor = settings.Liquor,
                Temperature = settings.Temperature,
                Teaspoon = settings.Teaspoon,
                Hardness = settings.Hardness,
                Alkalinity = settings.Alkalinity,
                LiquorPh = settings.LiquorPh,
                JarPh = settings.JarPh,
                PhTool = settings.PhTool,
            }
        );
        if (!outcome.TryGet(out var answer))
            throw new RefusalException(outcome.Problems);
        if (settings.Json)
        {
            Console.Out.WriteLine(LiquidJson.Write(answer));
            return Program.Done;
        }

        var words = answer.Words;
        Line(words.Headline);
        if (words.Air.Length > 0)
            Line(words.Air);
        if (words.Doubt.Length > 0)
            Line(words.Doubt);
        if (answer.Learnt.Length > 0)
            Line(answer.Learnt);
        Block("Step by step", words.Steps);
        Block("Dissolved", words.Dissolved);
        Block("Not dissolved", words.Undissolved);
        if (words.Gas.Length > 0)
            Line(words.Gas);
        Block("Look out", [.. words.Remarks.Select(remark => remark.Text)]);
        return Program.Done;
    }

    private static void Block(string title, IReadOnlyList<string> lines)
    {
        if (lines.Count == 0)
            return;
        Line($"{title}:");
        foreach (var line in lines)
            Line($"  {line}");
    }

    private static void Line(string text) => Console.Out.WriteLine(text);
}

public sealed class LiquidSettings : CommandSettings
{
    [CommandOption("--volume <AMOUNT>"), Description("Liquor in the jar, such as 90ml or 1 cup.")]
    public string? Volume { get; init; }

    [
        CommandOption("--add <NAME=AMOUNT>"),
        Description("An addition, such as \"bicarbonate of soda=1/4 tsp\" or \"white vinegar 5 %=1 tsp\"; once for each, in order.")
    ]
    public string[] Add { get; init; } = [];

    [CommandOption("--liquor <NAME>"), Description("water (pure, when not given), tap water, or the plant of the liquor.")]
    public string? Liquor { get; init; }

    [CommandOption("--temperature <C>"), Description("Degrees Celsius, 0 to 100; 20 when not given.")]
    public string? Temperature { get; init; }

    [CommandOption("--teaspoon <SIZE>"), Description("metric (5 ml, when not given), US or imperial.")]
    public string? Teaspoon { get; init; }

    [CommandOption("--hardness <MG>"), Description("Tap water's hardness, mg/L as calcium carbonate.")]
    public string? Hardness { get; init; }

    [CommandOption("--alkalinity <MG>"), Description("Tap water's alkalinity, mg/L as calcium carbonate.")]
    public string? Alkalinity { get; init; }

    [CommandOption("--liquor-ph <PH>"), Description("pH you read in the liquor before anything was added.")]
    public string? LiquorPh { get; init; }

    [CommandOption("--jar-ph <PH>"), Description("pH you read in the jar after the additions: it sharpens what is believed of the liquor.")]
    public string? JarPh { get; init; }

    [CommandOption("--ph-tool <TOOL>"), Description("What those were read with: strip (when not given) or meter.")]
    public string? PhTool { get; init; }

    [CommandOption("--json"), Description("Answer as JSON.")]
    public bool Json { get; init; }
}

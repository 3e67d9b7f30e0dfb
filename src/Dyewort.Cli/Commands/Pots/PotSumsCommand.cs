using System.ComponentModel;
using Dyewort.Workshop.Pots;
using Spectre.Console.Cli;

namespace Dyewort.Cli.Commands.Pots;

/// <summary>In + plant water = out + boiled off + held in plant + spilt.</summary>
public sealed class PotSumsCommand : Command<PotSumsSettings>
{
    public override int Execute(CommandContext context, PotSumsSettings settings, CancellationToken cancellationToken)
    {
        var answer = new CloseWaterSum()
            .Handle(
                new CloseWaterSumForm
                {
                    In = settings.In,
                    FromPlant = settings.FromPlant,
                    Out = settings.Out,
                    BoiledOff = settings.BoiledOff,
                    Held = settings.Held,
                    Spilt = settings.Spilt,
                    Plant = settings.Plant,
                    State = settings.State,
                    Pressed = settings.Pressed,
                    Hours = settings.Hours,
                    Temperature = settings.Temperature,
                    Heat = settings.Heat,
                }
            )
            .OrRefuse();
        if (settings.Json)
        {
            PotAnswer.Json(answer);
            return Program.Done;
        }

        foreach (var line in answer.Lines)
            PotAnswer.Line(
                $"{Words(line.Line.ToString()), -12}{(line.Given is { } given ? $"{given:0} ml" : "not given"), 12}   ",
                $"closes at {line.Closed:0} ± {2 * line.ClosedUncertainty:0} ml",
                $"{(line.ChanceWrong > 0.4 && !answer.Closes ? "   looks wrong" : "")}"
            );
        PotAnswer.Line(
            $"{(answer.Closes ? "the sum closes" : "the sum does not close")}: {answer.MissingMillilitres:0} ± ",
            $"{2 * answer.MissingUncertainty:0} ml missing"
        );
        PotAnswer.Say(answer.Remarks);
        return Program.Done;
    }

    private static string Words(string name) =>
        name switch
        {
            "FromPlant" => "from plant",
            "BoiledOff" => "boiled off",
            _ => name.ToLowerInvariant(),
        };
}

public sealed class PotSumsSettings : CommandSettings
{
    [
        CommandOption("--in <VOLUME>"),
        Description("Liquid poured in, top-ups included; ~ before a figure marks one judged by eye, as in ~200ml")
    ]
    public string? In { get; init; }

    [CommandOption("--from-plant <VOLUME>"), Description("Water and juice that the plant gave")]
    public string? FromPlant { get; init; }

    [CommandOption("--out <VOLUME>"), Description("Liquor strained out")]
    public string? Out { get; init; }

    [CommandOption("--boiled-off <VOLUME>"), Description("Gone as steam")]
    public string? BoiledOff { get; init; }

    [CommandOption("--held <VOLUME>"), Description("Kept back by the plant")]
    public string? Held { get; init; }

    [CommandOption("--spilt <VOLUME>"), Description("Spilt, foamed over, taken for drops")]
    public string? Spilt { get; init; }

    [CommandOption("--plant <WEIGHT>"), Description("Plant in the pot, as weighed")]
    public string? Plant { get; init; }

    [CommandOption("--state <STATE>"), Description("fresh, dry or seed; fresh unless you say otherwise")]
    public string? State { get; init; }

    [CommandOption("--pressed"), Description("The plant was pressed")]
    public bool Pressed { get; init; }

    [CommandOption("--hours <HOURS>"), Description("Hours warm")]
    public string? Hours { get; init; }

    [CommandOption("--temperature <CELSIUS>"), Description("Mean temperature while warm; 90 unless you say otherwise")]
    public string? Temperature { get; init; }

    [CommandOption("--heat <KW>"), Description("Kilowatts that reach the liquor")]
    public string? Heat { get; init; }

    [CommandOption("--json"), Description("Answer for machines")]
    public bool Json { get; init; }
}

using System.ComponentModel;
using Dyewort.Workshop.Pots;
using Spectre.Console.Cli;

namespace Dyewort.Cli.Commands.Pots;

/// <summary>What a second and third run of the same plant will give, and whether they pay.</summary>
public sealed class PotRunsCommand : Command<PotRunsSettings>
{
    public override int Execute(CommandContext context, PotRunsSettings settings, CancellationToken cancellationToken)
    {
        var runs = new ExpectFurtherRuns()
            .Handle(
                new ExpectFurtherRunsForm
                {
                    Out = settings.Out,
                    Held = settings.Held,
                    Water = settings.Water,
                    Released = settings.Released,
                    BoilOff = settings.BoilOff,
                    PlantPrice = settings.PlantPrice,
                    HeatPrice = settings.HeatPrice,
                }
            )
            .OrRefuse();
        if (settings.Json)
        {
            PotAnswer.Json(runs);
            return Program.Done;
        }

        foreach (var run in runs)
        {
            var verdict = run.Pays switch
            {
                true => ", pays",
                false => ", does not pay",
                _ => "",
            };
            PotAnswer.Line(
                $"run {run.Run}: {100 * run.Strength:0} % of the first strength in {run.Millilitres:0} ml, ",
                $"{100 * run.ColourShare:0} % of its colour; {run.HoursToFirstStrength:0.#} h of boiling to bring it up, at least ",
                $"{run.KilowattHours:0.##} kWh{verdict}"
            );
        }

        return Program.Done;
    }
}

public sealed class PotRunsSettings : CommandSettings
{
    [CommandOption("--out <VOLUME>"), Description("Liquor of the first run")]
    public string? Out { get; init; }

    [CommandOption("--held <VOLUME>"), Description("Liquor still in the plant")]
    public string? Held { get; init; }

    [CommandOption("--water <VOLUME>"), Description("Fresh water for each further run")]
    public string? Water { get; init; }

    [CommandOption("--released <PERCENT>"), Description("Share of the colour that a run lets go; 90 unless you say otherwise")]
    public string? Released { get; init; }

    [CommandOption("--boil-off <LITRES>"), Description("Litres an hour that the pot loses")]
    public string? BoilOff { get; init; }

    [CommandOption("--plant-price <PRICE>"), Description("What the plant in the pot cost")]
    public string? PlantPrice { get; init; }

    [CommandOption("--heat-price <PRICE>"), Description("What a kilowatt-hour costs")]
    public string? HeatPrice { get; init; }

    [CommandOption("--json"), Description("Answer for machines")]
    public bool Json { get; init; }
}

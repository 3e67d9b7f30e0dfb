using System.ComponentModel;
using Dyewort.Workshop.Pots;
using Spectre.Console.Cli;

namespace Dyewort.Cli.Commands.Pots;

/// <summary>Drops in, the curve and the best time out.</summary>
public sealed class PotCurveCommand : Command<PotCurveSettings>
{
    public override int Execute(CommandContext context, PotCurveSettings settings, CancellationToken cancellationToken)
    {
        var answer = new FitPotCurve()
            .Handle(
                new FitPotCurveForm
                {
                    Temperature = settings.Temperature,
                    Class = settings.Class,
                    Tissue = settings.Tissue,
                    Paper = settings.Paper,
                    More = settings.More,
                },
                PotAnswer.ReadFile("drops", settings.Drops)
            )
            .OrRefuse();
        if (settings.Json)
        {
            PotAnswer.Json(
                new
                {
                    answer.Fit.Celsius,
                    answer.Fit.Plateau,
                    answer.Fit.UptakePerMinute,
                    answer.Fit.LossPerHour,
                    answer.Fit.BestMinute,
                    answer.NinetyFiveMinute,
                    answer.MoreMinutes,
                    answer.ChangeByMore,
                    answer.Drops,
                    answer.Fit.Doubtful,
                    answer.Curve,
                    Prior = answer.Prior.Source,
                    answer.Sentences,
                }
            );
            return Program.Done;
        }

        foreach (var sentence in answer.Sentences)
            PotAnswer.Line($"{sentence}");
        foreach (var drop in answer.Drops.OrderBy(drop => drop.Minute))
        {
            var band = answer.Fit.StrengthAt(drop.Minute);
            PotAnswer.Line(
                $"minute {drop.Minute, 5:0.#}   strength {drop.Strength:0.000} ± {2 * drop.Uncertainty:0.000}   curve ",
                $"{band.Median:0.000} ({band.Low:0.000} to {band.High:0.000})"
            );
        }

        return Program.Done;
    }
}

public sealed class PotCurveSettings : CommandSettings
{
    [
        CommandArgument(0, "<DROPS>"),
        Description(
            "CSV with minute and L,a,b (u95 where known), or minute and strength (uncertainty where known); celsius where the pot "
                + "was measured"
        )
    ]
    public string Drops { get; init; } = "";

    [CommandOption("--temperature <CELSIUS>"), Description("How hot the pot was held, where the table has no celsius")]
    public string? Temperature { get; init; }

    [CommandOption("--class <CLASS>"), Description("Class of colourant, such as anthocyanin or tannin")]
    public string? Class { get; init; }

    [
        CommandOption("--tissue <TISSUE>"),
        Description("soft (petals, berries, skins) or hard (bark, roots, husks); soft unless you say otherwise")
    ]
    public string? Tissue { get; init; }

    [CommandOption("--paper <COLOUR>"), Description("The bare paper's own colour")]
    public string? Paper { get; init; }

    [CommandOption("--more <MINUTES>"), Description("Minutes to look ahead; 30 unless you say otherwise")]
    public string? More { get; init; }

    [CommandOption("--json"), Description("Answer for machines")]
    public bool Json { get; init; }
}

using System.ComponentModel;
using Dyewort.Colour;
using Dyewort.Workshop.Response;
using Spectre.Console.Cli;

namespace Dyewort.Cli.Commands.Response;

/// <summary>The colours a pot can make.</summary>
public sealed class BenchReachCommand : AsyncCommand<BenchReachSettings>
{
    public override async Task<int> ExecuteAsync(CommandContext context, BenchReachSettings settings, CancellationToken cancellationToken)
    {
        Lab? wanted = string.IsNullOrWhiteSpace(settings.Colour)
            ? null
            : Lab.FromXyz(ColourText.Parse("COLOUR", settings.Colour).OrRefuse().Colour);
        var trials = await ReadTrials.SourceAsync(settings.Trials, settings.Notebook, cancellationToken);
        var asked = await new ShowReach(new()).HandleAsync(trials, settings.Plant, settings.Paper, wanted, cancellationToken);
        var answer = asked!.OrRefuse();
        PotAnswer.Say(answer.Warnings);
        var reach = answer.Reach;
        if (settings.Json)
        {
            ResponseJson.Write(
                new
                {
                    reach.Plant,
                    Paper = ResponseJson.Triple(reach.Paper),
                    DarkestL = ResponseJson.Rounded(reach.DarkestL),
                    Outline = reach.Outline.Select(point => new[] { ResponseJson.Rounded(point.A), ResponseJson.Rounded(point.B) }),
                    Hull = reach.Hull.Select(point => new[] { ResponseJson.Rounded(point.A), ResponseJson.Rounded(point.B) }),
                    ByHue = reach
                        .ByHue.Where(bin => bin.MostChroma > 0)
                        .Select(bin => new
                        {
                            bin.HueFrom,
                            bin.HueTo,
                            MostChroma = ResponseJson.Rounded(bin.MostChroma),
                            DarkestL = ResponseJson.Rounded(bin.DarkestL),
                            LightestL = ResponseJson.Rounded(bin.LightestL),
                        }),
                    Nearest = answer.Nearest is { } near
                        ? new
                        {
                            Amounts = ResponseJson.Amounts(near.Point.GramsPerLitre),
                            near.Point.Wash,
                            Lab = ResponseJson.Triple(near.Colour),
                            De00 = ResponseJson.Rounded(near.De00),
                            UncertaintyDe00 = ResponseJson.Rounded(near.UncertaintyDe00),
                            Lightness = ResponseJson.Rounded(near.Lightness),
                            Chroma = ResponseJson.Rounded(near.Chroma),
                            Hue = ResponseJson.Rounded(near.Hue),
                            near.Reached,
                            near.Why,
                        }
                        : null,
                }
            );
            return Program.Done;
        }

        PotAnswer.Line(
            $"{(reach.Plant.Length > 0 ? reach.Plant : "The pot")} reaches from L* {reach.DarkestL:0} to the paper's {reach.Paper.L:0}."
        );
        foreach (var bin in reach.ByHue.Where(bin => bin.MostChroma >= 3))
            PotAnswer.Line(
                $"  hue {bin.HueFrom, 3:0}–{bin.HueTo:0}°: chroma to {bin.MostChroma:0}, L* {bin.DarkestL:0} to {bin.LightestL:0}"
            );
        if (answer.Nearest is { } nearest)
            PotAnswer.Line(
                $"Nearest: L* {nearest.Colour.L:0.0}  a* {nearest.Colour.A:0.0}  b* {nearest.Colour.B:0.0} ± ",
                $"{nearest.UncertaintyDe00:0.0}, ΔE00 {nearest.De00:0.0} away. {nearest.Why}"
            );
        return Program.Done;
    }
}

public sealed class BenchReachSettings : PlantSettings
{
    [CommandArgument(0, "[COLOUR]"), Description("A wanted colour: the nearest that the pot makes is said, and what it lacks.")]
    public string? Colour { get; init; }

    [CommandOption("--paper <NAME>"), Description("The paper to paint on, as the trials name it.")]
    public string Paper { get; init; } = "";
}

using System.ComponentModel;
using Dyewort.Workshop.Pots;
using Spectre.Console.Cli;

namespace Dyewort.Cli.Commands.Pots;

/// <summary>How far and how long to boil down, and what becomes of everything in the pot.</summary>
public sealed class PotReduceCommand : Command<PotReduceSettings>
{
    public override int Execute(CommandContext context, PotReduceSettings settings, CancellationToken cancellationToken)
    {
        var answer = new PlanReduction()
            .Handle(
                new PlanReductionForm
                {
                    From = settings.From,
                    To = settings.To,
                    Times = settings.Times,
                    Add = settings.Add,
                    BoilOff = settings.BoilOff,
                    Temperature = settings.Temperature,
                    Diameter = settings.Diameter,
                    Heat = settings.Heat,
                    Lid = settings.Lid,
                    Class = settings.Class,
                },
                []
            )
            .OrRefuse();
        var plan = answer.Plan;
        if (settings.Json)
        {
            PotAnswer.Json(
                new
                {
                    plan.StartMillilitres,
                    plan.EndMillilitres,
                    plan.Minutes,
                    plan.LowMinutes,
                    plan.HighMinutes,
                    plan.StrengthFactor,
                    plan.ColourKept,
                    answer.Rate,
                    answer.Jar?.PhBefore,
                    answer.Jar?.PhAfter,
                    plan.Doses,
                    FallenOut = answer.Jar?.FallenOut ?? [],
                    plan.Warnings,
                }
            );
            return Program.Done;
        }

        PotAnswer.Line(
            $"{plan.StartMillilitres:0} → {plan.EndMillilitres:0} ml, about {PotAnswer.Minutes(plan.Minutes)} at ",
            $"{answer.Rate.LitresPerHour:0.##} litres an hour; look from {PotAnswer.Minutes(plan.LowMinutes)} on, done by ",
            $"{PotAnswer.Minutes(plan.HighMinutes)}"
        );
        PotAnswer.Line($"as strong: {plan.StrengthWords}; the heat leaves {plan.KeptWords}");
        foreach (var dose in plan.Doses)
            PotAnswer.Line($"{dose.Name}: {dose.BeforeGramsPer100Millilitres:0.##} → {dose.AfterGramsPer100Millilitres:0.##} g/100 ml");
        if (answer.Jar is { } jar)
            PotAnswer.Line($"pH {jar.PhBefore:0.0} → {jar.PhAfter:0.0}, the additions alone");
        PotAnswer.Say(plan.Warnings);
        return Program.Done;
    }
}

public sealed class PotReduceSettings : CommandSettings
{
    [CommandOption("--from <VOLUME>"), Description("Liquor now")]
    public string? From { get; init; }

    [CommandOption("--to <VOLUME>"), Description("Liquor at the end")]
    public string? To { get; init; }

    [CommandOption("--times <FACTOR>"), Description("Or: how many times as strong")]
    public string? Times { get; init; }

    [CommandOption("--add <WHAT=AMOUNT>"), Description("What is already in it, such as \"alum=14 g\"; may be given again")]
    public string[] Add { get; init; } = [];

    [CommandOption("--boil-off <LITRES>"), Description("Litres an hour that the pot loses, where you know it")]
    public string? BoilOff { get; init; }

    [CommandOption("--temperature <CELSIUS>"), Description("How hot it is held; 96 unless you say otherwise")]
    public string? Temperature { get; init; }

    [CommandOption("--diameter <CM>"), Description("Inside of the pot; 24 unless you say otherwise")]
    public string? Diameter { get; init; }

    [CommandOption("--heat <KW>"), Description("Kilowatts that reach the liquor: at the boil its latent heat sets the time")]
    public string? Heat { get; init; }

    [CommandOption("--lid"), Description("The lid is on")]
    public bool Lid { get; init; }

    [CommandOption("--class <CLASS>"), Description("Class of colourant: what the heat destroys is counted")]
    public string? Class { get; init; }

    [CommandOption("--json"), Description("Answer for machines")]
    public bool Json { get; init; }
}

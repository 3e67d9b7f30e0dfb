using System.ComponentModel;
using Dyewort.Pots;
using Dyewort.Workshop.Pots;
using Spectre.Console.Cli;

namespace Dyewort.Cli.Commands.Pots;

/// <summary>Bottles in, plant and water out.</summary>
public sealed class PotPlanCommand : Command<PotPlanSettings>
{
    public override int Execute(CommandContext context, PotPlanSettings settings, CancellationToken cancellationToken)
    {
        var past = settings.Past is null ? [] : ReadPots.FromCsv("past", PotAnswer.ReadFile("past", settings.Past)).OrRefuse();
        var plan = new PlanPot()
            .Handle(
                new PlanPotForm
                {
                    Plant = settings.Plant,
                    Bottles = settings.Bottles,
                    Fill = settings.Fill,
                    Liquor = settings.Liquor,
                    KeepBack = settings.KeepBack,
                    FilterLoss = settings.FilterLoss,
                    Additions = settings.Additions,
                    ReduceTo = settings.ReduceTo,
                    Strength = settings.Strength,
                    Ratio = settings.Ratio,
                    Pot = settings.Vessel,
                    OnHand = settings.OnHand,
                    State = settings.State,
                    Class = settings.Class,
                    Base = settings.Base,
                    Metal = settings.Metal,
                    BoilOff = settings.BoilOff,
                    SpiritStrength = settings.SpiritStrength,
                },
                past
            )
            .OrRefuse();
        if (settings.Json)
        {
            PotAnswer.Json(plan);
            return Program.Done;
        }

        Print(plan);
        return Program.Done;
    }

    private static void Print(PotPlan plan)
    {
        foreach (var step in plan.Steps)
            PotAnswer.Line($"{step.What, -18}{step.Millilitres, 8:0} ml   {step.Why}");
        PotAnswer.Line(
            $"{plan.Plant, -18}{plan.PlantGrams.Median, 8:0} g    {plan.PlantGrams.Low:0} to {plan.PlantGrams.High:0} g in 8 of 10 ",
            $"pots, by {plan.YieldSource}"
        );
        PotAnswer.Line($"{"pick", -18}{plan.SafePlantGrams, 8:0} g    enough in 8 of 10 pots");
        PotAnswer.Line(
            $"{"heat", -18}{plan.Heat.CelsiusTypical, 8:0} °C   for {PotAnswer.Minutes(plan.Heat.MinutesTypical)}, never above ",
            $"{plan.Heat.CelsiusCeiling:0} °C ({plan.Heat.Source})"
        );
        PotAnswer.Line($"{"liquid", -27} {plan.Base.ToString().ToLowerInvariant()}: {plan.BaseWhy}");
        if (plan.Spirit is { } spirit)
            PotAnswer.Line(
                $"{"alcohol", -18}{spirit.PercentByVolume, 8:0.#} %    by volume once the plant's water is in it ",
                $"({spirit.LowPercent:0.#} to {spirit.HighPercent:0.#})"
            );
        if (plan.FillShare is { } full)
            PotAnswer.Line($"{"pot", -18}{100 * full, 8:0} %    full{(plan.Pots > 1 ? $", so in {plan.Pots} goes" : "")}");
        if (plan.Reducing is { } reducing)
            PotAnswer.Line(
                $"{"reducing", -18}{reducing.Minutes, 8:0} min  look from minute {reducing.LowMinutes:0} on, done by ",
                $"{reducing.HighMinutes:0}"
            );
        PotAnswer.Say(plan.Warnings);
        PotAnswer.Say(plan.Cautions);
    }
}

public sealed class PotPlanSettings : CommandSettings
{
    [CommandArgument(0, "<PLANT>"), Description("The plant, such as elderberry")]
    public string Plant { get; init; } = "";

    [CommandOption("--bottles <COUNT>"), Description("How many bottles are wanted")]
    public string? Bottles { get; init; }

    [CommandOption("--fill <VOLUME>"), Description("What goes into one; 30 ml unless you say otherwise")]
    public string? Fill { get; init; }

    [CommandOption("--liquor <VOLUME>"), Description("Liquor wanted, where no bottles are")]
    public string? Liquor { get; init; }

    [CommandOption("--keep-back <VOLUME>"), Description("Kept for look-agains")]
    public string? KeepBack { get; init; }

    [CommandOption("--filter-loss <PERCENT>"), Description("Lost in filters; 3 unless you say otherwise")]
    public string? FilterLoss { get; init; }

    [CommandOption("--additions <ML>"), Description("Gum water and the like added to 100 ml of liquor")]
    public string? Additions { get; init; }

    [CommandOption("--reduce-to <PERCENT>"), Description("Liquor after reducing, of what was strained; 100 does not reduce")]
    public string? ReduceTo { get; init; }

    [CommandOption("--strength <STRENGTH>"), Description("Strength wanted; needs past pots with a strength")]
    public string? Strength { get; init; }

    [CommandOption("--ratio <GRAMS>"), Description("Grams of plant to 100 ml of liquid, instead of the table's")]
    public string? Ratio { get; init; }

    [CommandOption("--pot <VOLUME>"), Description("What the pot holds to the brim")]
    public string? Vessel { get; init; }

    [CommandOption("--on-hand <WEIGHT>"), Description("What there is of the plant")]
    public string? OnHand { get; init; }

    [CommandOption("--state <STATE>"), Description("fresh, dry or seed")]
    public string? State { get; init; }

    [CommandOption("--class <CLASS>"), Description("Class of colourant, such as anthocyanin or tannin")]
    public string? Class { get; init; }

    [CommandOption("--base <LIQUID>"), Description("water, spirit, vinegar, alkali or ferment")]
    public string? Base { get; init; }

    [CommandOption("--metal <METAL>"), Description("What the pot is inside: none, aluminium, iron or copper")]
    public string? Metal { get; init; }

    [CommandOption("--boil-off <LITRES>"), Description("Litres an hour that the pot loses, where you know it")]
    public string? BoilOff { get; init; }

    [CommandOption("--spirit-strength <PERCENT>"), Description("Strength of the spirit, % by volume, where the liquid is spirit")]
    public string? SpiritStrength { get; init; }

    [
        CommandOption("--past <FILE>"),
        Description("Your pots of this plant, as CSV: code,plant g,liquid ml,strained ml,strength (strength may be empty)")
    ]
    public string? Past { get; init; }

    [CommandOption("--json"), Description("Answer for machines")]
    public bool Json { get; init; }
}

using System.ComponentModel;
using Dyewort.Cli.Commands.Response;
using Dyewort.Workshop;
using Dyewort.Workshop.Pots;
using Dyewort.Workshop.Response;
using Spectre.Console.Cli;

namespace Dyewort.Cli.Commands.Pots;

/// <summary>One number per liquor, from drops or a wash ladder.</summary>
public sealed class StrengthCommand : Command<StrengthSettings>
{
    public override int Execute(CommandContext context, StrengthSettings settings, CancellationToken cancellationToken)
    {
        var answer = new CompareStrength().Handle(PotAnswer.ReadFile("drops", settings.Drops), settings.Paper, settings.Yield).OrRefuse();
        var carried =
            settings.Carry is null && settings.Dose.Length == 0
                ? null
                : new CarryRecipe().Handle(Carry(settings, answer), TrialSource.None).OrRefuse().Advice;
        if (settings.Json)
        {
            PotAnswer.Json(
                carried is null
                    ? answer
                    : new
                    {
                        answer.Liquors,
                        answer.Remarks,
                        Carry = carried,
                    }
            );
            return Program.Done;
        }

        foreach (var line in answer.Liquors)
        {
            PotAnswer.Line(
                $"{line.Liquor, -14} strength {line.Strength.Strength:0.000} ± {2 * line.Strength.Uncertainty:0.000}   ",
                $"{line.RatioToFirst:0.00} ± {2 * line.RatioUncertainty:0.00} times the first"
            );
            if (line.UnitsPerGram is { } units)
                PotAnswer.Line($"{"", -14} {units:0.000} colour units per gram of plant");
        }

        foreach (var words in carried?.Words ?? [])
            Console.WriteLine(words);
        PotAnswer.Say(answer.Remarks);
        return Program.Done;
    }

    private static CarryRecipeForm Carry(StrengthSettings settings, CompareStrengthAnswer compared)
    {
        var entered = new Entered();
        var volume = entered.Volume("--carry", settings.Carry, "The new liquor's", "800ml");
        if (compared.Liquors.Count != 2)
            entered.Refuse(
                "drops",
                $"The table holds {compared.Liquors.Count} liquors.",
                "Give two: the one the recipe was made from first, the new one second."
            );
        var doses = entered.Doses("--dose", settings.Dose, TrialSource.None, "alum=10");
        return entered.Sound
            ? new CarryRecipeForm
            {
                Ratio = compared.SecondToFirst,
                Volume = volume,
                GramsPerLitre = doses,
            }
            : throw new RefusalException(entered.Problems);
    }
}

public sealed class StrengthSettings : CommandSettings
{
    [CommandArgument(0, "<DROPS>"), Description("CSV with liquor,L,a,b; wash (1:3 or 0.25), name and u95 where known")]
    public string Drops { get; init; } = "";

    [CommandOption("--paper <COLOUR>"), Description("The bare paper's own colour")]
    public string? Paper { get; init; }

    [
        CommandOption("--yield <LIQUOR=ML/G>"),
        Description("Strained liquor and plant, such as EB25-1=790ml/900g: gives colour units per gram; may be given again")
    ]
    public string[] Yield { get; init; } = [];

    [
        CommandOption("--carry <VOLUME>"),
        Description("Volume of the second liquor: says how far to boil it down or thin it so that recipes made from the first hold")
    ]
    public string? Carry { get; init; }

    [CommandOption("--dose <ADDITION=G/L>"), Description("With --carry: a recipe's dose, such as alum=10; may be given again")]
    public string[] Dose { get; init; } = [];

    [CommandOption("--json"), Description("Answer for machines")]
    public bool Json { get; init; }
}

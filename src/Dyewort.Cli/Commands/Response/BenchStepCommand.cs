using System.ComponentModel;
using Dyewort.Workshop;
using Dyewort.Workshop.Response;
using Spectre.Console.Cli;

namespace Dyewort.Cli.Commands.Response;

/// <summary>What one more measure would do to a jar.</summary>
public sealed class BenchStepCommand : AsyncCommand<BenchStepSettings>
{
    public override async Task<int> ExecuteAsync(CommandContext context, BenchStepSettings settings, CancellationToken cancellationToken)
    {
        var trials = await ReadTrials.SourceAsync(settings.Trials, settings.Notebook, cancellationToken);
        var entered = new Entered();
        var volume = entered.Volume("--volume", settings.Volume, "The jar's", "90ml");
        var measure = entered.Measure("STEP", settings.Step, trials);
        var jar = entered.Jar(trials, settings.Plant, settings.Jar, settings.In, volume, settings.Ph);
        if (!entered.Sound || measure is not var (name, amount) || jar is null)
            throw new RefusalException(entered.Problems);
        var asked = await new ForetellStep(new()).HandleAsync(
            new()
            {
                Jar = jar,
                Volume = volume,
                Material = trials.MaterialOf(name),
                Amount = amount,
            },
            trials,
            cancellationToken
        );
        var answer = asked!.OrRefuse();
        PotAnswer.Say(answer.Warnings.Concat(Caution.Lines(answer.Cautions)));
        var step = answer.Step;
        double? Measures(double? gramsPerLitre) =>
            gramsPerLitre is { } dose ? ResponseJson.Rounded(dose / answer.GramsPerLitrePerMeasure) : null;
        if (settings.Json)
        {
            ResponseJson.Write(
                new
                {
                    step.Addition,
                    StepGPerL = ResponseJson.Rounded(step.StepGramsPerLitre),
                    Lab = ResponseJson.Triple(step.After),
                    Before = ResponseJson.Triple(step.Before),
                    UncertaintyDe00 = ResponseJson.Rounded(step.UncertaintyDe00),
                    ExpectedDe00 = ResponseJson.Rounded(step.ExpectedDe00),
                    De00Low = ResponseJson.Rounded(step.De00Low),
                    De00High = ResponseJson.Rounded(step.De00High),
                    ChanceSeen = ResponseJson.Rounded(step.ChanceSeen),
                    JustSeenMeasures = Measures(step.JustSeenGramsPerLitre),
                    SurelySeenMeasures = Measures(step.SurelySeenGramsPerLitre),
                    step.Move,
                    NothingMore = step.NothingMore.Length > 0 ? step.NothingMore : null,
                    step.Beyond,
                    step.Words,
                }
            );
            return Program.Done;
        }

        Console.WriteLine(step.Words);
        if (step.NothingMore.Length == 0 && Measures(step.JustSeenGramsPerLitre) is { } just)
            PotAnswer.Line($"Just seen from about {just:0.##} times this measure on.");
        return Program.Done;
    }
}

public sealed class BenchStepSettings : PlantSettings
{
    [CommandArgument(0, "<ADDITION=AMOUNT>"), Description("The next measure, such as \"alum=1/4 tsp\".")]
    public string Step { get; init; } = "";

    [CommandOption("--volume <AMOUNT>"), Description("The jar's volume, such as 90ml.")]
    public string? Volume { get; init; }

    [CommandOption("--jar <SAMPLE>"), Description("A sample of the trials that the jar equals; without it, the plain liquor.")]
    public string? Jar { get; init; }

    [CommandOption("--in <ADDITION=AMOUNT>"), Description("What is in the jar already; may be given again.")]
    public string[] In { get; init; } = [];

    [CommandOption("--ph <PH>"), Description("The jar's pH where it was tested.")]
    public string? Ph { get; init; }
}

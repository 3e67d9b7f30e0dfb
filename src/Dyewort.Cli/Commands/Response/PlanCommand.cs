using System.ComponentModel;
using System.Globalization;
using System.Text;
using Dyewort.Response;
using Dyewort.Workshop;
using Dyewort.Workshop.Response;
using Spectre.Console.Cli;

namespace Dyewort.Cli.Commands.Response;

/// <summary>Plans the next trial.</summary>
public sealed class PlanCommand : AsyncCommand<PlanSettings>
{
    public override async Task<int> ExecuteAsync(CommandContext context, PlanSettings settings, CancellationToken cancellationToken)
    {
        var asked = new[]
        {
            settings.Ladder is not null,
            settings.Design is not null && settings.Next is null,
            settings.Next is not null,
        }.Count(one => one);
        if (asked != 1)
            throw new RefusalException(
                "--ladder",
                asked == 0 ? "It is not said what to plan." : "Two kinds of plan were asked for at once.",
                "Give one of --ladder ADDITION, --design ADDITION,ADDITION or --next N."
            );
        return settings.Ladder is not null
            ? await LadderAsync(settings, cancellationToken)
            : await DesignAsync(settings, cancellationToken);
    }

    private static async Task<int> LadderAsync(PlanSettings settings, CancellationToken cancel)
    {
        if (settings.Tags is not null || settings.Sheet is not null || settings.Layout is not null)
            throw new RefusalException(
                "--tags",
                "Tags and sheets are printed for a design.",
                "Use --design or --next, or “dyewort sheet”."
            );
        var trials = await ReadTrials.FromAsync(settings.Trials, settings.Notebook, cancel);
        var answer = new PlanLadder(new()).Handle(settings.Ladder, trials, settings.Plant, settings.Steps).OrRefuse();
        PotAnswer.Say(answer.Warnings.Concat(answer.Cautions));
        if (settings.Json)
        {
            ResponseJson.Write(
                answer.Steps.Select(step => new
                {
                    Amounts = new Dictionary<string, double> { [answer.Addition] = ResponseJson.Rounded(step.GramsPerLitre) },
                    Lab = ResponseJson.Triple(step.Expected),
                    UncertaintyDe00 = ResponseJson.Rounded(step.UncertaintyDe00),
                    StepDe00 = ResponseJson.Rounded(step.StepDe00),
                })
            );
            return Program.Done;
        }

        foreach (var step in answer.Steps)
            PotAnswer.Line(
                $"{step.GramsPerLitre:0.###} g/L {answer.Addition}: L* {step.Expected.L:0.0}  a* {step.Expected.A:0.0}  b* {step.Expected.B:0.0} ± {step.UncertaintyDe00:0.0}, a step of ΔE00 {step.StepDe00:0.0}"
            );
        return Program.Done;
    }

    private static async Task<int> DesignAsync(PlanSettings settings, CancellationToken cancel)
    {
        var trials = settings.Next is not null
            ? await ReadTrials.SourceAsync(settings.Trials, settings.Notebook, cancel)
            : await ReadTrials.IfAnyAsync(settings.Trials, settings.Notebook, cancel);
        var plan = new DesignTrial(new(), TimeProvider.System);
        var answer = plan.Handle(
                new()
                {
                    Additions = (settings.Design ?? "").Split(',', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries),
                    Count = settings.Next ?? settings.Count,
                    Next = settings.Next is not null,
                    Wanted = settings.Towards,
                    Plant = settings.Plant,
                    Sample = settings.Sample,
                    Liquor = settings.Left,
                    Jars = settings.Jars,
                    Spoons = settings.Spoon,
                    Limits = settings.Limit,
                },
                trials
            )
            .OrRefuse();
        var tags = settings.Tags is null ? null : plan.Tags(answer).OrRefuse();
        var sheet = settings.Sheet is null && settings.Layout is null ? null : plan.Sheet(answer, settings.Page, settings.Chart).OrRefuse();
        if (tags is not null)
            OutputFile.Write("--tags", settings.Tags!, tags);
        if (settings.Sheet is { } out1)
            OutputFile.Write("--sheet", out1, sheet!.Pdf);
        if (settings.Layout is { } out2)
            OutputFile.Write("--layout", out2, Encoding.UTF8.GetBytes(sheet!.Layout.ToJson() + "\n"));
        PotAnswer.Say(answer.Warnings.Concat(answer.Design.Notes).Concat(answer.Cautions));
        if (settings.Json)
        {
            ResponseJson.Write(
                new
                {
                    Samples = answer.Design.Samples.Select(sample => new
                    {
                        Tag = DesignTrial.Code(sample),
                        Amounts = sample.Additions.ToDictionary(one => one.Name, one => ResponseJson.Rounded(one.GramsPerLitre)),
                        Additions = sample.Additions.Select(one => new
                        {
                            one.Name,
                            one.Measures,
                            Grams = ResponseJson.Rounded(one.Grams),
                        }),
                        Lab = sample.Expected is { } colour ? ResponseJson.Triple(colour) : null,
                        UncertaintyDe00 = sample.UncertaintyDe00 is { } radius ? ResponseJson.Rounded(radius) : (double?)null,
                    }),
                    SampleMl = answer.Design.SampleMillilitres,
                    DoubtBeforeDe00 = answer.Design.DoubtBefore is { } before ? ResponseJson.Rounded(before) : (double?)null,
                    DoubtAfterDe00 = answer.Design.DoubtAfter is { } after ? ResponseJson.Rounded(after) : (double?)null,
                    answer.Design.Notes,
                }
            );
            return Program.Done;
        }

        foreach (var sample in answer.Design.Samples)
            Console.WriteLine(Say(sample, answer));
        if (answer.Design is { DoubtBefore: { } wide, DoubtAfter: { } narrow })
            PotAnswer.Line($"The usual doubt over all the pot can make falls from ΔE00 {wide:0.0} to {narrow:0.0}.");
        return Program.Done;
    }

    private static string Say(PlannedSample sample, DesignTrialAnswer answer)
    {
        var what =
            sample.Additions.Count == 0
                ? "the plain liquor"
                : string.Join(", ", sample.Additions.Select(one => $"{one.Name} {DesignTrial.Say(one, answer.Measures)}"));
        var line = string.Create(
            CultureInfo.InvariantCulture,
            $"{DesignTrial.Code(sample)}: {answer.Design.SampleMillilitres:0.#} ml with {what}"
        );
        return sample.Expected is { } colour
            ? string.Create(
                CultureInfo.InvariantCulture,
                $"{line}: L* {colour.L:0.0}  a* {colour.A:0.0}  b* {colour.B:0.0} ± {sample.UncertaintyDe00:0.0}"
            )
            : line;
    }
}

public sealed class PlanSettings : PlantSettings
{
    [CommandOption("--ladder <ADDITION>"), Description("The addition whose doses to set out so that the steps look even.")]
    public string? Ladder { get; init; }

    [CommandOption("--steps <N>"), Description("Samples on the ladder, the plain liquor among them."), DefaultValue(6)]
    public int Steps { get; init; } = 6;

    [
        CommandOption("--design <ADDITIONS>"),
        Description("A few samples that stand for all doses of several additions: alum,copperas. Works before any trial too.")
    ]
    public string? Design { get; init; }

    [CommandOption("--count <N>"), Description("Samples of the design."), DefaultValue(8)]
    public int Count { get; init; } = 8;

    [CommandOption("--next <N>"), Description("The N samples that would teach most next.")]
    public int? Next { get; init; }

    [CommandOption("--towards <COLOUR>"), Description("With --next: learn about this colour rather than about all.")]
    public string? Towards { get; init; }

    [CommandOption("--sample <AMOUNT>"), Description("Volume of one sample; 30ml when not given.")]
    public string? Sample { get; init; }

    [CommandOption("--left <AMOUNT>"), Description("Liquor that may be used, such as 400ml.")]
    public string? Left { get; init; }

    [CommandOption("--jars <N>"), Description("Jars at hand."), DefaultValue(60)]
    public int Jars { get; init; } = 60;

    [
        CommandOption("--spoon <MEASURE>"),
        Description("The smallest measure: \"1/8 tsp\" for all, or \"alum=0.2 g\" for one; 0.1 g when not given. May be given again.")
    ]
    public string[] Spoon { get; init; } = [];

    [CommandOption("--limit <ADDITION=G/L>"), Description("The most of an addition, such as copperas=4; may be given again.")]
    public string[] Limit { get; init; } = [];

    [CommandOption("--tags <FILE>"), Description("Write tags for the jars (PDF).")]
    public string? Tags { get; init; }

    [CommandOption("--sheet <FILE>"), Description("Write a sheet to paint them on (PDF).")]
    public string? Sheet { get; init; }

    [CommandOption("--layout <FILE>"), Description("Write the sheet's layout, for “read --layout”.")]
    public string? Layout { get; init; }

    [CommandOption("--page <PAGE>"), Description("The sheet's page: A4, A5, A6, Letter.")]
    public string? Page { get; init; }

    [CommandOption("--chart <CODE>"), Description("The sheet's chart code, such as C7.")]
    public string? Chart { get; init; }
}

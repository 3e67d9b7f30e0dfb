using System.ComponentModel;
using System.Globalization;
using System.Text;
using Dyewort.Colour;
using Dyewort.Quantities;
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
        var trials = await ReadTrials.SourceAsync(settings.Trials, settings.Notebook, cancel);
        var addition = trials.Named(settings.Ladder!.Trim());
        var asked = await new PlanTrial(new()).HandleAsync(
            new()
            {
                Kind = PlanKind.Ladder,
                Plant = settings.Plant,
                Additions = [trials.MaterialOf(addition)],
                Count = settings.Steps,
                Sample = UsualSample,
            },
            trials,
            cancel
        );
        var answer = asked!.OrRefuse();
        var steps = answer
            .Jars.Select(jar =>
                (
                    GramsPerLitre: jar.Doses.Sum(dose => dose.Dose.GramsPerLitre),
                    Expected: jar.Expected!.Value,
                    UncertaintyDe00: jar.UncertaintyDe00!.Value,
                    StepDe00: jar.StepDe00 ?? 0
                )
            )
            .ToList();
        PotAnswer.Say(answer.Warnings.Concat(answer.Notes).Concat(Caution.Lines(answer.Cautions)));
        if (settings.Json)
        {
            ResponseJson.Write(
                steps.Select(step => new
                {
                    Amounts = new Dictionary<string, double> { [addition] = ResponseJson.Rounded(step.GramsPerLitre) },
                    Lab = ResponseJson.Triple(step.Expected),
                    UncertaintyDe00 = ResponseJson.Rounded(step.UncertaintyDe00),
                    StepDe00 = ResponseJson.Rounded(step.StepDe00),
                })
            );
            return Program.Done;
        }

        foreach (var step in steps)
            PotAnswer.Line(
                $"{step.GramsPerLitre:0.###} g/L {addition}: L* {step.Expected.L:0.0}  a* {step.Expected.A:0.0}  b* ",
                $"{step.Expected.B:0.0} ± {step.UncertaintyDe00:0.0}, a step of ΔE00 {step.StepDe00:0.0}"
            );
        return Program.Done;
    }

    private static async Task<int> DesignAsync(PlanSettings settings, CancellationToken cancel)
    {
        var trials = settings.Next is not null
            ? await ReadTrials.SourceAsync(settings.Trials, settings.Notebook, cancel)
            : await ReadTrials.IfAnyAsync(settings.Trials, settings.Notebook, cancel) ?? TrialSource.None;
        var (form, measures) = Form(settings, trials);
        var asked = await new PlanTrial(new()).HandleAsync(form, trials, cancel);
        var answer = asked!.OrRefuse();
        string Measured(PlannedDose dose) => Say(dose, measures);
        var print = new PrintPlan(TimeProvider.System);
        var tags = settings.Tags is null ? null : print.Tags(answer, Measured).OrRefuse();
        var sheet =
            settings.Sheet is null && settings.Layout is null ? null : print.Sheet(answer, settings.Page, settings.Chart).OrRefuse();
        if (tags is not null)
            OutputFile.Write("--tags", settings.Tags!, tags);
        if (settings.Sheet is { } out1)
            OutputFile.Write("--sheet", out1, sheet!.Pdf);
        if (settings.Layout is { } out2)
            OutputFile.Write("--layout", out2, Encoding.UTF8.GetBytes(sheet!.Layout.ToJson() + "\n"));
        PotAnswer.Say(answer.Warnings.Concat(answer.Notes).Concat(Caution.Lines(answer.Cautions)));
        if (settings.Json)
        {
            ResponseJson.Write(
                new
                {
                    Samples = answer.Jars.Select(jar => new
                    {
                        Tag = PrintPlan.Code(jar),
                        Amounts = jar.Doses.ToDictionary(dose => dose.Name, dose => ResponseJson.Rounded(dose.Dose.GramsPerLitre)),
                        Additions = jar.Doses.Select(dose => new
                        {
                            dose.Name,
                            dose.Measures,
                            Grams = ResponseJson.Rounded(dose.Dose.Grams),
                        }),
                        Lab = jar.Expected is { } colour ? ResponseJson.Triple(colour) : null,
                        UncertaintyDe00 = jar.UncertaintyDe00 is { } radius ? ResponseJson.Rounded(radius) : (double?)null,
                    }),
                    SampleMl = answer.SampleMillilitres,
                    DoubtBeforeDe00 = answer.DoubtBefore is { } before ? ResponseJson.Rounded(before) : (double?)null,
                    DoubtAfterDe00 = answer.DoubtAfter is { } after ? ResponseJson.Rounded(after) : (double?)null,
                    answer.Notes,
                }
            );
            return Program.Done;
        }

        foreach (var jar in answer.Jars)
            Console.WriteLine(Say(jar, answer.SampleMillilitres, Measured));
        if (answer is { DoubtBefore: { } wide, DoubtAfter: { } narrow })
            PotAnswer.Line($"The usual doubt over all the pot can make falls from ΔE00 {wide:0.0} to {narrow:0.0}.");
        return Program.Done;
    }

    /// <summary>What was typed as the plan takes it, and what the smallest measure of each addition is called.</summary>
    private static (PlanTrialForm Form, Dictionary<string, string> Measures) Form(PlanSettings settings, TrialSource trials)
    {
        var entered = new Entered();
        var sample = string.IsNullOrWhiteSpace(settings.Sample)
            ? UsualSample
            : entered.Volume("--sample", settings.Sample, "The sample's", "30ml");
        var left = string.IsNullOrWhiteSpace(settings.Left)
            ? (Volume?)null
            : entered.Volume("--left", settings.Left, "The liquor's", "400ml");
        string[] names =
        [
            .. (settings.Design ?? "")
                .Split(',', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries)
                .Select(trials.Named),
        ];
        var smallest = Doses.None;
        var measures = new Dictionary<string, string>(StringComparer.OrdinalIgnoreCase);
        foreach (var spoon in settings.Spoon.OrderBy(text => text.Contains('=', StringComparison.Ordinal)))
        {
            // One measure for all additions, or for one of them.
            var named = spoon.Contains('=', StringComparison.Ordinal);
            foreach (var text in named ? [spoon] : (names.Length > 0 ? names : trials.Table.Additions).Select(name => $"{name}={spoon}"))
            {
                if (entered.Addition("--spoon", text, trials, "alum=1/8 tsp") is not { } measure)
                    continue;
                smallest = smallest.With(measure.Name, measure.Grams);
                measures[measure.Name] = text[(text.LastIndexOf('=') + 1)..].Trim();
            }
        }

        var limits = entered.Doses("--limit", settings.Limit, trials, "copperas=4");
        Lab? towards = null;
        if (!string.IsNullOrWhiteSpace(settings.Towards) && entered.Take(ColourText.Parse("--towards", settings.Towards)) is { } colour)
            towards = Lab.FromXyz(colour.Colour);
        return entered.Sound
            ? (
                new PlanTrialForm
                {
                    Kind = settings.Next is not null ? PlanKind.Next : PlanKind.Spread,
                    Plant = settings.Plant,
                    Additions = [.. names.Select(trials.MaterialOf)],
                    Count = settings.Next ?? settings.Count,
                    Jars = settings.Jars,
                    Sample = sample,
                    Left = left,
                    SmallestGrams = smallest,
                    MostGramsPerLitre = limits,
                    Towards = towards,
                },
                measures
            )
            : throw new RefusalException(entered.Problems);
    }

    /// <summary>How an addition is measured out, such as "3 × 1/8 tsp (1.8 g)".</summary>
    private static string Say(PlannedDose dose, Dictionary<string, string> measures)
    {
        var grams = string.Create(CultureInfo.InvariantCulture, $"{dose.Dose.Grams:0.###} g");
        return measures.TryGetValue(dose.Name, out var measure) && !measure.EndsWith('g')
            ? $"{dose.Measures} × {measure} ({grams})"
            : grams;
    }

    private static string Say(PlannedJar jar, double sampleMl, Func<PlannedDose, string> measured)
    {
        var what = jar.Doses.Count == 0 ? "the plain liquor" : string.Join(", ", jar.Doses.Select(dose => $"{dose.Name} {measured(dose)}"));
        var line = string.Create(CultureInfo.InvariantCulture, $"{PrintPlan.Code(jar)}: {sampleMl:0.#} ml with {what}");
        if (jar.Expected is not null && !jar.IsForetold)
            return $"{line}: not known, nothing like it was painted yet";
        return jar.Expected is { } colour
            ? string.Create(
                CultureInfo.InvariantCulture,
                $"{line}: L* {colour.L:0.0}  a* {colour.A:0.0}  b* {colour.B:0.0} ± {jar.UncertaintyDe00:0.0}"
            )
            : line;
    }

    /// <summary>Volume of one sample where nobody says: 30 ml.</summary>
    private static Volume UsualSample => Volume.FromMillilitres(30);
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

using System.Globalization;
using Dyewort.Colour;
using Dyewort.Notebook;
using Dyewort.Quantities;
using Dyewort.Response;

namespace Dyewort.Workshop.Response;

/// <summary>Plans the next trial: what to stir into how many jars, in measures that can be measured.</summary>
public sealed class PlanTrial(ModelShelf shelf) : IUseCase
{
    private const int FewestRungs = 2;
    private const int MostRungs = 24;

    /// <param name="form">What to plan.</param>
    /// <param name="trials">What was painted so far.</param>
    /// <returns>Null while the trials are still being learned from.</returns>
    public async Task<Outcome<PlanTrialAnswer>?> HandleAsync(PlanTrialForm form, TrialSource trials, CancellationToken cancel)
    {
        ArgumentNullException.ThrowIfNull(form);
        ArgumentNullException.ThrowIfNull(trials);
        var warnings = trials.Table.Warnings.ToList();
        Outcome<ResponseModel>? fitted = null;
        if (trials.Table.Rows.Count > 0)
        {
            if (await shelf.AskAsync(trials.Table, form.Plant, cancel) is not { } learned)
                return null;
            fitted = learned;
        }

        var model = fitted?.TryGet(out var known) == true ? known : null;
        if (model is null && form.Kind is PlanKind.Next or PlanKind.Ladder)
            return fitted is null
                ? Outcome.Refused<PlanTrialAnswer>(
                    nameof(form.Kind),
                    "Not enough trials yet: nothing was painted.",
                    "Start with a few jars that stand for all doses of two or three additions."
                )
                : Outcome.Refused<PlanTrialAnswer>(fitted.Problems);
        if (model is null && fitted is not null)
            warnings.AddRange(fitted.Problems.Select(problem => problem.ToString()));
        if (form.Left is { } left && left.Millilitres < form.Sample.Millilitres && form.Kind is PlanKind.Ladder or PlanKind.Around)
            return Outcome.Refused<PlanTrialAnswer>(
                nameof(form.Sample),
                string.Create(CultureInfo.InvariantCulture, $"{left} of liquor do not fill one sample of {form.Sample}."),
                "Pour less into each, or make another pot."
            );
        string NameOf(Material material) => trials.NameOf(material) ?? material.Name;
        var byName = new Dictionary<string, Material>(StringComparer.OrdinalIgnoreCase);
        foreach (var material in form.Additions.Concat(form.Around.Select(one => one.Material)))
            byName.TryAdd(NameOf(material), material);
        foreach (var name in model?.Additions ?? [])
            byName.TryAdd(name, trials.MaterialOf(name));

        // What was painted once is not proposed again either; and of two that must not meet one is left out by who asks for both.
        var asked = form.Additions.Concat(form.Around.Select(one => one.Material)).ToList();
        if (
            (byName.Values.Select(one => Caution.WhyNever([one])).FirstOrDefault(why => why is not null) ?? Caution.WhyNever(asked)) is
            { } never
        )
            return Outcome.Refused<PlanTrialAnswer>(
                nameof(form.Additions),
                $"That is not planned. {never}",
                "Leave it out, and plan with alum, an acid or an alkali of the kitchen."
            );

        var limits = new BenchLimits
        {
            SampleMillilitres = form.Sample.Millilitres,
            LiquorMillilitres = form.Left?.Millilitres,
            Jars = form.Jars ?? form.Count,
            SmallestGrams =
            [
                .. byName.Select(pair => new Dose(
                    pair.Key,
                    form.SmallestGrams.Find(pair.Key) ?? (form.Measure ?? BenchMeasure.KitchenScale).Grams(pair.Value, trials.TeaspoonMl)
                )),
            ],
            MostGramsPerLitre = SafeDoses.Of(byName, model, form.MostGramsPerLitre),
        };
        var outcome = form.Kind switch
        {
            PlanKind.Around => Around(form, model, limits, NameOf),
            PlanKind.Ladder => Ladder(form, model!, limits, NameOf),
            PlanKind.Next => Designed(TrialDesigner.Next(model!, [.. form.Additions.Select(NameOf)], limits, form.Count, form.Towards)),
            _ => Designed(TrialDesigner.Spread(model, [.. form.Additions.Select(NameOf)], limits, form.Count)),
        };
        if (!outcome.TryGet(out var plan))
            return Outcome.Refused<PlanTrialAnswer>(outcome.Problems);
        var fit = plan.Jars.Where(jar => NeverIn(jar, byName) is null).ToList();
        if (fit.Count < plan.Jars.Count)
            plan = plan with
            {
                Jars = fit,
                Notes = [.. plan.Notes, $"Left out: {plan.Jars.Select(jar => NeverIn(jar, byName)).First(why => why is not null)}"],
            };
        var ml = form.Sample.Millilitres;
        List<PlannedJar> jars =
        [
            .. plan.Jars.Select(
                (jar, index) =>
                    new PlannedJar(
                        index + 1,
                        [
                            .. jar
                                .Doses.Where(dose => dose.GramsPerLitre > 0)
                                .Select(dose =>
                                {
                                    var measured = MeasuredDose.Of(byName[dose.Name], dose.GramsPerLitre, ml, trials.TeaspoonMl);
                                    return new PlannedDose(
                                        dose.Name,
                                        measured,
                                        dose.Measures,
                                        dose.Measures > 0
                                            ? (form.Measure ?? BenchMeasure.KitchenScale).Say(
                                                measured.Material,
                                                dose.Measures,
                                                measured.Grams
                                            )
                                            : measured.Amount
                                    );
                                }),
                        ],
                        jar.Expected,
                        jar.UncertaintyDe00,
                        jar.StepDe00
                    )
            ),
        ];
        var plant = model?.Plant ?? form.Plant;
        return Outcome.Of(
            new PlanTrialAnswer(
                plant,
                jars,
                ml,
                plan.Notes,
                plan.DoubtBefore,
                plan.DoubtAfter,
                [
                    // What meets in one of the jars, each once.
                    .. jars.SelectMany(jar =>
                            Caution.Together(jar.Doses.Select(dose => dose.Dose.Material), plant.Length > 0 ? [plant] : [])
                        )
                        .DistinctBy(caution => (caution.Of, caution.MaterialId))
                        .OrderByDescending(caution => caution.Level),
                ],
                warnings
            )
        );
    }

    private static string? NeverIn(DraftJar jar, Dictionary<string, Material> byName) =>
        Caution.WhyNever(jar.Doses.Where(dose => dose.GramsPerLitre > 0).Select(dose => byName[dose.Name]));

    private static Outcome<Draft> Ladder(PlanTrialForm form, ResponseModel model, BenchLimits limits, Func<Material, string> nameOf)
    {
        if (form.Additions is not [var addition])
            return Outcome.Refused<Draft>(
                nameof(form.Additions),
                "A ladder has one addition.",
                "Name only one, or plan two or three together."
            );
        if (form.Count is < FewestRungs or > MostRungs)
            return Outcome.Refused<Draft>(
                nameof(form.Count),
                $"A ladder of {form.Count} samples cannot be planned.",
                $"Ask for {FewestRungs} to {MostRungs}."
            );
        var name = nameOf(addition);
        if (SafeDoses.Painted(model, name) <= 0)
        {
            string[] tested = [.. model.Additions.Where(one => SafeDoses.Painted(model, one) > 0)];
            return Outcome.Refused<Draft>(
                nameof(form.Additions),
                $"“{name}” was never tested on this plant.",
                tested.Length > 0 ? $"Name one of {string.Join(", ", tested)}." : "Paint a sample with it first."
            );
        }

        var notes = new List<string>();
        var steps = TrialPlan.Ladder(model, name, Math.Clamp(Fitting(form, notes), FewestRungs, MostRungs));
        if (form.Measure is null)
            return Outcome.Of(
                new Draft(
                    [
                        .. steps.Select(step => new DraftJar(
                            [(name, step.GramsPerLitre, 0)],
                            step.Expected,
                            step.UncertaintyDe00,
                            step.StepDe00
                        )),
                    ],
                    notes
                )
            );
        var jars = Predicted(model, steps.Select(step => (IEnumerable<(string, double)>)[(name, step.GramsPerLitre)]), limits, form.Pot);
        if (jars.Count < steps.Count)
            notes.Add("Some steps fell together: what you measure with cannot tell them apart. A finer scale or more in each jar helps.");
        return Outcome.Of(new Draft(jars, notes));
    }

    private static Outcome<Draft> Around(PlanTrialForm form, ResponseModel? model, BenchLimits limits, Func<Material, string> nameOf)
    {
        var notes = new List<string>();
        double[] factors = Fitting(form, notes) switch
        {
            1 => [1],
            2 => [1, 1.25],
            3 => [0.8, 1, 1.25],
            4 => [0.64, 0.8, 1, 1.25],
            _ => [0.64, 0.8, 1, 1.25, 1.56],
        };
        return Outcome.Of(
            new Draft(
                Predicted(
                    model,
                    factors.Select(factor => form.Around.Select(one => (nameOf(one.Material), one.GramsPerLitre * factor))),
                    limits,
                    form.Pot
                ),
                notes
            )
        );
    }

    private static Outcome<Draft> Designed(Outcome<TrialDesign> outcome) =>
        outcome.TryGet(out var design)
            ? Outcome.Of(
                new Draft(
                    [
                        .. design.Samples.Select(sample => new DraftJar(
                            [.. sample.Additions.Select(one => (one.Name, one.GramsPerLitre, one.Measures))],
                            sample.Expected,
                            sample.UncertaintyDe00,
                            null
                        )),
                    ],
                    design.Notes
                )
                {
                    DoubtBefore = design.DoubtBefore,
                    DoubtAfter = design.DoubtAfter,
                }
            )
            : Outcome.Refused<Draft>([
                .. outcome.Problems.Select(problem =>
                    problem with
                    {
                        Field = problem.Field switch
                        {
                            "additions" => nameof(PlanTrialForm.Additions),
                            "count" => nameof(PlanTrialForm.Count),
                            "jars" => nameof(PlanTrialForm.Jars),
                            "sample" => nameof(PlanTrialForm.Sample),
                            "liquor" => nameof(PlanTrialForm.Left),
                            "spoon" => nameof(PlanTrialForm.SmallestGrams),
                            _ => problem.Field,
                        },
                    }
                ),
            ]);

    /// <summary>How many jars the liquor fills, of those that were asked for.</summary>
    private static int Fitting(PlanTrialForm form, List<string> notes)
    {
        var fits = form.Left is { } left ? (int)(left.Millilitres / form.Sample.Millilitres) : form.Count;
        if (fits >= form.Count)
            return form.Count;
        notes.Add(string.Create(CultureInfo.InvariantCulture, $"The liquor left fills {fits} jars of {form.Sample}."));
        return fits;
    }

    /// <summary>Jars of given doses, rounded to what can be measured, each once, with the colours to expect.</summary>
    private static List<DraftJar> Predicted(
        ResponseModel? model,
        IEnumerable<IEnumerable<(string Name, double GramsPerLitre)>> wanted,
        BenchLimits limits,
        string pot
    )
    {
        var jars = new List<DraftJar>();
        var seen = new HashSet<string>();
        foreach (var doses in wanted)
        {
            var measures = doses.Select(dose => (dose.Name, Measures: MeasuresOf(dose.Name, dose.GramsPerLitre, limits))).ToList();
            if (!seen.Add(string.Join('|', measures)))
                continue;
            Doses made =
            [
                .. measures.Select(one => new Dose(
                    one.Name,
                    one.Measures * limits.SmallestGrams[one.Name] * 1000 / limits.SampleMillilitres
                )),
            ];
            var prediction = model?.Predict(
                model.UsualSetting() with
                {
                    Sample = "",
                    Pot = pot,
                    Ph = null,
                    Wash = 1,
                    GramsPerLitre = made,
                }
            );
            var step =
                prediction is not null && jars.Count > 0 && jars[^1].Expected is { } before
                    ? Difference.Ciede2000(before, prediction.Colour)
                    : (double?)null;
            jars.Add(
                new(
                    [.. measures.Select(one => (one.Name, made[one.Name], one.Measures))],
                    prediction?.Colour,
                    prediction?.UncertaintyDe00,
                    step
                )
            );
        }

        return jars;
    }

    private static int MeasuresOf(string name, double gramsPerLitre, BenchLimits limits)
    {
        if (gramsPerLitre <= 0)
            return 0;
        var dose = Math.Min(gramsPerLitre, limits.MostGramsPerLitre.Find(name) ?? double.PositiveInfinity);
        return Math.Max(1, (int)Math.Round(dose * limits.SampleMillilitres / 1000 / limits.SmallestGrams[name]));
    }

    private sealed record Draft(IReadOnlyList<DraftJar> Jars, IReadOnlyList<string> Notes)
    {
        public double? DoubtBefore { get; init; }

        public double? DoubtAfter { get; init; }
    }

    private sealed record DraftJar(
        IReadOnlyList<(string Name, double GramsPerLitre, int Measures)> Doses,
        Lab? Expected,
        double? UncertaintyDe00,
        double? StepDe00
    );
}

/// <summary>What a trial is to find out.</summary>
public enum PlanKind
{
    /// <summary>One addition, in steps that look even.</summary>
    Ladder,

    /// <summary>Two or three additions together, a few jars that stand for all.</summary>
    Spread,

    /// <summary>What would teach most next.</summary>
    Next,

    /// <summary>Given doses, and a step either side.</summary>
    Around,
}

public sealed record PlanTrialForm
{
    public required PlanKind Kind { get; init; }

    /// <summary>The plant; empty where the trials hold one only.</summary>
    public string Plant { get; init; } = "";

    /// <summary>The pot whose liquor is used; empty where it does not matter.</summary>
    public string Pot { get; init; } = "";

    /// <summary>What is stirred in; of <see cref="PlanKind.Next"/> empty for all that were tested.</summary>
    public IReadOnlyList<Material> Additions { get; init; } = [];

    /// <summary>For <see cref="PlanKind.Around"/>: the doses, g/L.</summary>
    public IReadOnlyList<(Material Material, double GramsPerLitre)> Around { get; init; } = [];

    /// <summary>How many samples, the plain liquor among them.</summary>
    public required int Count { get; init; }

    /// <summary>Jars at hand; null for as many as are asked for.</summary>
    public int? Jars { get; init; }

    /// <summary>Volume of one sample.</summary>
    public required Volume Sample { get; init; }

    /// <summary>Liquor that may be used; null where nobody measured it.</summary>
    public Volume? Left { get; init; }

    /// <summary>How finely is measured; null for a kitchen scale, and for a ladder the doses as they are reckoned.</summary>
    public BenchMeasure? Measure { get; init; }

    /// <summary>Grams of the smallest measure of single additions, where it is another.</summary>
    public Doses SmallestGrams { get; init; } = Doses.None;

    /// <summary>The most of single additions, g/L; goes before what is usual and safe.</summary>
    public Doses MostGramsPerLitre { get; init; } = Doses.None;

    /// <summary>For <see cref="PlanKind.Next"/>: a colour to learn about; null for all of them.</summary>
    public Lab? Towards { get; init; }
}

/// <param name="Plant">The plant; empty where nobody said.</param>
/// <param name="Jars">The plan.</param>
/// <param name="SampleMillilitres">Volume of each jar.</param>
/// <param name="Notes">What was left out or cut short, and why.</param>
/// <param name="DoubtBefore">Root mean square doubt over all the pot can make, ΔE₀₀, before.</param>
/// <param name="DoubtAfter">The same after the trial.</param>
/// <param name="Cautions">What to be careful of with what goes in.</param>
/// <param name="Warnings">What was left out of the trials, a sentence each.</param>
public sealed record PlanTrialAnswer(
    string Plant,
    IReadOnlyList<PlannedJar> Jars,
    double SampleMillilitres,
    IReadOnlyList<string> Notes,
    double? DoubtBefore,
    double? DoubtAfter,
    IReadOnlyList<Caution> Cautions,
    IReadOnlyList<string> Warnings
);

/// <param name="Number">What stands on its tag, from 1.</param>
/// <param name="Doses">What goes in; none for the plain liquor.</param>
/// <param name="Expected">The colour to expect; null where no trial has taught it.</param>
/// <param name="UncertaintyDe00">95 % radius around it, ΔE₀₀.</param>
/// <param name="StepDe00">ΔE₀₀ from the jar before; null where that means nothing.</param>
public sealed record PlannedJar(int Number, IReadOnlyList<PlannedDose> Doses, Lab? Expected, double? UncertaintyDe00, double? StepDe00)
{
    /// <summary>True where the colour is a forecast: beyond a ± of 12 nobody would call it one.</summary>
    public bool IsForetold => Expected is not null && UncertaintyDe00 is <= 12;
}

/// <param name="Name">The addition as the trials name it.</param>
/// <param name="Dose">How much of it.</param>
/// <param name="Measures">How many of the smallest measures; 0 where it is not measured in them.</param>
/// <param name="Say">The words to measure it by.</param>
public sealed record PlannedDose(string Name, MeasuredDose Dose, int Measures, string Say);

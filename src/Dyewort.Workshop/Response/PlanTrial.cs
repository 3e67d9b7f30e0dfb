using System.Globalization;
using Dyewort.Notebook;
using Dyewort.Quantities;
using Dyewort.Response;
using Dyewort.Store;
using Dyewort.Workshop.Find;
using Dyewort.Workshop.Pots;
using Dyewort.Workshop.Recipes;
using Microsoft.EntityFrameworkCore;

namespace Dyewort.Workshop.Response;

/// <summary>Plans the next trial of a pot: what to stir into how many jars, in measures that can be measured.</summary>
public sealed class PlanTrial(
    NotebookDb db,
    NotebookTrials notebook,
    ModelShelf shelf,
    NotebookSettings settings,
    LiquorLeft liquor,
    FindThread thread
) : IUseCase
{
    /// <summary>Kinds of plan, in the order a page offers them.</summary>
    public static IReadOnlyList<(string Key, string Say)> Kinds { get; } =
    [
        ("ladder", "One addition, in steps that look even"),
        ("spread", "Two or three additions together, a few jars that stand for all"),
        ("next", "What would teach most next"),
        ("around", "Around one recipe: these doses, and a step either side"),
    ];

    /// <summary>How finely the maker measures.</summary>
    public static IReadOnlyList<(string Key, string Say)> Measures { get; } =
    [
        ("0.1", "a kitchen scale, 0.1 g"),
        ("0.01", "a fine scale, 0.01 g"),
        ("eighth", "level spoons from ⅛ teaspoon"),
        ("pinch", "level spoons from a pinch (1/16 teaspoon)"),
    ];

    /// <param name="Doses">What goes in, each with the words to measure it by; none for the plain liquor.</param>
    /// <param name="Expected">The colour to expect; null where no trial has taught it.</param>
    /// <param name="StepDe00">ΔE₀₀ from the jar before; null where that means nothing.</param>
    public sealed record Jar(
        int Number,
        IReadOnlyList<(MeasuredDose Dose, string Measure)> Doses,
        Dyewort.Colour.Lab? Expected,
        double? UncertaintyDe00,
        double? StepDe00
    )
    {
        /// <summary>The jar as the form sends it on.</summary>
        public string Field => string.Join('|', Doses.Select(one => $"{one.Dose.Material.Id}={one.Measure}"));
    }

    /// <param name="Jars">The plan; empty while nothing was asked.</param>
    /// <param name="Notes">What was left out or cut short, and why.</param>
    /// <param name="DoubtBefore">Root mean square doubt over all the pot can make, ΔE₀₀, before.</param>
    /// <param name="DoubtAfter">The same after the trial.</param>
    public sealed record Plan(
        IReadOnlyList<Jar> Jars,
        double VolumeMl,
        string Title,
        string Kind,
        IReadOnlyList<string> Notes,
        double? DoubtBefore,
        double? DoubtAfter,
        IReadOnlyList<Caution> Cautions
    );

    /// <param name="Choices">Additions of the pantry, those tested on this plant first.</param>
    /// <param name="Tested">Keys of those that were tested.</param>
    /// <param name="NotYet">Why nothing can be foretold yet; null when it can.</param>
    public sealed record Offer(
        Pot Pot,
        string Plant,
        double? LeftMl,
        IReadOnlyList<Material> Choices,
        IReadOnlySet<Guid> Tested,
        IReadOnlyList<Material> Papers,
        Problem? NotYet,
        IReadOnlyList<ThreadStep> Thread
    )
    {
        /// <summary>True where the trials are still being learned from: ask again in a moment.</summary>
        public bool StillLearning { get; init; }
    }

    /// <summary>What a plan starts from; null where there is no such pot.</summary>
    public async Task<Offer?> LookAsync(string code, CancellationToken cancel)
    {
        if (await db.Pots.AsNoTracking().SingleOrDefaultAsync(one => one.Code == code, cancel) is not { } pot)
            return null;
        var plant = (await Origin.LoadAsync(db, [pot.Id], cancel))[0].Plant.Name;
        var trials = await notebook.HandleAsync(cancel);
        var tested = trials
            .Painted.Where(one => string.Equals(one.Row.Point.Plant, plant, StringComparison.OrdinalIgnoreCase))
            .SelectMany(one => one.Row.Point.GramsPerLitre.Names)
            .Distinct(StringComparer.OrdinalIgnoreCase)
            .Select(name => trials.Materials[name].Id)
            .ToHashSet();
        var materials = await db.Materials.AsNoTracking().Where(material => material.WithdrawnAt == null).ToListAsync(cancel);
        var fitted = await shelf.AskAsync(trials.Table, plant, cancel);
        return new(
            pot,
            plant,
            await liquor.HandleAsync(pot.Id, cancel) is { } left ? Math.Max(0, left) : null,
            [
                .. materials
                    .Where(material => material.Kind == MaterialKind.Addition)
                    .OrderByDescending(material => tested.Contains(material.Id))
                    .ThenBy(material => material.Name, StringComparer.OrdinalIgnoreCase),
            ],
            tested,
            [
                .. materials
                    .Where(material => material.Kind == MaterialKind.Paper)
                    .OrderBy(material => material.Name, StringComparer.OrdinalIgnoreCase),
            ],
            fitted is null || fitted.TryGet(out _) ? null : fitted.Problems[0],
            await thread.OfPotAsync(pot.Id, cancel)
        )
        {
            StillLearning = fitted is null,
        };
    }

    public async Task<Outcome<Plan>> HandleAsync(Offer desk, PlanTrialForm form, CancellationToken cancel)
    {
        ArgumentNullException.ThrowIfNull(desk);
        ArgumentNullException.ThrowIfNull(form);
        var entered = new Entered();
        var kind = Kinds.FirstOrDefault(one => one.Key == form.Kind).Key ?? "ladder";
        var around = kind == "around" ? Around(form, desk, entered) : [];
        var count =
            kind == "around" && string.IsNullOrWhiteSpace(form.Jars)
                ? 3
                : entered.Whole(nameof(form.Jars), form.Jars, "How many jars", 1, 60, 6);
        var volume = string.IsNullOrWhiteSpace(form.VolumeMl)
            ? 20
            : entered.Number(nameof(form.VolumeMl), form.VolumeMl, "How much in each jar", "millilitres", 1, 10_000, "20");
        var measure = Measures.FirstOrDefault(one => one.Key == form.Measure).Key ?? "0.1";
        var title = entered.OptionalWords(nameof(form.Title), form.Title, 80);
        var chosen = form
            .Addition.Select(text => desk.Choices.FirstOrDefault(material => material.Id.ToString() == text))
            .OfType<Material>()
            .Distinct()
            .ToList();
        if (kind is "ladder" or "spread" && chosen.Count == 0)
            entered.Refuse(nameof(form.Addition), "No addition was chosen.", kind == "ladder" ? "Tick one." : "Tick two or three.");
        if (kind == "ladder" && chosen.Count > 1)
            entered.Refuse(
                nameof(form.Addition),
                "A ladder has one addition.",
                "Tick only one, or take the plan for two or three together."
            );
        if (desk.LeftMl is { } left && left < volume)
            entered.Refuse(
                nameof(form.VolumeMl),
                string.Create(
                    CultureInfo.InvariantCulture,
                    $"{Figures.Say(left)} ml of liquor do not fill one jar of {Figures.Say(volume)} ml."
                ),
                "Pour less into each, or make another pot."
            );
        if (!entered.Sound)
            return Outcome.Refused<Plan>(entered.Problems);

        var trials = await notebook.HandleAsync(cancel);
        if (await shelf.AskAsync(trials.Table, desk.Plant, cancel) is not { } fitted)
            return Outcome.Refused<Plan>(
                nameof(form.Kind),
                "The trials of this plant are still being learned from.",
                "Ask for the plan again in a moment."
            );
        var model = fitted.TryGet(out var known) ? known : null;
        var spoonMl = await settings.TeaspoonMlAsync(cancel);
        string NameOf(Material material) => trials.NameOf(material) ?? material.Name;
        var all = desk
            .Choices.Where(material => desk.Tested.Contains(material.Id) || chosen.Contains(material))
            .Concat(around.Select(one => one.Material))
            .Distinct()
            .ToList();
        var byName = all.ToDictionary(NameOf, StringComparer.OrdinalIgnoreCase);
        var limits = new BenchLimits
        {
            SampleMillilitres = volume,
            LiquorMillilitres = desk.LeftMl,
            Jars = count,
            SmallestGrams = [.. byName.Select(pair => new Dose(pair.Key, Smallest(pair.Value, measure, spoonMl)))],
            MostGramsPerLitre = SafeDoses.Of(byName, model),
        };

        Jar Of(int number, IEnumerable<(string Name, int Measures)> doses, Dyewort.Colour.Lab? expected, double? uncertainty, double? step)
        {
            var measured = doses
                .Where(one => one.Measures > 0)
                .Select(one =>
                {
                    var material = byName[one.Name];
                    var grams = one.Measures * limits.SmallestGrams[one.Name];
                    return (MeasuredDose.Of(material, 1000 * grams / volume, volume, spoonMl), Say(material, one.Measures, grams, measure));
                })
                .ToList();
            return new(number, measured, expected, uncertainty, step);
        }

        var notes = new List<string>();
        List<Jar> jars;
        (double? before, double? after) = (null, null);
        var fits = desk.LeftMl is { } ml ? (int)(ml / volume) : count;
        if (fits < count && kind is "ladder" or "around")
            notes.Add(string.Create(CultureInfo.InvariantCulture, $"The liquor left fills {fits} jars of {Figures.Say(volume)} ml."));
        if (kind == "around")
        {
            double[] factors = Math.Min(count, fits) switch
            {
                1 => [1],
                2 => [1, 1.25],
                3 => [0.8, 1, 1.25],
                4 => [0.64, 0.8, 1, 1.25],
                _ => [0.64, 0.8, 1, 1.25, 1.56],
            };
            jars = Predicted(
                model,
                factors.Select(factor => around.Select(one => (NameOf(one.Material), one.GramsPerLitre * factor))),
                limits,
                desk.Pot.Code,
                Of
            );
        }
        else if (kind == "ladder" && model is not null && SafeDoses.Painted(model, NameOf(chosen[0])) > 0)
        {
            var name = NameOf(chosen[0]);
            var steps = TrialPlan.Ladder(model, name, Math.Clamp(Math.Min(count, fits), 2, 24));
            jars = Predicted(
                model,
                steps.Select(step => (IEnumerable<(string, double)>)[(name, step.GramsPerLitre)]),
                limits,
                desk.Pot.Code,
                Of
            );
            if (jars.Count < steps.Count)
                notes.Add(
                    "Some steps fell together: what you measure with cannot tell them apart. A finer scale or more in each jar helps."
                );
        }
        else
        {
            var names = chosen.ConvertAll(NameOf);
            Outcome<TrialDesign> outcome;
            if (kind == "next")
            {
                if (model is null)
                    return Outcome.Refused<Plan>(fitted.Problems);
                outcome = TrialDesigner.Next(model, names, limits, count);
            }
            else
            {
                outcome = TrialDesigner.Spread(model, names, limits, Math.Max(2, count));
            }

            if (!outcome.TryGet(out var design))
                return Outcome.Refused<Plan>([
                    .. outcome.Problems.Select(problem =>
                        problem with
                        {
                            Field = problem.Field switch
                            {
                                "additions" => nameof(form.Addition),
                                "count" or "jars" => nameof(form.Jars),
                                "sample" or "liquor" => nameof(form.VolumeMl),
                                "spoon" => nameof(form.Measure),
                                _ => problem.Field,
                            },
                        }
                    ),
                ]);
            notes.AddRange(design.Notes);
            (before, after) = (design.DoubtBefore, design.DoubtAfter);
            jars =
            [
                .. design.Samples.Select(sample =>
                    Of(
                        sample.Number,
                        sample.Additions.Select(one => (one.Name, one.Measures)),
                        sample.Expected,
                        sample.UncertaintyDe00,
                        null
                    )
                ),
            ];
        }

        var used = jars.SelectMany(jar => jar.Doses).Select(one => one.Dose.Material).DistinctBy(material => material.Id).ToList();
        return Outcome.Of(
            new Plan(
                jars,
                volume,
                title ?? (used.Count == 0 ? "plain liquor" : string.Join(" and ", used.Select(material => material.Name))),
                (
                    used.Count == 1 ? TrialKind.Ladder
                    : used.Count == 2 ? TrialKind.Pairs
                    : TrialKind.Free
                ).ToString(),
                notes,
                before,
                after,
                Caution.For(used, [desk.Plant])
            )
        );
    }

    private static List<(Material Material, double GramsPerLitre)> Around(PlanTrialForm form, Offer desk, Entered entered)
    {
        var doses = new List<(Material, double)>();
        foreach (var text in form.Dose)
        {
            var cut = text.IndexOf(':', StringComparison.Ordinal);
            var material = cut > 0 ? desk.Choices.FirstOrDefault(one => one.Id.ToString() == text[..cut]) : null;
            if (
                material is null
                || !double.TryParse(text.AsSpan(cut + 1), NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out var dose)
                || dose is not (> 0 and <= 2000)
            )
                entered.Refuse(
                    nameof(PlanTrialForm.Dose),
                    "The doses to plan around cannot be read.",
                    "Start again from the wanted colour."
                );
            else
                doses.Add((material, dose));
        }

        return doses;
    }

    /// <summary>Jars of given doses, rounded to what can be measured, each once, with the colours to expect.</summary>
    private static List<Jar> Predicted(
        ResponseModel? model,
        IEnumerable<IEnumerable<(string Name, double GramsPerLitre)>> wanted,
        BenchLimits limits,
        string pot,
        Func<int, IEnumerable<(string, int)>, Dyewort.Colour.Lab?, double?, double?, Jar> make
    )
    {
        var jars = new List<Jar>();
        var seen = new HashSet<string>();
        foreach (var doses in wanted)
        {
            var measures = doses
                .Select(dose =>
                    (
                        dose.Name,
                        Measures: dose.GramsPerLitre <= 0
                            ? 0
                            : Math.Max(
                                1,
                                (int)
                                    Math.Round(
                                        Math.Min(dose.GramsPerLitre, limits.MostGramsPerLitre.Find(dose.Name) ?? double.PositiveInfinity)
                                            * limits.SampleMillilitres
                                            / 1000
                                            / limits.SmallestGrams[dose.Name]
                                    )
                            )
                    )
                )
                .ToList();
            if (!seen.Add(string.Join('|', measures)))
                continue;
            var prediction = model?.Predict(
                model.UsualSetting() with
                {
                    Sample = "",
                    Pot = pot,
                    Ph = null,
                    Wash = 1,
                    GramsPerLitre =
                    [
                        .. measures.Select(one => new Dose(
                            one.Name,
                            one.Measures * limits.SmallestGrams[one.Name] * 1000 / limits.SampleMillilitres
                        )),
                    ],
                }
            );
            var step =
                prediction is not null && jars.Count > 0 && jars[^1].Expected is { } before
                    ? Dyewort.Colour.Difference.Ciede2000(before, prediction.Colour)
                    : (double?)null;
            jars.Add(make(jars.Count + 1, measures, prediction?.Colour, prediction?.UncertaintyDe00, step));
        }

        return jars;
    }

    private static bool IsPoured(Material material) => KnownMaterials.Of(material) is { } known && KnownMaterials.IsPoured(known.Substance);

    /// <summary>Grams of the smallest measure: a drop, a step of the scale, or the smallest level spoon.</summary>
    private static double Smallest(Material material, string measure, double teaspoonMl)
    {
        if (IsPoured(material) && KnownMaterials.Of(material) is { } known)
            return DropMl * known.Substance.Density(known.Strength);
        if (measure is "eighth" or "pinch" && KnownMaterials.Measured(material).Spoonful(teaspoonMl) is { } spoon)
            return spoon.Typical / (measure == "eighth" ? 8 : 16);
        return measure == "0.01" ? 0.01 : MeasuredDose.LeastWeighedGrams;
    }

    /// <summary>Grams of the smallest measure of each material, with an ordinary kitchen scale.</summary>
    internal static Doses SmallestOf(IEnumerable<KeyValuePair<string, Material>> materials, double teaspoonMl) =>
        [.. materials.Select(pair => new Dose(pair.Key, Smallest(pair.Value, "0.1", teaspoonMl)))];

    // A drop of water from an eye dropper (common practice, no source).
    private const double DropMl = 0.05;

    private static string Say(Material material, int measures, double grams, string measure)
    {
        if (IsPoured(material))
            return measures < 20
                ? $"{measures} {(measures == 1 ? "drop" : "drops")}"
                : Volume.FromMillilitres(measures * DropMl).ToString();
        if (measure is "eighth" or "pinch" && KnownMaterials.Measured(material).Substance.GramsPerTeaspoon is not null)
        {
            if (measure == "pinch" && measures == 1)
                return "1 pinch";
            var spoons = measures / (measure == "eighth" ? 8.0 : 16);
            return $"{(spoons * 8 % 1 == 0 ? Figures.SayFraction(spoons) : Figures.Say(spoons, 4))} tsp";
        }

        return Mass.FromGrams(grams).ToString();
    }
}

public sealed record PlanTrialForm
{
    public string? Kind { get; init; }

    /// <summary>Keys of materials to use.</summary>
    public IReadOnlyList<string> Addition { get; init; } = [];

    /// <summary>For “around”: "material key:grams per litre".</summary>
    public IReadOnlyList<string> Dose { get; init; } = [];

    public string? Jars { get; init; }

    public string? VolumeMl { get; init; }

    public string? Measure { get; init; }

    public string? Title { get; init; }
}

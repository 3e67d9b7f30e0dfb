using System.Globalization;
using Dyewort.Notebook;
using Dyewort.Quantities;
using Dyewort.Workshop;
using Dyewort.Workshop.Response;

namespace Dyewort.Web.Pages.Response;

/// <summary>What is asked of the page that plans a trial.</summary>
public sealed record TrialQuery
{
    private const int UsualMl = 20;

    /// <summary>Kinds of plan, in the order the page offers them.</summary>
    public static IReadOnlyList<(string Key, PlanKind Kind, string Say)> Kinds { get; } =
    [
        ("ladder", PlanKind.Ladder, "One addition, in steps that look even"),
        ("spread", PlanKind.Spread, "Two or three additions together, a few jars that stand for all"),
        ("next", PlanKind.Next, "What would teach most next"),
        ("around", PlanKind.Around, "Around one recipe: these doses, and a step either side"),
    ];

    /// <summary>How finely the maker measures.</summary>
    public static IReadOnlyList<(string Key, BenchMeasure Measure, string Say)> Measures { get; } =
    [
        ("0.1", BenchMeasure.KitchenScale, "a kitchen scale, 0.1 g"),
        ("0.01", BenchMeasure.FineScale, "a fine scale, 0.01 g"),
        ("eighth", BenchMeasure.Eighths, "level spoons from ⅛ teaspoon"),
        ("pinch", BenchMeasure.Pinches, "level spoons from a pinch (1/16 teaspoon)"),
    ];

    public string? Kind { get; init; }

    /// <summary>Keys of materials to use.</summary>
    public string[]? Addition { get; init; }

    /// <summary>For “around”: "material key:grams per litre".</summary>
    public string[]? Dose { get; init; }

    public string? Jars { get; init; }

    /// <summary>How much in each jar, ml.</summary>
    public string? Volume { get; init; }

    public string? Measure { get; init; }

    public string? Title { get; init; }

    /// <summary>What was asked, as the plan takes it.</summary>
    /// <param name="desk">What there is to plan with.</param>
    public Outcome<PlanTrialForm> Read(OfferTrialAnswer desk)
    {
        ArgumentNullException.ThrowIfNull(desk);
        var entered = new Entered(Words.Kitchen);
        var kind = Kinds.FirstOrDefault(one => one.Key == Kind).Kind;
        var around = kind == PlanKind.Around ? Around(desk, entered) : [];
        var count =
            kind == PlanKind.Around && string.IsNullOrWhiteSpace(Jars) ? 3 : entered.Whole(nameof(Jars), Jars, "How many jars", 1, 60, 6);
        var volume = entered.Volume(nameof(Volume), Volume, 1, 10_000) ?? UsualMl;
        entered.OptionalWords(nameof(Title), Title, 80);
        var chosen = (Addition ?? [])
            .Select(text => desk.Choices.FirstOrDefault(material => material.Id.ToString() == text))
            .OfType<Material>()
            .Distinct()
            .ToList();
        if (kind is PlanKind.Ladder or PlanKind.Spread && chosen.Count == 0)
            entered.Refuse(nameof(Addition), "No addition was chosen.", kind == PlanKind.Ladder ? "Tick one." : "Tick two or three.");
        if (kind == PlanKind.Ladder && chosen.Count > 1)
            entered.Refuse(nameof(Addition), "A ladder has one addition.", "Tick only one, or take the plan for two or three together.");
        if (!entered.Sound)
            return Outcome.Refused<PlanTrialForm>(entered.Problems);

        // What was never painted has no ladder yet: its usual doses are spread.
        var untested = kind == PlanKind.Ladder && (desk.NotYet is not null || !desk.Tested.Contains(chosen[0].Id));
        var most = kind == PlanKind.Ladder && !untested ? 24 : 60;
        return Outcome.Of(
            new PlanTrialForm
            {
                Kind = untested ? PlanKind.Spread : kind,
                Plant = desk.Plant,
                Pot = desk.Pot.Code,
                Additions = chosen,
                Around = around,
                Count = kind is PlanKind.Ladder or PlanKind.Spread ? Math.Clamp(count, 2, most) : count,
                Jars = count,
                Sample = Quantities.Volume.FromMillilitres(volume),
                Left = desk.LeftMl is { } left ? Quantities.Volume.FromMillilitres(left) : null,
                Measure = Measures.FirstOrDefault(one => one.Key == Measure).Measure,
            }
        );
    }

    /// <summary>What the trial is called until the maker calls it otherwise.</summary>
    public string TitleOf(PlanTrialAnswer plan)
    {
        var used = Used(plan);
        return !string.IsNullOrWhiteSpace(Title) ? Title.Trim()
            : used.Count == 0 ? "plain liquor"
            : string.Join(" and ", used.Select(material => material.Name));
    }

    /// <summary>What kind of trial the notebook calls it.</summary>
    public static TrialKind KindOf(PlanTrialAnswer plan) =>
        Used(plan).Count switch
        {
            1 => TrialKind.Ladder,
            2 => TrialKind.Pairs,
            _ => TrialKind.Free,
        };

    /// <summary>A jar as the form sends it on.</summary>
    public static string Field(PlannedJar jar)
    {
        ArgumentNullException.ThrowIfNull(jar);
        return string.Join('|', jar.Doses.Select(dose => $"{dose.Dose.Material.Id}={dose.Say}"));
    }

    private static List<Material> Used(PlanTrialAnswer plan) =>
        [.. plan.Jars.SelectMany(jar => jar.Doses).Select(dose => dose.Dose.Material).DistinctBy(material => material.Id)];

    private List<(Material Material, double GramsPerLitre)> Around(OfferTrialAnswer desk, Entered entered)
    {
        var doses = new List<(Material, double)>();
        foreach (var text in Dose ?? [])
        {
            var cut = text.IndexOf(':', StringComparison.Ordinal);
            var material = cut > 0 ? desk.StirredIn.FirstOrDefault(one => one.Id.ToString() == text[..cut]) : null;
            if (
                material is null
                || !double.TryParse(text.AsSpan(cut + 1), NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out var dose)
                || dose is not (> 0 and <= 2000)
            )
                entered.Refuse(nameof(Dose), "The doses to plan around cannot be read.", "Start again from the wanted colour.");
            else
                doses.Add((material, dose));
        }

        return doses;
    }
}

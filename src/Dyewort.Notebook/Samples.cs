using Dyewort.Quantities;

namespace Dyewort.Notebook;

/// <summary>A measured volume of a pot's liquor, or of another sample, in a jar of its own.</summary>
public sealed class Sample : Entry
{
    /// <summary>The pot its liquor comes from.</summary>
    public required Guid PotId { get; init; }

    /// <summary>The trial it stands in.</summary>
    public required Guid TrialId { get; init; }

    /// <summary>The sample it was poured from; null when it came straight from the pot.</summary>
    public Guid? ParentId { get; init; }

    /// <summary>The second ink of a mixture; <see cref="ParentId"/> is then the first. Null for every other sample.</summary>
    public Guid? MixedWithId { get; init; }

    /// <summary>How much of <see cref="VolumeMl"/> is that second ink, millilitres; null for every other sample.</summary>
    public double? MixedMl { get; init; }

    /// <summary>Such as "A3": the trial's letter and a number; unique within the pot.</summary>
    public required string Jar { get; init; }

    /// <summary>Millilitres of liquor poured in.</summary>
    public required double VolumeMl { get; set; }

    /// <summary>When it was poured, UTC.</summary>
    public required DateTimeOffset PouredAt { get; set; }

    /// <summary>What the maker calls its colour.</summary>
    public string? Said { get; set; }
}

/// <summary>What is to go into a jar that was set out by a plan: meant, and not done.</summary>
public sealed class PlannedStep : Entry
{
    /// <summary>The jar.</summary>
    public required Guid SampleId { get; init; }

    /// <summary>What is to go in, a <see cref="Material"/>.</summary>
    public required Guid MaterialId { get; init; }

    /// <summary>Its place in the plan, from 1.</summary>
    public required int Step { get; init; }

    /// <summary>How much.</summary>
    public required MeasuredAmount Amount { get; init; }
}

/// <summary>One step on a sample.</summary>
public sealed class Addition : Entry
{
    /// <summary>The sample.</summary>
    public required Guid SampleId { get; init; }

    /// <summary>What was added, a <see cref="Material"/>.</summary>
    public required Guid MaterialId { get; init; }

    /// <summary>The step's place on the sample's line, from 1; order can matter.</summary>
    /// <remarks>
    /// It never changes. A step that is written up later takes the number of the step it followed, 0 for none: of one number, what was
    /// written first went in first.
    /// </remarks>
    public required int Step { get; init; }

    /// <summary>When, UTC.</summary>
    public required DateTimeOffset At { get; set; }

    /// <summary>How much.</summary>
    public required MeasuredAmount Amount { get; set; }

    /// <summary>What was seen: "fizzed", "cloudy", "went blue".</summary>
    public string? Seen { get; set; }

    /// <summary>pH tested after it, when it was.</summary>
    public double? Ph { get; set; }

    /// <summary>What that pH was read with; null where nobody said.</summary>
    public PhTool? PhBy { get; set; }

    /// <summary>Why it went in though the tables say that it must not; null where they do not.</summary>
    public string? Reason { get; set; }
}

/// <summary>How the samples of a trial are to be compared.</summary>
public enum TrialKind
{
    /// <summary>One addition each.</summary>
    Singles,

    /// <summary>One addition in rising doses.</summary>
    Ladder,

    /// <summary>Pairs of additions.</summary>
    Pairs,

    /// <summary>Whatever the maker likes.</summary>
    Free,
}

/// <summary>Samples of one pot set out to be compared.</summary>
public sealed class Trial : Entry
{
    /// <summary>The pot.</summary>
    public required Guid PotId { get; init; }

    /// <summary>"A" for a pot's first trial, "B" for its second.</summary>
    public required string Letter { get; init; }

    /// <summary>What the maker calls it.</summary>
    public required string Title { get; set; }

    /// <summary>How it is laid out.</summary>
    public required TrialKind Kind { get; set; }

    /// <summary>The day it was set out.</summary>
    public required DateOnly SetOutOn { get; set; }
}

/// <summary>The running total of one material in one jar.</summary>
/// <param name="MaterialId">The material.</param>
/// <param name="Times">How many additions it took.</param>
/// <param name="Grams">Grams in the jar; null when one of the additions could not be carried to a mass.</param>
/// <param name="GramsPer100Ml">Grams for every 100 ml of liquor that was poured in; null like <paramref name="Grams"/>.</param>
/// <param name="Teaspoons">Level teaspoons of the maker in the jar; null when the material's grams per teaspoon are not known.</param>
public sealed record RunningTotal(Guid MaterialId, int Times, double? Grams, double? GramsPer100Ml, double? Teaspoons)
{
    /// <summary>What its additions come to, in words: "½ tsp" of two quarters, "¼ tsp + 2 drops" where they cannot be summed.</summary>
    public required string Said { get; init; }

    /// <summary>The totals of a sample, in the order the materials first went in.</summary>
    /// <param name="volumeMl">Liquor poured into the jar, millilitres, above zero.</param>
    /// <param name="additions">Its additions; withdrawn ones are left out.</param>
    /// <param name="gramsPerTeaspoon">Grams in a level teaspoon of the maker, or null.</param>
    /// <param name="kitchen">Whose teaspoon that is; what was meant in another kitchen says so.</param>
    public static IReadOnlyList<RunningTotal> Of(
        double volumeMl,
        IEnumerable<Addition> additions,
        Func<Guid, double?> gramsPerTeaspoon,
        Teaspoon kitchen
    ) =>
        [
            .. additions
                .Where(addition => addition.Counts)
                .OrderBy(addition => addition.Step)
                .ThenBy(addition => addition.Id)
                .GroupBy(addition => addition.MaterialId)
                .Select(group =>
                {
                    double? grams = group.All(addition => addition.Amount.Grams is not null)
                        ? group.Sum(addition => addition.Amount.Grams!.Value)
                        : null;
                    double? ml = group.All(addition => addition.Amount.Ml is not null)
                        ? group.Sum(addition => addition.Amount.Ml!.Value)
                        : null;
                    double? spoons =
                        grams is { } mass && gramsPerTeaspoon(group.Key) is > 0 and { } spoon
                            ? mass / spoon
                            : ml / KitchenMeasures.TeaspoonMillilitres(kitchen);
                    var amounts = group.Select(addition => addition.Amount).ToList();
                    return new RunningTotal(group.Key, group.Count(), grams, grams / volumeMl * 100, spoons)
                    {
                        Said =
                            MeasuredAmount.Sum(amounts)?.TextIn(kitchen)
                            ?? string.Join(" + ", amounts.Select(amount => amount.TextIn(kitchen))),
                    };
                }),
        ];
}

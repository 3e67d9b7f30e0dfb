using Dyewort.Colour;
using Dyewort.Quantities;
using Dyewort.Response;

namespace Dyewort.Workshop.Response;

/// <summary>Ways to make a wanted colour out of everything that was painted and read.</summary>
public sealed class MatchColour(ModelShelf shelf) : IUseCase
{
    private const double LeastWash = 0.96;

    public async Task<Outcome<MatchColourAnswer>> HandleAsync(MatchColourForm form, TrialSource trials, CancellationToken cancel)
    {
        ArgumentNullException.ThrowIfNull(form);
        ArgumentNullException.ThrowIfNull(trials);
        var problems = new List<Problem>();
        var paper = form.Paper.Trim();
        if (paper.Length > 0 && !trials.Papers.Contains(paper, StringComparer.OrdinalIgnoreCase))
            problems.Add(
                new(
                    nameof(form.Paper),
                    $"Nothing was painted on “{paper}” yet.",
                    trials.Papers.Count > 0
                        ? $"Choose one of {string.Join(", ", trials.Papers)}."
                        : "The trials name no paper: leave it out."
                )
            );
        if (form.Volume.Millilitres is < 1 or > 1e6)
            problems.Add(new(nameof(form.Volume), $"{form.Volume} cannot be made here.", "Ask for 1 ml to 1000 L."));
        if (problems.Count > 0)
            return Outcome.Refused<MatchColourAnswer>(problems);

        MatchColourAnswer Without(IReadOnlyList<Problem> notYet) =>
            new(form.Wanted, form.Volume, paper, [], false, "", notYet, trials.Table.Warnings);
        if (await shelf.AskAllAsync(trials.Table, cancel) is not var (models, notYet))
            return Outcome.Of(Without([]) with { StillLearning = true });
        if (models.Count == 0)
            return Outcome.Of(Without(notYet));
        var found = Match.Find(
            Lab.FromXyz(form.Wanted.Colour),
            models,
            paper,
            new() { SampleMillilitres = form.Volume.Millilitres, SmallestGrams = trials.SmallestGrams }
        );
        List<MatchColourWay> ways =
        [
            .. found
                // A wash of next to no water is the ink itself, which stands in the list already.
                .Proposals.Where(one => one.Kind != MatchKind.Wash || one.Point.Wash < LeastWash)
                .Select(one => Make(one, form.Volume.Millilitres, trials, models)),
        ];

        // What must not be in one jar is no way, though it was painted once.
        var never = ways.Select(WhyNever).FirstOrDefault(why => why is not null);
        return Outcome.Of(
            new MatchColourAnswer(
                form.Wanted,
                form.Volume,
                paper,
                [.. ways.Where(way => WhyNever(way) is null).DistinctBy(Deed)],
                found.Reached,
                found.Why,
                notYet,
                trials.Table.Warnings
            )
            {
                NotProposed = never,
            }
        );
    }

    // Two jars that hold the same, or a dose that a jar holds already, are one deed: the nearest of them speaks for it.
    private static string Deed(MatchColourWay way) =>
        string.Join(
            " + ",
            way.Pours.Select(pour =>
                    $"{pour.Pot} {Figures.Say(pour.Ml, 2)}: "
                    + string.Join(
                        ", ",
                        pour.Doses.OrderBy(dose => dose.Material.Id)
                            .Select(dose => $"{dose.Material.Id} {Figures.Say(dose.GramsPerLitre, 2)}")
                    )
                )
                .Order(StringComparer.Ordinal)
        );

    private static string? WhyNever(MatchColourWay way) =>
        Caution.WhyNever(way.Pours.SelectMany(pour => pour.Doses).Select(dose => dose.Material));

    private static MatchColourWay Make(Proposal proposal, double volumeMl, TrialSource trials, IReadOnlyList<ResponseModel> models)
    {
        var wash = Math.Clamp(proposal.Point.Wash, 0.001, 1);
        var liquorMl = volumeMl * wash;
        MatchColourPour Take(TrialPoint point, string plant, string code, double ml)
        {
            var painted = trials.Of(code).FirstOrDefault();
            var known = trials.PaintedRows.Any(row => string.Equals(row.Point.Sample, code, StringComparison.OrdinalIgnoreCase));
            return new(
                known ? code : point.Pot,
                painted?.InJar ?? Thing.Pot(point.Pot),
                point.Pot,
                plant,
                ml,
                trials.PaintedRows.FirstOrDefault(row => row.Point.Pot == point.Pot)?.Point.LeftMillilitres,
                [.. point.GramsPerLitre.Select(dose => MeasuredDose.Of(trials.MaterialOf(dose.Name), dose.Amount, ml, trials.TeaspoonMl))]
            );
        }

        List<MatchColourPour> pours =
            proposal.Parts.Count > 0
                ?
                [
                    .. proposal.Parts.Select(part =>
                        Take(trials.PaintedRows.First(row => IsPart(row.Point, part)).Point, part.Plant, part.Sample, liquorMl * part.Share)
                    ),
                ]
                : [Take(proposal.Point, proposal.Point.Plant, proposal.Sample, liquorMl)];
        var model = models.FirstOrDefault(one => string.Equals(one.Plant, proposal.Point.Plant, StringComparison.OrdinalIgnoreCase));
        var settled =
            proposal.Parts.Count == 0 && proposal.Point.State != "settled" && model?.Rows.Any(row => row.Point.State == "settled") == true
                ? model.Predict(proposal.Point with { State = "settled" })
                : null;
        return new(
            proposal,
            pours,
            volumeMl - liquorMl,
            settled,
            trials.Of(proposal.Sample).OrderByDescending(one => one.Row.Point.State == "dry").FirstOrDefault(),
            Caution.Together(pours.SelectMany(pour => pour.Doses).Select(dose => dose.Material), pours.Select(pour => pour.Plant))
        );
    }

    private static bool IsPart(TrialPoint point, MatchPart part) =>
        string.Equals(point.Sample, part.Sample, StringComparison.OrdinalIgnoreCase)
        && string.Equals(point.Plant, part.Plant, StringComparison.OrdinalIgnoreCase);
}

public sealed record MatchColourForm
{
    public required Wish Wanted { get; init; }

    /// <summary>How much is to be made, 1 ml to 1000 L.</summary>
    public Volume Volume { get; init; } = Usual;

    /// <summary>The paper to paint on, as the trials name it; empty for the one most was painted on.</summary>
    public string Paper { get; init; } = "";

    /// <summary>How much is made where nobody says: 100 ml.</summary>
    public static Volume Usual { get; } = Volume.FromMillilitres(100);
}

/// <param name="Wanted">What was asked for.</param>
/// <param name="Volume">How much is to be made.</param>
/// <param name="Paper">The paper that was asked for; empty for the one most was painted on.</param>
/// <param name="Ways">Best first; empty while no plant has enough trials.</param>
/// <param name="Reached">False where even the best is surely a visible way off.</param>
/// <param name="Why">What the wanted colour has that these inks have not.</param>
/// <param name="NotYet">Plants without enough trials, a sentence each.</param>
/// <param name="Warnings">What was left out of the trials, a sentence each.</param>
public sealed record MatchColourAnswer(
    Wish Wanted,
    Volume Volume,
    string Paper,
    IReadOnlyList<MatchColourWay> Ways,
    bool Reached,
    string Why,
    IReadOnlyList<Problem> NotYet,
    IReadOnlyList<string> Warnings
)
{
    /// <summary>Why a way that comes near is not proposed; null where every one is.</summary>
    public string? NotProposed { get; init; }

    /// <summary>True where the trials are still being learned from: ask again in a moment.</summary>
    public bool StillLearning { get; init; }

    /// <summary>The plant that comes nearest by itself; empty where there is no way.</summary>
    public string NearestPlant =>
        (Ways.FirstOrDefault(way => way.Pours.Count == 1) ?? (Ways.Count > 0 ? Ways[0] : null))?.Pours[0].Plant ?? "";
}

/// <param name="Proposal">What is proposed.</param>
/// <param name="Pours">One liquor, or the two of a mixture.</param>
/// <param name="WaterMl">Water to thin it with.</param>
/// <param name="Settled">What it is expected to be after a week, where that was tested.</param>
/// <param name="Swatch">The painted swatch it starts from; null for trials out of a file.</param>
/// <param name="Cautions">What to be careful of with what goes in.</param>
public sealed record MatchColourWay(
    Proposal Proposal,
    IReadOnlyList<MatchColourPour> Pours,
    double WaterMl,
    Prediction? Settled,
    NotebookTrialsPainted? Swatch,
    IReadOnlyList<Caution> Cautions
);

/// <summary>One liquor to take, and what to stir into it.</summary>
/// <param name="Code">The sample's code, or the pot's where nobody painted it yet.</param>
/// <param name="Thing">The jar, or the pot where nobody painted it yet.</param>
/// <param name="Pot">The pot that gives the liquor.</param>
/// <param name="Plant">The plant it was made from.</param>
/// <param name="Ml">Millilitres of liquor.</param>
/// <param name="LeftMl">What is left in that pot; null while nobody measured it.</param>
/// <param name="Doses">What to stir in.</param>
public sealed record MatchColourPour(
    string Code,
    Thing Thing,
    string Pot,
    string Plant,
    double Ml,
    double? LeftMl,
    IReadOnlyList<MeasuredDose> Doses
)
{
    public bool TooLittle => LeftMl < Ml;
}

using Dyewort.Colour;
using Dyewort.Quantities;
using Dyewort.Response;
using Dyewort.Store;
using Dyewort.Workshop.Recipes;
using Microsoft.EntityFrameworkCore;

namespace Dyewort.Workshop.Response;

/// <summary>Ways to make a wanted colour out of everything that was painted and read in the notebook.</summary>
public sealed class WantedColour(NotebookDb db, NotebookTrials notebook, ModelShelf shelf, NotebookSettings settings) : IUseCase
{
    private const double LeastWash = 0.96;

    /// <param name="Colour">The wanted colour.</param>
    /// <param name="ReadAs">How it was understood.</param>
    /// <param name="UncertaintyDe00">Its own 95 % radius where it was read.</param>
    /// <param name="Thing">What of the notebook has it; null where it was typed.</param>
    public sealed record Wish(Xyz Colour, string ReadAs, double? UncertaintyDe00, Thing? Thing);

    /// <summary>Papers that something was painted on.</summary>
    public async Task<IReadOnlyList<string>> PapersAsync(CancellationToken cancel) =>
        [
            .. (await notebook.HandleAsync(cancel))
                .Painted.Select(one => one.Row.Point.Paper)
                .Where(name => name.Length > 0)
                .Distinct(StringComparer.OrdinalIgnoreCase),
        ];

    public async Task<Outcome<WantedColourAnswer>> HandleAsync(WantedColourForm form, CancellationToken cancel)
    {
        ArgumentNullException.ThrowIfNull(form);
        var teaspoon = (await settings.ReadAsync(cancel)).Teaspoon;
        var asked = await WishAsync(form, cancel);
        var amount = Volume.Parse(nameof(form.Volume), string.IsNullOrWhiteSpace(form.Volume) ? "100 ml" : form.Volume, teaspoon);
        var problems = asked.Problems.Concat(amount.Problems).ToList();
        var trials = await notebook.HandleAsync(cancel);
        var paper = form.Paper?.Trim() ?? "";
        if (paper.Length > 0 && !trials.Painted.Any(one => string.Equals(one.Row.Point.Paper, paper, StringComparison.OrdinalIgnoreCase)))
            problems.Add(new(nameof(form.Paper), $"Nothing was painted on “{paper}” yet.", "Choose one of the papers shown."));
        if (problems.Count > 0 || !asked.TryGet(out var wish) || !amount.TryGet(out var volume))
            return Outcome.Refused<WantedColourAnswer>(problems);
        if (volume.Millilitres is < 1 or > 1e6)
            return Outcome.Refused<WantedColourAnswer>(nameof(form.Volume), $"{volume} cannot be made here.", "Ask for 1 ml to 1000 L.");

        if (await shelf.AskAllAsync(trials.Table, cancel) is not var (models, notYet))
            return Outcome.Of(new WantedColourAnswer(wish, volume, paper, [], Reached: false, "", [], []) { StillLearning = true });
        if (models.Count == 0)
            return Outcome.Of(new WantedColourAnswer(wish, volume, paper, [], Reached: false, "", [], notYet));
        var lab = Lab.FromXyz(wish.Colour);
        var spoonMl = KitchenMeasures.TeaspoonMillilitres(teaspoon);
        var found = Match.Find(
            lab,
            models,
            paper,
            new() { SampleMillilitres = volume.Millilitres, SmallestGrams = PlanTrial.SmallestOf(trials.Materials, spoonMl) }
        );

        WantedColourWay[] ways = [.. Worthwhile(found.Proposals).Select(one => Make(one, volume.Millilitres, spoonMl, trials, models))];
        var alone = PlantOf((ways.FirstOrDefault(way => way.Pours.Count == 1) ?? ways[0]).Pours[0], trials);
        var nearest = models.FirstOrDefault(model => string.Equals(model.Plant, alone, StringComparison.OrdinalIgnoreCase)) ?? models[0];
        var reach = PotReach.Of(nearest, paper);
        return Outcome.Of(
            new WantedColourAnswer(wish, volume, paper, ways, found.Reached, found.Why, OnePerSample(trials, nearest.Plant), notYet)
            {
                Reach = reach,
                Nearest = reach.Nearest(lab),
            }
        );
    }

    /// <summary>A wash of next to no water is the ink itself, which stands in the list already.</summary>
    internal static IEnumerable<Proposal> Worthwhile(IEnumerable<Proposal> proposals) =>
        proposals.Where(one => one.Kind != MatchKind.Wash || one.Point.Wash < LeastWash);

    /// <summary>One painted reading per sample of a plant.</summary>
    internal static IReadOnlyList<NotebookTrialsPainted> OnePerSample(NotebookTrialsAnswer trials, string plant) =>
        [
            .. trials
                .Painted.Where(one => string.Equals(one.Row.Point.Plant, plant, StringComparison.OrdinalIgnoreCase))
                .GroupBy(one => one.Sample.Id)
                .Select(NotebookTrials.Speaking),
        ];

    private static string PlantOf(WantedColourPour pour, NotebookTrialsAnswer trials) =>
        trials.Painted.First(one => one.Pot.Code == pour.Pot).Row.Point.Plant;

    private static WantedColourWay Make(
        Proposal proposal,
        double volumeMl,
        double teaspoonMl,
        NotebookTrialsAnswer trials,
        IReadOnlyList<ResponseModel> models
    )
    {
        var wash = Math.Clamp(proposal.Point.Wash, 0.001, 1);
        var liquorMl = volumeMl * wash;
        WantedColourPour Take(string code, string pot, Doses doses, double ml)
        {
            var start = trials.Of(code).FirstOrDefault();
            return new(
                start is null ? pot : code,
                start?.InJar ?? Thing.Pot(pot),
                pot,
                ml,
                trials.Painted.FirstOrDefault(one => one.Pot.Code == pot)?.Row.Point.LeftMillilitres,
                [.. doses.Select(dose => MeasuredDose.Of(trials.Materials[dose.Name], dose.Amount, ml, teaspoonMl))]
            );
        }

        List<WantedColourPour> pours =
            proposal.Parts.Count > 0
                ?
                [
                    .. proposal
                        .Parts.Select(part => (part, Start: trials.Of(part.Sample).First()))
                        .Select(one =>
                            Take(one.part.Sample, one.Start.Pot.Code, one.Start.Row.Point.GramsPerLitre, liquorMl * one.part.Share)
                        ),
                ]
                : [Take(proposal.Sample, proposal.Point.Pot, proposal.Point.GramsPerLitre, liquorMl)];
        var model = models.FirstOrDefault(one => string.Equals(one.Plant, proposal.Point.Plant, StringComparison.OrdinalIgnoreCase));
        var settled =
            proposal.Parts.Count == 0 && proposal.Point.State != "settled" && model?.Rows.Any(row => row.Point.State == "settled") == true
                ? model.Predict(proposal.Point with { State = "settled" })
                : null;
        var plants = pours.Select(pour => PlantOf(pour, trials));
        return new(
            proposal,
            pours,
            volumeMl - liquorMl,
            settled,
            trials.Of(proposal.Sample).OrderByDescending(one => one.Row.Point.State == "dry").FirstOrDefault(),
            Caution.For(pours.SelectMany(pour => pour.Doses).Select(dose => dose.Material), plants)
        );
    }

    private async Task<Outcome<Wish>> WishAsync(WantedColourForm form, CancellationToken cancel)
    {
        if (Guid.TryParse(form.Swatch, out var swatchId))
        {
            var found = await (
                from swatch in db.Swatches.AsNoTracking()
                join chart in db.Charts on swatch.ChartId equals chart.Id
                where swatch.Id == swatchId
                select new { swatch, chart }
            ).SingleOrDefaultAsync(cancel);
            if (found is null || await RecipeView.NewestReadingAsync(db, swatchId, cancel) is not { } reading)
                return Outcome.Refused<Wish>(
                    nameof(form.C),
                    "This swatch has no reading.",
                    "Send a photo of its chart first, or type a colour."
                );
            return Outcome.Of(
                new Wish(
                    reading.Colour,
                    $"{found.chart.Code} {found.swatch.Cell}, as it was read",
                    reading.UncertaintyDe00,
                    Thing.Swatch(found.chart.Code, found.swatch.Cell)
                )
            );
        }

        if (!string.IsNullOrWhiteSpace(form.Recipe))
        {
            var recipe = await db.Recipes.AsNoTracking().SingleOrDefaultAsync(one => one.Code == form.Recipe, cancel);
            return recipe?.Colour is { } colour
                ? Outcome.Of(new Wish(colour, $"{recipe.Name}, as it was kept", recipe.UncertaintyDe00, Thing.Recipe(recipe.Code)))
                : Outcome.Refused<Wish>(nameof(form.C), "This recipe has no colour.", "Type a colour instead.");
        }

        var typed = ColourText.Parse(nameof(form.C), form.C);
        return typed.TryGet(out var text)
            ? Outcome.Of(new Wish(text.Colour, text.ReadAs, null, null))
            : Outcome.Refused<Wish>(typed.Problems);
    }
}

/// <param name="Volume">How much is to be made.</param>
/// <param name="Ways">Best first; empty while no plant has enough trials.</param>
/// <param name="Reached">False where even the best is surely a visible way off.</param>
/// <param name="Why">What the wanted colour has that these inks have not.</param>
/// <param name="Tested">The tested colours of the plant that comes nearest, one per sample, dry before wet.</param>
/// <param name="NotYet">Plants without enough trials, a sentence each.</param>
public sealed record WantedColourAnswer(
    WantedColour.Wish Wish,
    Volume Volume,
    string Paper,
    IReadOnlyList<WantedColourWay> Ways,
    bool Reached,
    string Why,
    IReadOnlyList<NotebookTrialsPainted> Tested,
    IReadOnlyList<Problem> NotYet
)
{
    /// <summary>What the plant that comes nearest can make at all.</summary>
    public PotReach? Reach { get; init; }

    /// <summary>The reachable colour nearest to the wanted one.</summary>
    public NearestReachable? Nearest { get; init; }

    /// <summary>True where the trials are still being learned from: ask again in a moment.</summary>
    public bool StillLearning { get; init; }
}

/// <param name="Pours">One liquor, or the two of a mixture.</param>
/// <param name="WaterMl">Water to thin it with.</param>
/// <param name="Settled">What it is expected to be after a week, where that was tested.</param>
/// <param name="Swatch">The painted swatch it starts from.</param>
public sealed record WantedColourWay(
    Proposal Proposal,
    IReadOnlyList<WantedColourPour> Pours,
    double WaterMl,
    Prediction? Settled,
    NotebookTrialsPainted? Swatch,
    IReadOnlyList<Caution> Cautions
);

/// <summary>One liquor to take, and what to stir into it.</summary>
/// <param name="Code">The sample's code, or the pot's where nobody painted it yet.</param>
/// <param name="Thing">The jar, or the pot where nobody painted it yet.</param>
/// <param name="Pot">The pot that gives the liquor.</param>
/// <param name="Ml">Millilitres of liquor.</param>
/// <param name="LeftMl">What is left in that pot; null while nobody measured it.</param>
public sealed record WantedColourPour(string Code, Thing Thing, string Pot, double Ml, double? LeftMl, IReadOnlyList<MeasuredDose> Doses)
{
    public bool TooLittle => LeftMl < Ml;
}

public sealed record WantedColourForm
{
    /// <summary>A colour in any notation.</summary>
    public string? C { get; init; }

    /// <summary>A swatch of the notebook to come near to.</summary>
    public string? Swatch { get; init; }

    /// <summary>A recipe of the notebook to come near to.</summary>
    public string? Recipe { get; init; }

    /// <summary>How much is to be made, as people say it; 100 ml when empty.</summary>
    public string? Volume { get; init; }

    /// <summary>The paper's name; empty for the one most was painted on.</summary>
    public string? Paper { get; init; }
}

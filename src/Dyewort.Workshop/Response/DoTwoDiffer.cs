using Dyewort.Colour;
using Dyewort.Notebook;
using Dyewort.Quantities;
using Dyewort.Response;
using Dyewort.Store;
using Microsoft.EntityFrameworkCore;

namespace Dyewort.Workshop.Response;

/// <summary>Whether two samples or batches of the notebook really differ, given this maker's own scatter.</summary>
public sealed class DoTwoDiffer(NotebookDb db, NotebookTrials notebook) : IUseCase
{
    private const string Dry = "dry";

    /// <summary>How a square was painted: squares that differ in this cannot be compared.</summary>
    private readonly record struct Way(string State, double Wash, double Coats);

    /// <param name="Row">Its row in the trials; null for a batch.</param>
    private sealed record Square(string Label, Way Way, Xyz Colour, TrialRow? Row);

    /// <summary>Everything that was painted and read: samples by their codes, then batches.</summary>
    public async Task<IReadOnlyList<string>> SamplesAsync(CancellationToken cancel) =>
        [
            .. (await SquaresAsync(await notebook.HandleAsync(cancel), cancel))
                .Select(one => one.Label)
                .Distinct(StringComparer.OrdinalIgnoreCase),
        ];

    /// <summary>What a batch is called in the list.</summary>
    public static string LabelOfBatch(string code) => $"batch {code}";

    /// <param name="first">A sample's code, and its paper where it was painted on several: "EB25-1 A4 on cotton paper"; or "batch " and a
    /// batch's code.</param>
    /// <param name="second">Another one.</param>
    public async Task<Outcome<DoTwoDifferAnswer>> HandleAsync(string? first, string? second, CancellationToken cancel)
    {
        var trials = await notebook.HandleAsync(cancel);
        var squares = await SquaresAsync(trials, cancel);
        var entered = new Entered();
        List<Square> Find(string field, string? text)
        {
            var named = squares.FindAll(one => string.Equals(one.Label, text?.Trim(), StringComparison.OrdinalIgnoreCase));
            if (named.Count == 0)
                entered.Refuse(field, $"“{text}” was not painted and read.", "Choose one of the list.");
            return named;
        }

        var (one, other) = (Find("one", first), Find("other", second));
        if (entered.Sound && string.Equals(first?.Trim(), second?.Trim(), StringComparison.OrdinalIgnoreCase))
            entered.Refuse("other", "Nothing differs from itself.", "Choose another one.");
        if (!entered.Sound)
            return Outcome.Refused<DoTwoDifferAnswer>(entered.Problems);

        // Both in one state and wash, else drying or thinning would be taken for a difference.
        var shared = new[] { Dry, "settled", "wet" }
            .SelectMany(state => one.Where(a => a.Way.State == state).Select(a => (Way?)a.Way))
            .FirstOrDefault(way => other.Exists(b => b.Way == way));
        if (shared is not { } alike)
            return Outcome.Refused<DoTwoDifferAnswer>(
                "other",
                "The two were never read in the same state, wash and coats.",
                "Paint them alike, and read both dry."
            );
        var (left, right) = (one.FindAll(a => a.Way == alike), other.FindAll(a => a.Way == alike));

        // The two speak for themselves once, not twice.
        var others = trials.Table.Rows.Where(row => !left.Concat(right).Any(a => ReferenceEquals(a.Row, row)));
        var found = MakerScatter
            .Learn([.. others])
            .Compare(left.ConvertAll(a => Lab.FromXyz(a.Colour)), right.ConvertAll(a => Lab.FromXyz(a.Colour)));
        return found.TryGet(out var comparison)
            ? Outcome.Of(new DoTwoDifferAnswer(left.ConvertAll(a => a.Colour), right.ConvertAll(a => a.Colour), alike.State, comparison))
            : Outcome.Refused<DoTwoDifferAnswer>(found.Problems);
    }

    private async Task<List<Square>> SquaresAsync(NotebookTrialsAnswer trials, CancellationToken cancel)
    {
        var batches = await (
            from reading in db.BatchReadings.AsNoTracking()
            join batch in db.Batches on reading.BatchId equals batch.Id
            join recipe in db.Recipes on batch.RecipeId equals recipe.Id
            join painted in db.Swatches on recipe.SwatchId equals painted.Id into swatches
            from swatch in swatches.DefaultIfEmpty()
            where reading.WithdrawnAt == null && batch.WithdrawnAt == null
            orderby batch.Number, reading.Id
            select new
            {
                batch.Code,
                reading.Colour,
                Swatch = (Swatch?)swatch,
            }
        ).ToListAsync(cancel);

        // A batch's square is painted as its recipe's was.
        return
        [
            .. trials.Painted.Select(one => new Square(
                LabelOf(one),
                new(one.Row.Point.State, one.Row.Point.Wash, one.Row.Point.Coats),
                one.Reading.Colour,
                one.Row
            )),
            .. batches.Select(one => new Square(
                LabelOfBatch(one.Code),
                new(Dry, one.Swatch?.Wash ?? 1, one.Swatch?.Coats ?? 1),
                one.Colour,
                null
            )),
        ];
    }

    private static string LabelOf(NotebookTrialsPainted one) =>
        one.Row.Point.Paper.Length > 0 ? $"{one.Row.Point.Sample} on {one.Row.Point.Paper}" : one.Row.Point.Sample;
}

/// <param name="First">Colours of the squares of the one.</param>
/// <param name="Second">Those of the other.</param>
/// <param name="State">The state both were read in.</param>
public sealed record DoTwoDifferAnswer(IReadOnlyList<Xyz> First, IReadOnlyList<Xyz> Second, string State, RepeatComparison Found);

using Dyewort.Quantities;
using Dyewort.Response;

namespace Dyewort.Workshop.Response;

/// <summary>Whether two samples of the notebook really differ, given this maker's own scatter.</summary>
public sealed class DoTwoDiffer(NotebookTrials notebook) : IUseCase
{
    /// <param name="State">The state both were read in.</param>
    public sealed record Answer(IReadOnlyList<NotebookTrials.Painted> First, IReadOnlyList<NotebookTrials.Painted> Second, string State, RepeatComparison Found);

    /// <summary>Every painted sample, by its code.</summary>
    public async Task<IReadOnlyList<string>> SamplesAsync(CancellationToken cancel) =>
        [.. (await notebook.HandleAsync(cancel)).Painted.Select(one => Label(one)).Distinct(StringComparer.OrdinalIgnoreCase)];

    /// <param name="first">A sample's code, and its paper where it was painted on several: "EB25-1 A4 on cotton paper".</param>
    /// <param name="second">Another one.</param>
    public async Task<Outcome<Answer>> HandleAsync(string? first, string? second, CancellationToken cancel)
    {
        var trials = await notebook.HandleAsync(cancel);
        var entered = new Entered();
        List<NotebookTrials.Painted> Find(string field, string? text)
        {
            var named = trials.Painted.Where(one => string.Equals(Label(one), text?.Trim(), StringComparison.OrdinalIgnoreCase)).ToList();
            if (named.Count == 0) entered.Refuse(field, $"“{text}” was not painted and read.", "Choose one of the list.");
            return named;
        }

        var (one, other) = (Find("one", first), Find("other", second));
        if (entered.Sound && string.Equals(first?.Trim(), second?.Trim(), StringComparison.OrdinalIgnoreCase)) entered.Refuse("other", "A sample does not differ from itself.", "Choose another one.");
        if (!entered.Sound) return Outcome.Refused<Answer>(entered.Problems);

        // Both in one state and wash, else drying or thinning would be taken for a difference.
        var shared = new[] { "dry", "settled", "wet" }.SelectMany(state => one.Where(a => a.Row.Point.State == state).Select(a => (state, a.Row.Point.Wash, a.Row.Point.Coats)))
            .FirstOrDefault(way => other.Exists(b => (b.Row.Point.State, b.Row.Point.Wash, b.Row.Point.Coats) == way));
        if (shared.state is null) return Outcome.Refused<Answer>("other", "The two were never read in the same state, wash and coats.", "Paint them alike, and read both dry.");
        List<NotebookTrials.Painted> Alike(List<NotebookTrials.Painted> all) => all.FindAll(a => (a.Row.Point.State, a.Row.Point.Wash, a.Row.Point.Coats) == shared);
        var (left, right) = (Alike(one), Alike(other));

        // The two speak for themselves once, not twice.
        var others = trials.Table.Rows.Where(row => !left.Exists(a => ReferenceEquals(a.Row, row)) && !right.Exists(a => ReferenceEquals(a.Row, row)));
        var found = MakerScatter.Learn([.. others]).Compare(left.ConvertAll(a => a.Row.Colour), right.ConvertAll(a => a.Row.Colour));
        return found.TryGet(out var comparison) ? Outcome.Of(new Answer(left, right, shared.state, comparison)) : Outcome.Refused<Answer>(found.Problems);
    }

    private static string Label(NotebookTrials.Painted one) => one.Row.Point.Paper.Length > 0 ? $"{one.Row.Point.Sample} on {one.Row.Point.Paper}" : one.Row.Point.Sample;
}

using Dyewort.Colour;
using Dyewort.Numerics;
using Dyewort.Quantities;

namespace Dyewort.Response;

/// <summary>What the trials of one plant teach: colour as a function of pH, additions, wash, paper and state.</summary>
/// <remarks>A Gaussian process on the densities of the ink film (<see cref="Film"/>), with saturating doses, hyperparameters averaged over
/// their posterior by a seeded walk. Deterministic: the same table gives the same numbers.</remarks>
public sealed partial class ResponseModel
{
    /// <summary>Fewer samples than this teach nothing that a person would not see by eye.</summary>
    public const int FewestSamples = 4;

    internal const int Seed = 20261;

    private readonly FilmEvidence evidence;
    private readonly List<FilmPosterior> ensemble;
    private readonly Dictionary<string, Film> films;
    private readonly TrialRow[] rows;
    private readonly TrialEncoding encoding;
    private readonly double[] strengths;
    private readonly ReadingScatter scatter;

    internal ResponseModel(
        FilmEvidence evidence,
        List<FilmPosterior> ensemble,
        Dictionary<string, Film> films,
        TrialRow[] rows,
        TrialEncoding encoding,
        PhBook ph,
        ReadingScatter scatter
    )
    {
        (this.evidence, this.ensemble, this.films, this.rows, this.encoding, Ph, this.scatter) = (
            evidence,
            ensemble,
            films,
            rows,
            encoding,
            ph,
            scatter
        );
        strengths = [.. rows.Select(row => row.Point.Wash * row.Point.Coats).Distinct().Order()];
        Plant = rows[0].Point.Plant;
    }

    /// <summary>The plant.</summary>
    public string Plant { get; }

    /// <summary>What is known of its liquor's pH.</summary>
    public PhBook Ph { get; }

    /// <summary>The rows it learned from.</summary>
    public IReadOnlyList<TrialRow> Rows => rows;

    /// <summary>The additions it knows of.</summary>
    public IReadOnlyList<string> Additions => encoding.Additions;

    /// <summary>Standard deviation of one reading along each axis of ΔE₀₀, as learned from these trials; of a reading with the usual ±
    /// where readings state one.</summary>
    public double ReadingScatterDe00 => Math.Sqrt(ensemble.Average(one => one.NoiseVariance));

    /// <summary>Learns from the rows of one plant.</summary>
    /// <param name="rows">At least <see cref="FewestSamples"/> rows with a colour; an empty pH is computed.</param>
    /// <param name="additions">The additions to consider, also those not tested yet.</param>
    /// <param name="noted">Samples whose pH counts, read or not; those of the rows where left out.</param>
    /// <returns>The model, or “not enough trials yet”.</returns>
    public static Outcome<ResponseModel> Fit(
        IReadOnlyList<TrialRow> rows,
        IReadOnlyList<string> additions,
        IReadOnlyList<TrialPoint>? noted = null
    ) => ResponseFit.Learn(rows, additions, noted);

    internal string Describe() =>
        string.Join(
            ' ',
            ensemble[^1].Theta.Select(value => Math.Exp(value).ToString("0.00", System.Globalization.CultureInfo.InvariantCulture))
        );

    /// <summary>The colour a sample is expected to have.</summary>
    public Prediction Predict(TrialPoint point) => Predict(point, []);

    /// <summary>The same where other plants say what an addition may do that was never tried on this one.</summary>
    /// <param name="point">The sample.</param>
    /// <param name="others">Rows of other plants; those of this plant are left out.</param>
    public Prediction Predict(TrialPoint point, IReadOnlyList<TrialRow> others)
    {
        ArgumentNullException.ThrowIfNull(others);
        var draws = Draw(point);
        var why = Outside(point);
        var untried = Untried.In(point, rows);
        IReadOnlyList<TrialRow> elsewhere =
        [
            .. others.Where(row => !string.Equals(row.Point.Plant, Plant, StringComparison.OrdinalIgnoreCase)),
        ];
        if (draws.PriorWeight > 0.5)
            why.Add("general belief outweighs the samples");
        return new(
            point.Sample,
            draws.Centre,
            untried.Aggregate(draws.Radius(0.95), (radius, name) => double.Hypot(radius, Untried.RadiusDe00(name, elsewhere))),
            ThreeNormals.Radius95 * Math.Sqrt(draws.NoiseVariance),
            draws.PriorWeight,
            why.Count > 0,
            why
        )
        {
            Ph = Ph.Of(point),
            Untried = untried,
        };
    }

    /// <summary>The most probable colour alone: some hundred times quicker than <see cref="Predict(TrialPoint)"/>, for searches.</summary>
    public Lab QuickColour(TrialPoint point)
    {
        ArgumentNullException.ThrowIfNull(point);
        return FilmOf(point.Paper).ColourOf(QuickDensity(point));
    }

    /// <summary>What makes a sample lie outside of what was tested, one phrase each; empty where nothing does.</summary>
    public IReadOnlyList<string> WhyOutside(TrialPoint point) => Outside(point);

    /// <summary>The paper, state, pot, wash and coats that most of the trial was painted with, without additions.</summary>
    /// <param name="paper">The paper to paint on; empty for the one that was used most.</param>
    public TrialPoint UsualSetting(string paper = "")
    {
        ArgumentNullException.ThrowIfNull(paper);
        var points = rows.Select(row => row.Point).ToArray();
        string Most(Func<TrialPoint, string> pick) =>
            points.GroupBy(pick, StringComparer.OrdinalIgnoreCase).MaxBy(group => group.Count())!.Key;
        var strongest = points
            .GroupBy(point => point.Wash)
            .OrderByDescending(group => group.Key == 1)
            .ThenByDescending(group => group.Count())
            .First()
            .Key;
        var dry = points.Where(point => !string.Equals(point.State, "wet", StringComparison.OrdinalIgnoreCase)).ToArray();
        return new()
        {
            Sample = "",
            Plant = Plant,
            Paper = paper.Length > 0 ? paper : Most(point => point.Paper),
            State =
                dry.Length == 0
                    ? Most(point => point.State)
                    : dry.GroupBy(point => point.State, StringComparer.OrdinalIgnoreCase).MaxBy(group => group.Count())!.Key,
            Pot = Most(point => point.Pot),
            Wash = strongest,
            Coats = points.GroupBy(point => point.Coats).MaxBy(group => group.Count())!.Key,
        };
    }

    /// <summary>The same beliefs without some of the rows: hyperparameters, papers and pH stay as the whole table taught them.</summary>
    internal ResponseModel Without(Predicate<TrialRow> left)
    {
        int[] kept = [.. Enumerable.Range(0, rows.Length).Where(i => !left(rows[i]))];
        if (kept.Length == rows.Length || kept.Length == 0)
            return this;
        var part = evidence.Part(kept);
        return new(
            part,
            ensemble.ConvertAll(one => new FilmPosterior(part, one.Theta)),
            films,
            [.. kept.Select(i => rows[i])],
            encoding,
            Ph,
            scatter
        );
    }

    /// <summary>The paper of that name as the trials know it, or as its name says.</summary>
    public Film FilmOf(string paper) =>
        films.TryGetValue((paper ?? "").ToLowerInvariant(), out var known) ? known : PaperFilms.Of(paper ?? "");

    internal bool IsGuessed(string paper) => FilmOf(paper).IsGuessed;

    /// <summary>The strength itself where it lies within what was tested, else the nearest tested one.</summary>
    private double Nearest(double strength) =>
        strength >= strengths[0] && strength <= strengths[^1] ? strength
        : strength < strengths[0] ? strengths[0]
        : strengths[^1];

    private List<string> Outside(TrialPoint point)
    {
        var why = new List<string>();
        var ph = Ph.Of(point).Ph;
        var tested = rows.Select(row => Ph.Of(row.Point).Ph).ToArray();
        if (ph < tested.Min() - 0.3 || ph > tested.Max() + 0.3)
            why.Add("pH outside the tested range");
        foreach (var name in point.GramsPerLitre.Names)
        {
            var highest = rows.Max(row => row.Point.Dose(name));
            if (point.Dose(name) > highest * 1.1)
                why.Add(highest == 0 ? $"{name} was never tested" : $"more {name} than was tested");
        }

        if (!encoding.Papers.Contains(point.Paper, StringComparer.OrdinalIgnoreCase))
            why.Add("paper not tested");
        if (!encoding.States.Contains(point.State, StringComparer.OrdinalIgnoreCase))
            why.Add("state not tested");
        if (point.Wash * point.Coats < strengths[0] * 0.5)
            why.Add("thinner wash than was tested");
        return why;
    }
}

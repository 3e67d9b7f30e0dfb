using Dyewort.Colour;
using Dyewort.Quantities;

namespace Dyewort.Response;

/// <summary>What the trials of one plant teach: colour as a function of pH, additions, wash, paper and state.</summary>
/// <remarks>A Gaussian process on the densities of the ink film (<see cref="Film"/>), with saturating doses, hyperparameters averaged over their
/// posterior by a seeded walk. Deterministic: the same table gives the same numbers.</remarks>
public sealed class ResponseModel
{
    /// <summary>Fewer samples than this teach nothing that a person would not see by eye.</summary>
    public const int FewestSamples = 4;

    private const int Seed = 20261;
    private const int Draws = 24;
    private readonly FilmProcess process;
    private readonly List<FilmProcess.Settled> ensemble;
    private readonly Dictionary<string, Film> films;
    private readonly TrialRow[] rows;
    private readonly string[] additions;
    private readonly string[] papers;
    private readonly string[] states;
    private readonly string[] pots;

    private ResponseModel(FilmProcess process, List<FilmProcess.Settled> ensemble, Dictionary<string, Film> films, TrialRow[] rows, string[] additions, string[] papers, string[] states, string[] pots) =>
        (this.process, this.ensemble, this.films, this.rows, this.additions, this.papers, this.states, this.pots) = (process, ensemble, films, rows, additions, papers, states, pots);

    /// <summary>The rows it learned from.</summary>
    public IReadOnlyList<TrialRow> Rows => rows;

    /// <summary>The additions it knows of.</summary>
    public IReadOnlyList<string> Additions => additions;

    /// <summary>Learns from the rows of one plant.</summary>
    /// <param name="rows">At least <see cref="FewestSamples"/> rows with a colour; either all with a pH or none.</param>
    /// <param name="additions">The additions to consider, also those not tested yet.</param>
    /// <returns>The model, or “not enough trials yet”.</returns>
    public static Outcome<ResponseModel> Fit(IReadOnlyList<TrialRow> rows, IReadOnlyList<string> additions)
    {
        var painted = rows.Where(row => row.Point.Wash > 0).ToArray();
        if (painted.Length < FewestSamples)
        {
            return Outcome.Refused<ResponseModel>("trials", $"Not enough trials yet: {painted.Length} painted {(painted.Length == 1 ? "sample" : "samples")} of this plant.",
                $"Paint and read at least {FewestSamples}.");
        }

        var usesPh = painted.All(row => row.Point.Ph is not null);
        var filmOf = PaperFilms.Of(rows);
        string[] paperNames = [.. painted.Select(row => row.Point.Paper).Distinct(StringComparer.OrdinalIgnoreCase)];
        string[] stateNames = [.. painted.Select(row => row.Point.State).Distinct(StringComparer.OrdinalIgnoreCase)];
        string[] potNames = [.. painted.Select(row => row.Point.Pot).Distinct(StringComparer.OrdinalIgnoreCase)];
        string[] known = [.. additions];
        var belief = new FilmBelief
        {
            UsesPh = usesPh,
            LogHalfDose = [.. known.Select(name => HalfDose(painted, name))],
            LogShare = [.. known.Select(name => usesPh && Agents.ActsThroughPhOnly(name) ? Math.Log(0.02) : Math.Log(1.0))],
            Agent = [.. known.Select(name => usesPh && Agents.ActsThroughPhOnly(name))],
            Papers = paperNames.Length,
            States = stateNames.Length,
            Pots = potNames.Length,
            LearnWash = painted.Select(row => row.Point.Wash * row.Point.Coats).Distinct().Count() > 1,
        };
        var inputs = new FilmInput[painted.Length];
        var density = new double[painted.Length * 3];
        var noise = new double[painted.Length * 9];
        for (var i = 0; i < painted.Length; i++)
        {
            var film = filmOf[painted[i].Point.Paper.ToLowerInvariant()];
            inputs[i] = Input(painted[i].Point, known, usesPh, paperNames, stateNames, potNames);
            var d = film.DensityOf(painted[i].Colour);
            for (var k = 0; k < 3; k++) density[(3 * i) + k] = d[k];
            Scatter.InDensity(film, d, noise.AsSpan(9 * i, 9));
        }

        var fitted = new FilmProcess(inputs, density, noise, belief);
        var (summit, _) = HyperSearch.Climb(fitted, fitted.PriorMean, 60);
        var averaged = HyperSearch.Walk(fitted, summit, 12, 20, Seed).ConvertAll(theta => new FilmProcess.Settled(fitted, theta));
        return Outcome.Of(new ResponseModel(fitted, averaged, filmOf, painted, known, paperNames, stateNames, potNames));
    }

    internal string Describe() => string.Join(' ', ensemble[^1].Theta.Select(value => Math.Exp(value).ToString("0.00", System.Globalization.CultureInfo.InvariantCulture)));

    /// <summary>The colour a sample is expected to have.</summary>
    public Prediction Predict(TrialPoint point)
    {
        var film = films.TryGetValue(point.Paper.ToLowerInvariant(), out var known) ? known : PaperFilms.Of(point.Paper);
        var input = Input(point, additions, process.Belief.UsesPh, papers, states, pots);
        var colours = new Lab[ensemble.Count * Draws];
        var random = new Normal(Seed);
        Span<double> mean = stackalloc double[3];
        Span<double> covariance = stackalloc double[9];
        var leaning = 0.0;
        var noise = 0.0;
        var at = 0;
        foreach (var one in ensemble)
        {
            one.Predict(input, mean, covariance, out var leans);
            leaning += leans / ensemble.Count;
            noise += one.NoiseVariance / ensemble.Count;
            Scatter.Factor3(covariance);
            for (var draw = 0; draw < Draws; draw++)
            {
                var (x, y, z) = (random.Next(), random.Next(), random.Next());
                colours[at++] = film.ColourOf(new(
                    mean[0] + (covariance[0] * x),
                    mean[1] + (covariance[3] * x) + (covariance[4] * y),
                    mean[2] + (covariance[6] * x) + (covariance[7] * y) + (covariance[8] * z)));
            }
        }

        var centre = new Lab(colours.Average(c => c.L), colours.Average(c => c.A), colours.Average(c => c.B));
        var distances = colours.Select(c => Difference.Ciede2000(centre, c)).Order().ToArray();
        var radius = distances[(int)Math.Ceiling(0.95 * distances.Length) - 1];
        var why = Outside(point);
        if (leaning > 0.5) why.Add("general belief outweighs the samples");
        return new(point.Sample, centre, radius, Math.Sqrt(noise * 7.815), leaning, why.Count > 0, why);
    }

    private List<string> Outside(TrialPoint point)
    {
        var why = new List<string>();
        if (process.Belief.UsesPh && point.Ph is { } ph)
        {
            var low = rows.Min(row => row.Point.Ph!.Value);
            var high = rows.Max(row => row.Point.Ph!.Value);
            if (ph < low - 0.3 || ph > high + 0.3) why.Add("pH outside the tested range");
        }

        foreach (var name in point.GramsPerLitre.Keys)
        {
            var highest = rows.Max(row => row.Point.Dose(name));
            if (point.Dose(name) > highest * 1.1) why.Add(highest == 0 ? $"{name} was never tested" : $"more {name} than was tested");
        }

        if (!papers.Contains(point.Paper, StringComparer.OrdinalIgnoreCase)) why.Add("paper not tested");
        if (!states.Contains(point.State, StringComparer.OrdinalIgnoreCase)) why.Add("state not tested");
        if (point.Wash < rows.Min(row => row.Point.Wash) * 0.5) why.Add("thinner wash than was tested");
        return why;
    }

    private static FilmInput Input(TrialPoint point, string[] additions, bool usesPh, string[] papers, string[] states, string[] pots) => new(
        usesPh ? point.Ph ?? 7 : 0,
        [.. additions.Select(name => point.Dose(name))],
        point.Wash * point.Coats,
        Place(papers, point.Paper),
        Place(states, point.State),
        Place(pots, point.Pot));

    private static int Place(string[] names, string name) => Array.FindIndex(names, known => string.Equals(known, name, StringComparison.OrdinalIgnoreCase));

    private static double HalfDose(TrialRow[] rows, string addition)
    {
        var logs = rows.Select(row => row.Point.Dose(addition)).Where(dose => dose > 0).Select(dose => Math.Log(dose)).ToArray();
        return logs.Length == 0 ? Math.Log(2) : (logs.Average() + Math.Log(2)) / 2;
    }
}

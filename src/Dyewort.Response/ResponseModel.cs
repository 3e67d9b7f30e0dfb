using Dyewort.Colour;
using Dyewort.Quantities;

namespace Dyewort.Response;

/// <summary>What the trials of one plant teach: colour as a function of pH, additions, wash, paper and state.</summary>
/// <remarks>A Gaussian process on the densities of the ink film (<see cref="Film"/>), with saturating doses, hyperparameters averaged over their
/// posterior by a seeded walk. Deterministic: the same table gives the same numbers.</remarks>
public sealed partial class ResponseModel
{
    /// <summary>Fewer samples than this teach nothing that a person would not see by eye.</summary>
    public const int FewestSamples = 4;

    private const int Seed = 20261;
    private const int Members = 24;
    private const int Draws = 12;
    private const int SearchDraws = 3;
    private const int MostStudied = 60;
    private const int FewestForSlips = 8;
    private const double PaintersShare = 0.5;
    private const int RobustRounds = 2;

    /// <summary>99.5th percentile of chi-square with three degrees of freedom.</summary>
    private const double Slip = 12.84;

    /// <summary>95th percentile of chi-square with three degrees of freedom.</summary>
    private const double ChiSquare95 = 7.815;
    private readonly FilmProcess process;
    private readonly List<FilmProcess.Settled> ensemble;
    private readonly Dictionary<string, Film> films;
    private readonly TrialRow[] rows;
    private readonly string[] additions;
    private readonly Levels levels;
    private readonly double[] strengths;
    private readonly double usualDoubt;

    private ResponseModel(
        FilmProcess process,
        List<FilmProcess.Settled> ensemble,
        Dictionary<string, Film> films,
        TrialRow[] rows,
        string[] additions,
        Levels levels,
        PhBook phBook,
        double usualDoubt
    )
    {
        (this.process, this.ensemble, this.films, this.rows, this.additions, this.levels, Ph, this.usualDoubt) = (
            process,
            ensemble,
            films,
            rows,
            additions,
            levels,
            phBook,
            usualDoubt
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
    public IReadOnlyList<string> Additions => additions;

    /// <summary>Standard deviation of one reading along each axis of ΔE₀₀, as learned from these trials; of a reading with the usual ± where readings state one.</summary>
    public double ReadingScatterDe00 => Math.Sqrt(ensemble.Average(one => one.NoiseVariance));

    /// <summary>Learns from the rows of one plant.</summary>
    /// <param name="rows">At least <see cref="FewestSamples"/> rows with a colour; an empty pH is computed.</param>
    /// <param name="additions">The additions to consider, also those not tested yet.</param>
    /// <returns>The model, or “not enough trials yet”.</returns>
    public static Outcome<ResponseModel> Fit(IReadOnlyList<TrialRow> rows, IReadOnlyList<string> additions)
    {
        var painted = rows.Where(row => row.Point.Wash > 0).ToArray();
        if (painted.Length < FewestSamples)
        {
            return Outcome.Refused<ResponseModel>(
                "trials",
                $"Not enough trials yet: {painted.Length} painted {(painted.Length == 1 ? "sample" : "samples")} of this plant.",
                $"Paint and read at least {FewestSamples}."
            );
        }

        string[] known = [.. additions];
        var book = PhBook.Of(painted[0].Point.Plant, painted.Select(row => row.Point), known);
        var filmOf = PaperFilms.Of(rows);
        var names = new Levels(
            [.. painted.Select(row => row.Point.Paper).Distinct(StringComparer.OrdinalIgnoreCase)],
            [.. painted.Select(row => row.Point.State).Distinct(StringComparer.OrdinalIgnoreCase)],
            [.. painted.Select(row => row.Point.Pot).Distinct(StringComparer.OrdinalIgnoreCase)]
        );
        var action = known.Select(Agents.Of).ToArray();
        var belief = new FilmBelief
        {
            Agent = [.. action.Select(one => one != Action.Binds)],
            LogHalfDose = [.. known.Select(name => HalfDose(painted, name))],
            LogShare =
            [
                .. action.Select(one =>
                    Math.Log(
                        one switch
                        {
                            Action.Binds => 1,
                            Action.Idle => 0.005,
                            Action.Helps => 0.3,
                            // Where no pH was measured the computed one may be off, and acids and bases keep more say of their own.
                            _ => book.Measured > 0 ? 0.02 : 0.08,
                        }
                    )
                ),
            ],
            Papers = names.Papers.Length,
            States = names.States.Length,
            Pots = names.Pots.Length,
            LearnLiquor = !book.IsFree && painted.Any(row => row.Point.Ph is null),
            LearnWash = painted.Select(row => row.Point.Wash * row.Point.Coats).Distinct().Count() > 1,
        };
        var inputs = new FilmInput[painted.Length];
        var density = new double[painted.Length * 3];
        var noise = new double[painted.Length * 9];
        var usual = UsualDoubt(painted);
        for (var i = 0; i < painted.Length; i++)
        {
            var film = filmOf[painted[i].Point.Paper.ToLowerInvariant()];
            inputs[i] = Input(painted[i].Point, book.Surface(painted[i].Point).Surface, known, names);
            var d = film.DensityOf(painted[i].Colour);
            for (var k = 0; k < 3; k++)
                density[(3 * i) + k] = d[k];
            var own = noise.AsSpan(9 * i, 9);
            Scatter.InDensity(film, d, own);
            for (var e = 0; e < 9; e++)
                own[e] *= ScatterTimes(painted[i], usual);
        }

        // Hyperparameters need no more than a sample of a large table; the prediction uses all of it.
        var fitted = new FilmProcess(inputs, density, noise, belief);
        var spaced = painted.Length <= MostStudied ? null : Spaced(painted.Length, MostStudied);
        FilmProcess Studied() => spaced is null ? fitted : fitted.Part(spaced);
        var summit = HyperSearch.Climb(Studied(), fitted.PriorMean, 60).Theta;
        for (var round = 0; round < RobustRounds && painted.Length >= FewestForSlips; round++)
        {
            // A slip of the reader or a wrong jar says little; it must not widen the scatter of all others.
            var times = Array.ConvertAll(
                new FilmProcess.Settled(fitted, summit).Surprise(noise),
                surprise => surprise > Slip ? surprise / 3 : 1
            );
            if (round == 0 && times.All(one => one == 1))
                break;
            fitted = new FilmProcess(inputs, density, noise, belief).WithScatter(times);
            summit = HyperSearch.Climb(Studied(), summit, 40).Theta;
        }

        // A step costs the cube of the samples; few samples leave the widest hills to walk over.
        var between = painted.Length switch
        {
            <= 20 => 30,
            <= 32 => 20,
            _ => 10,
        };
        var averaged = HyperSearch
            .Walk(Studied(), summit, Members, between, Seed)
            .ConvertAll(theta => new FilmProcess.Settled(fitted, theta));
        return Outcome.Of(new ResponseModel(fitted, averaged, filmOf, painted, known, names, book, usual));
    }

    internal string Describe() =>
        string.Join(
            ' ',
            ensemble[^1].Theta.Select(value => Math.Exp(value).ToString("0.00", System.Globalization.CultureInfo.InvariantCulture))
        );

    /// <summary>The colour a sample is expected to have.</summary>
    public Prediction Predict(TrialPoint point)
    {
        var draws = Draw(point);
        var why = Outside(point);
        if (draws.Leaning > 0.5)
            why.Add("general belief outweighs the samples");
        return new(
            point.Sample,
            draws.Centre,
            draws.Radius(0.95),
            Math.Sqrt(draws.NoiseVariance * ChiSquare95),
            draws.Leaning,
            why.Count > 0,
            why
        )
        {
            Ph = Ph.Of(point),
        };
    }

    /// <summary>The most probable colour alone: some hundred times quicker than <see cref="Predict"/>, for searches.</summary>
    public Lab QuickColour(TrialPoint point)
    {
        ArgumentNullException.ThrowIfNull(point);
        return FilmOf(point.Paper).ColourOf(QuickDensity(point));
    }

    /// <summary>What makes a sample lie outside of what was tested, one phrase each; empty where nothing does.</summary>
    public IReadOnlyList<string> WhyOutside(TrialPoint point) => Outside(point);

    /// <summary>Every reading foretold from the other samples.</summary>
    public LeaveOneOut LeaveOneOut()
    {
        var colours = Array.ConvertAll(rows, _ => new List<Lab>());
        var read = Array.ConvertAll(rows, _ => new List<Lab>());
        var random = new Normal(Seed);
        Span<double> own = stackalloc double[9];
        Span<double> noise = stackalloc double[9];
        var groups = Enumerable
            .Range(0, rows.Length)
            .GroupBy(i => (rows[i].Point.Pot, rows[i].Point.Sample))
            .Select(group => group.ToArray())
            .ToArray();
        if (groups.Length == 1)
            groups = [.. Enumerable.Range(0, rows.Length).Select(i => new[] { i })];
        foreach (var one in ensemble)
        {
            var inverse = one.Inverse();
            foreach (var group in groups)
            {
                var size = 3 * group.Length;
                var (mean, covariance) = (new double[size], new double[size * size]);
                one.LeaveOut(group, inverse, mean, covariance);
                for (var r = 0; r < group.Length; r++)
                {
                    for (var e = 0; e < 9; e++)
                        own[e] = covariance[(((3 * r) + (e / 3)) * size) + (3 * r) + (e % 3)];
                    Scatter.Factor3(own);
                    Widen(own, rows.Length - group.Length);
                    var film = FilmOf(rows[group[r]].Point.Paper);
                    for (var draw = 0; draw < Draws; draw++)
                    {
                        var d = Drawn(mean.AsSpan(3 * r, 3), own, random);
                        colours[group[r]].Add(film.ColourOf(d));
                        if (draw == 0)
                        {
                            Scatter.InDensity(film, d, noise);
                            for (var e = 0; e < 9; e++)
                                noise[e] *= one.NoiseVariance * ScatterTimes(rows[group[r]], usualDoubt);
                            Scatter.Factor3(noise);
                        }

                        read[group[r]].Add(film.ColourOf(Drawn(d.ToArray(), noise, random)));
                    }
                }
            }
        }

        return new([
            .. rows.Select(
                (row, i) =>
                {
                    var painted = new ColourDraws([.. colours[i]], 0, 0);
                    var off = Difference.Ciede2000(painted.Centre, row.Colour);
                    var distances = read[i].Select(colour => Difference.Ciede2000(painted.Centre, colour)).Order().ToArray();
                    var reach = distances[(int)(0.95 * distances.Length)];
                    return new LeftOut(row, painted.Centre, painted.Radius(0.95), reach, off, off <= reach);
                }
            ),
        ]);
    }

    /// <summary>Colours that several samples may have together: where one comes out redder, so do those that depend on the same unknowns.</summary>
    /// <param name="points">The samples, 1 to a few hundred.</param>
    /// <param name="draws">How many draws, each of one colour per sample; 1 to 2000. All are equally likely.</param>
    public IReadOnlyList<Lab[]> JointDraws(IReadOnlyList<TrialPoint> points, int draws)
    {
        ArgumentNullException.ThrowIfNull(points);
        ArgumentOutOfRangeException.ThrowIfLessThan(draws, 1);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(draws, 2000);
        var result = new List<Lab[]>(draws);
        if (points.Count == 0)
            return [.. Enumerable.Repeat(Array.Empty<Lab>(), draws)];
        var random = new Normal(Seed);
        var size = 3 * points.Count;
        var (mean, covariance, z) = (new double[size], new double[size * size], new double[size]);
        var thickness = points.Select(point => point.Wash * point.Coats).ToArray();
        Span<double> d = stackalloc double[3];
        var papers = points.Select(point => FilmOf(point.Paper)).ToArray();
        var phs = points.Select(point => Ph.Surface(point)).ToArray();
        for (var member = 0; member < ensemble.Count; member++)
        {
            var share = (draws * (member + 1) / ensemble.Count) - (draws * member / ensemble.Count);
            if (share == 0)
                continue;

            // What no liquor explains of a computed pH is mostly shared by neighbouring samples.
            var (shift, liquor) = (random.NextHeavy(), (random.Next(), random.Next()));
            FilmInput[] inputs =
            [
                .. points.Select(
                    (point, i) =>
                        Input(point, Supposed(ensemble[member], phs[i].Surface, liquor), additions, levels) with
                        {
                            Strength = Nearest(thickness[i]),
                            PhShift = shift * PhScatterShare * phs[i].Scatter,
                        }
                ),
            ];
            ensemble[member].Predict(inputs, mean, covariance);
            Factor(covariance, size);
            Widen(covariance, rows.Length);
            for (var draw = 0; draw < share; draw++)
            {
                for (var i = 0; i < size; i++)
                    z[i] = random.Next();
                var colours = new Lab[points.Count];
                for (var p = 0; p < points.Count; p++)
                {
                    for (var a = 0; a < 3; a++)
                    {
                        var row = (3 * p) + a;
                        d[a] =
                            mean[row]
                            + System.Numerics.Tensors.TensorPrimitives.Dot<double>(
                                covariance.AsSpan(row * size, row + 1),
                                z.AsSpan(0, row + 1)
                            );
                    }

                    var thinned = thickness[p] / Nearest(thickness[p]);
                    colours[p] = papers[p].ColourOf(new(d[0] * thinned, d[1] * thinned, d[2] * thinned));
                }

                result.Add(colours);
            }
        }

        return result;
    }

    /// <summary>Where the trials' own pH was computed, what the chemistry errs by is learned with the colours, most of it.</summary>
    private double PhScatterShare =>
        Ph.Measured == 0 ? 0.2
        : rows.All(row => row.Point.Ph is not null) ? 1
        : 0.6;

    /// <summary>The pH under one of the ensemble's liquors; where the colours did not have to say which, under any that the measured pH allow.</summary>
    private static PhSurface Supposed(FilmProcess.Settled one, PhSurface ph, (double Ph, double Acid) liquor) =>
        ph.IsConstant || one.KnowsLiquor ? ph : PhSurface.Constant(ph.At(liquor.Ph, liquor.Acid));

    private static PhSurface Supposed(FilmProcess.Settled one, PhSurface ph, Normal random) =>
        Supposed(one, ph, (random.Next(), random.Next()));

    private static void Factor(double[] covariance, int size)
    {
        for (var jitter = 1e-9; ; jitter *= 10)
        {
            var tried = (double[])covariance.Clone();
            for (var i = 0; i < size; i++)
                tried[(i * size) + i] += jitter;
            if (!Matrix.Cholesky(tried, size))
                continue;
            tried.CopyTo(covariance, 0);
            return;
        }
    }

    /// <summary>Few samples leave more open than twelve hyperparameter sets show: measured on generated plants, see docs/accuracy.md.</summary>
    private static void Widen(Span<double> factor, int samples)
    {
        for (var entry = 0; entry < factor.Length; entry++)
            factor[entry] *= 1 + (0.5 / samples);
    }

    private static FilmDensity Drawn(ReadOnlySpan<double> mean, ReadOnlySpan<double> factor, Normal random)
    {
        var (x, y, z) = (random.Next(), random.Next(), random.Next());
        return new(
            mean[0] + (factor[0] * x),
            mean[1] + (factor[3] * x) + (factor[4] * y),
            mean[2] + (factor[6] * x) + (factor[7] * y) + (factor[8] * z)
        );
    }

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

    /// <summary>ΔE₀₀ to a wanted colour to expect of a sample, from a few draws: for searches that compare many samples.</summary>
    internal double Expected(TrialPoint point, Lab wanted) => Draw(point, SearchDraws).Expected(wanted);

    /// <summary>Colours the sample may have, equally likely.</summary>
    internal ColourDraws Draw(TrialPoint point, int drawsEach = Draws)
    {
        var film = FilmOf(point.Paper);
        var strength = point.Wash * point.Coats;
        var nearest = Nearest(strength);
        var (ph, phScatter) = Ph.Surface(point);
        var densities = new FilmDensity[ensemble.Count * drawsEach];
        var random = new Normal(Seed);
        Span<double> mean = stackalloc double[3];
        Span<double> covariance = stackalloc double[9];
        var leaning = 0.0;
        var noise = 0.0;
        var at = 0;
        foreach (var one in ensemble)
        {
            // What is open about a computed pH is open in the colour too.
            var input = Input(point, Supposed(one, ph, random), additions, levels) with
            {
                Strength = nearest,
                PhShift = phScatter * PhScatterShare * random.NextHeavy(),
            };
            one.Predict(input, mean, covariance, out var leans);
            leaning += leans / ensemble.Count;
            noise += one.NoiseVariance / ensemble.Count;
            Scatter.Factor3(covariance);

            Widen(covariance, rows.Length);
            for (var draw = 0; draw < drawsEach; draw++)
                densities[at++] = Drawn(mean, covariance, random);
        }

        var draws = new ColourDraws(Array.ConvertAll(densities, film.ColourOf), leaning, noise, densities);
        return nearest == strength ? draws : WashedInk.Thin(draws, film, IsGuessed(point.Paper), strength / nearest);
    }

    /// <summary>The most probable colour without its uncertainty: quick enough for a search.</summary>
    internal FilmDensity QuickDensity(TrialPoint point)
    {
        Span<double> mean = stackalloc double[3];
        var sum = default(FilmDensity);
        var strength = point.Wash * point.Coats;
        var nearest = Nearest(strength);
        var input = Input(point, Ph.Surface(point).Surface, additions, levels) with { Strength = nearest };
        for (var member = 0; member < ensemble.Count; member += 8)
        {
            ensemble[member].Predict(input, mean, default, out _);
            sum += strength / nearest / ((ensemble.Count + 7) / 8) * new FilmDensity(mean[0], mean[1], mean[2]);
        }

        return sum;
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

        if (!levels.Papers.Contains(point.Paper, StringComparer.OrdinalIgnoreCase))
            why.Add("paper not tested");
        if (!levels.States.Contains(point.State, StringComparer.OrdinalIgnoreCase))
            why.Add("state not tested");
        if (point.Wash * point.Coats < strengths[0] * 0.5)
            why.Add("thinner wash than was tested");
        return why;
    }

    private static FilmInput Input(TrialPoint point, PhSurface ph, string[] additions, Levels levels) =>
        new(
            ph,
            [.. additions.Select(name => point.Dose(name))],
            point.Wash * point.Coats,
            Place(levels.Papers, point.Paper),
            Place(levels.States, point.State),
            Place(levels.Pots, point.Pot)
        );

    private static int Place(string[] names, string name) =>
        Array.FindIndex(names, known => string.Equals(known, name, StringComparison.OrdinalIgnoreCase));

    private static int[] Spaced(int all, int some) => [.. Enumerable.Range(0, some).Select(i => (int)((long)i * all / some))];

    private sealed record Levels(string[] Papers, string[] States, string[] Pots);

    /// <summary>Median of the ± that the readings state; 0 where none does.</summary>
    private static double UsualDoubt(TrialRow[] rows)
    {
        var stated = rows.Select(row => row.UncertaintyDe00 ?? 0).Where(doubt => doubt > 0).Order().ToArray();
        return stated.Length == 0 ? 0 : stated[stated.Length / 2];
    }

    /// <summary>Variance of a reading's scatter against that of a reading with the usual ±.</summary>
    /// <remarks>How large the usual scatter is, the trials themselves say: what the readings of one photo err by in common moves no square against another.
    /// Half of it is taken to be the painter's (estimate, no source), whom no reading with a smaller ± makes steadier.</remarks>
    private static double ScatterTimes(TrialRow row, double usual) =>
        row.UncertaintyDe00 is { } doubt && usual > 0 ? PaintersShare + ((1 - PaintersShare) * doubt * doubt / (usual * usual)) : 1;

    private static double HalfDose(TrialRow[] rows, string addition)
    {
        var logs = rows.Select(row => row.Point.Dose(addition)).Where(dose => dose > 0).Select(dose => Math.Log(dose)).ToArray();
        return logs.Length == 0 ? Math.Log(2) : (logs.Average() + Math.Log(2)) / 2;
    }
}

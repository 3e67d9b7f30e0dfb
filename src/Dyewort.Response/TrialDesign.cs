using System.Globalization;
using Dyewort.Colour;
using Dyewort.Quantities;

namespace Dyewort.Response;

/// <summary>One measured addition of a planned sample.</summary>
/// <param name="Name">What.</param>
/// <param name="Measures">How many of the smallest measures.</param>
/// <param name="Grams">Grams into the sample.</param>
/// <param name="GramsPerLitre">The same per litre of liquor.</param>
public sealed record PlannedAddition(string Name, int Measures, double Grams, double GramsPerLitre);

/// <summary>One sample to set out.</summary>
/// <param name="Number">What stands on its tag, from 1.</param>
/// <param name="Additions">What goes in; empty for the plain liquor.</param>
/// <param name="Expected">The colour to expect; null where no trial has taught it yet.</param>
/// <param name="UncertaintyDe00">95 % radius around it, ΔE₀₀.</param>
public sealed record PlannedSample(int Number, IReadOnlyList<PlannedAddition> Additions, Lab? Expected, double? UncertaintyDe00);

/// <summary>A trial that was planned.</summary>
/// <param name="Samples">In the order of their tags: plain first, then by addition and dose.</param>
/// <param name="SampleMillilitres">Volume of each, ml.</param>
/// <param name="DoubtBefore">Root mean square doubt over everything the pot can make before the trial, ΔE₀₀; null without a model.</param>
/// <param name="DoubtAfter">The same after it, if the readings scatter as before.</param>
/// <param name="Notes">What was left out or cut short, and why, one sentence each.</param>
public sealed record TrialDesign(
    IReadOnlyList<PlannedSample> Samples,
    double SampleMillilitres,
    double? DoubtBefore,
    double? DoubtAfter,
    IReadOnlyList<string> Notes
);

/// <summary>Plans which samples to set out.</summary>
public static class TrialDesigner
{
    private const int MostAdditions = 6;
    private const int Levels = 6;
    private const int MostCandidates = 160;
    private const int ReachPoints = 50;

    /// <summary>A few samples that stand for a whole grid of doses: as different from each other as they can be, in expected colour where
    /// trials have taught it, else in the logarithms of the doses. A maximin design [JohnsonMooreYlvisaker1990].</summary>
    /// <param name="model">What the trials taught; null before there are enough.</param>
    /// <param name="additions">One to six additions.</param>
    /// <param name="limits">What the bench allows.</param>
    /// <param name="count">Samples wanted, 2 to 60, the plain liquor among them.</param>
    public static Outcome<TrialDesign> Spread(ResponseModel? model, IReadOnlyList<string> additions, BenchLimits limits, int count)
    {
        var notes = new List<string>();
        var prepared = Prepare(model, additions, limits, count, notes);
        if (!prepared.TryGet(out var plan))
            return Outcome.Refused<TrialDesign>(prepared.Problems);
        var candidates = plan.Candidates;
        var known = model is not null && plan.Names.All(name => model.Rows.Any(row => row.Point.Dose(name) > 0));
        if (model is not null && !known)
            notes.Add("Not every addition was tested on this plant yet, so the samples are spread by dose, not by expected colour.");
        var places = candidates.ConvertAll(candidate => candidate.Steps);
        var colours = known ? candidates.ConvertAll(candidate => model!.QuickColour(PointOf(model!, candidate, limits))) : [];
        double Apart(int i, int j)
        {
            var dose = Math.Sqrt(places[i].Zip(places[j], (a, b) => (a - b) * (a - b)).Sum());

            // Two doses that are foretold alike are still worth telling apart: the forecast may be wrong there.
            return known ? Difference.Ciede2000(colours[i], colours[j]) + dose : dose;
        }

        var chosen = Farthest(candidates.Count, plan.Count, Apart);
        return Outcome.Of(Finish(model, [.. chosen.Select(i => candidates[i])], limits, null, null, notes));
    }

    /// <summary>The samples that would teach most next: each lessens what is open about all colours of the pot, or about those near a
    /// wanted one.</summary>
    /// <param name="model">What the trials taught.</param>
    /// <param name="additions">The additions to use; empty for all that were tested.</param>
    /// <param name="limits">What the bench allows.</param>
    /// <param name="count">Samples wanted, 1 to 60.</param>
    /// <param name="wanted">A colour to come near to; null to learn about the whole pot.</param>
    /// <remarks>Greedy: after each choice the covariance is conditioned on it, readings scattering as the trials showed. Doubt is the
    /// variance of the film's densities weighted by what they do to the colour. Source: [Cohn1996], the expected variance over where it is
    /// wanted.</remarks>
    public static Outcome<TrialDesign> Next(
        ResponseModel model,
        IReadOnlyList<string> additions,
        BenchLimits limits,
        int count,
        Lab? wanted = null
    )
    {
        ArgumentNullException.ThrowIfNull(model);
        ArgumentNullException.ThrowIfNull(additions);
        var notes = new List<string>();
        IReadOnlyList<string> names = additions.Count > 0 ? additions : [.. Compositions.Ranges(model).Select(range => range.Name)];
        var prepared = Prepare(model, names, limits, count, notes);
        if (!prepared.TryGet(out var plan))
            return Outcome.Refused<TrialDesign>(prepared.Problems);
        var setting = model.UsualSetting() with { Wash = 1, Coats = 1 };
        var tested = model.Rows.Select(row => row.Point).ToArray();
        var candidates = plan.Candidates.FindAll(candidate =>
            !Array.Exists(tested, point => Alike(point, PointOf(model, candidate, limits)))
        );
        if (candidates.Count == 0)
            return Outcome.Refused<TrialDesign>(
                "additions",
                "Every sample that can be measured out was tested already.",
                "Take a finer measure, larger samples or another addition."
            );

        // What is to be learned about: what was tested and what lies between, and just as much what could be set out now.
        var points = candidates.ConvertAll(candidate => PointOf(model, candidate, limits));
        TrialPoint[] reach = [.. Some(Compositions.Grid(model, setting, 7, 4), ReachPoints / 2), .. Some(points, ReachPoints / 2)];
        TrialPoint[] all = [.. reach, .. points];
        var (open, noise) = model.OpenTogether(all);
        var weights = new double[reach.Length][];
        var film = model.FilmOf(setting.Paper);
        var worth = new double[reach.Length];
        var scatter = new double[all.Length][];
        for (var p = 0; p < all.Length; p++)
        {
            var density = model.QuickDensity(all[p]);
            scatter[p] = new double[9];
            Scatter.InDensity(film, density, scatter[p]);
            if (p >= reach.Length)
                continue;
            weights[p] = Inverse(scatter[p]);
            worth[p] = wanted is { } goal ? Math.Exp(-0.5 * Math.Pow(Difference.Ciede2000(goal, film.ColourOf(density)) / 5, 2)) : 1;
        }

        // A goal far from everything still has a nearest colour worth knowing.
        var most = worth.Max();
        for (var p = 0; p < worth.Length; p++)
            worth[p] = most > 1e-12 ? worth[p] / most : 1;
        double Doubt() =>
            Math.Sqrt(Enumerable.Range(0, reach.Length).Sum(r => worth[r] * Weighted(open, all.Length, r, weights[r])) / worth.Sum());
        var before = Doubt();
        var chosen = new List<int>();
        while (chosen.Count < Math.Min(plan.Count, candidates.Count))
        {
            var (best, gain) = (-1, double.NegativeInfinity);
            for (var c = 0; c < candidates.Count; c++)
            {
                if (chosen.Contains(c))
                    continue;
                var less = Gain(open, all.Length, reach.Length + c, scatter[reach.Length + c], noise, reach.Length, weights, worth);
                if (less > gain)
                    (best, gain) = (c, less);
            }

            chosen.Add(best);
            Condition(open, all.Length, reach.Length + best, scatter[reach.Length + best], noise);
        }

        return Outcome.Of(Finish(model, [.. chosen.Select(c => candidates[c])], limits, before, Doubt(), notes));
    }

    private static IEnumerable<TrialPoint> Some(IReadOnlyList<TrialPoint> all, int count) =>
        all.Count <= count ? all : Enumerable.Range(0, count).Select(i => all[(int)((long)i * all.Count / count)]);

    private sealed record Candidate(IReadOnlyList<(string Name, int Measures)> Doses, double[] Steps);

    private sealed record Plan(List<Candidate> Candidates, IReadOnlyList<string> Names, int Count);

    private static Outcome<Plan> Prepare(
        ResponseModel? model,
        IReadOnlyList<string> additions,
        BenchLimits limits,
        int count,
        List<string> notes
    )
    {
        ArgumentNullException.ThrowIfNull(limits);
        ArgumentNullException.ThrowIfNull(additions);
        var problems = new List<Problem>();
        if (!(limits.SampleMillilitres is > 0 and <= 10_000))
            problems.Add(new("sample", "The sample's volume is missing.", "Give more than 0 and at most 10 000 ml."));
        if (additions.Count is 0 or > MostAdditions)
            problems.Add(new("additions", $"{additions.Count} additions cannot be planned together.", $"Name one to {MostAdditions}."));
        if (additions.Distinct(StringComparer.OrdinalIgnoreCase).Count() < additions.Count)
            problems.Add(new("additions", "An addition is named twice.", "Name each once."));
        if (count is < 1 or > 60)
            problems.Add(new("count", $"A trial of {count} samples cannot be planned.", "Ask for 1 to 60."));
        if (limits.Jars < 1)
            problems.Add(new("jars", "There is no jar.", "Give at least one."));
        if (problems.Count > 0)
            return Outcome.Refused<Plan>(problems);

        var fits = limits.LiquorMillilitres is { } liquor ? (int)Math.Floor((liquor / limits.SampleMillilitres) + 1e-9) : int.MaxValue;
        if (fits < 1)
            return Outcome.Refused<Plan>(
                "liquor",
                string.Create(
                    CultureInfo.InvariantCulture,
                    $"{limits.LiquorMillilitres:0.#} ml of liquor do not fill one sample of {limits.SampleMillilitres:0.#} ml."
                ),
                "Take smaller samples."
            );
        if (fits < count)
            notes.Add(
                string.Create(CultureInfo.InvariantCulture, $"The liquor left fills {fits} samples of {limits.SampleMillilitres:0.#} ml.")
            );
        if (limits.Jars < count)
            notes.Add($"There are {limits.Jars} jars at hand.");

        var ladders = new List<(string Name, int[] Measures)>();
        foreach (var name in additions)
        {
            var smallest = limits.Smallest(name);
            if (!(smallest > 0 && double.IsFinite(smallest)))
                return Outcome.Refused<Plan>(
                    "spoon",
                    $"The smallest measure of {name} has no weight.",
                    "Weigh ten level spoons of it and give a tenth of that."
                );
            var usual = UsualDoses.Of(name);
            var doses = model?.Rows.Select(row => row.Point.Dose(name)).Where(dose => dose > 0).ToArray() ?? [];
            var (low, high) = doses.Length > 0 ? (Math.Min(doses.Min(), usual.Low), Math.Max(doses.Max(), usual.High)) : usual;
            if (high > limits.Most(name))
            {
                high = limits.Most(name);
                notes.Add(string.Create(CultureInfo.InvariantCulture, $"{name} stays at or below {high:0.##} g/L."));
            }

            var perMeasure = 1000 * smallest / limits.SampleMillilitres;
            if (perMeasure > high * 1.0001)
            {
                notes.Add(
                    string.Create(
                        CultureInfo.InvariantCulture,
                        $"{name} was left out: one smallest measure ({smallest:0.###} g) is {perMeasure:0.#} g/L in "
                            + $"{limits.SampleMillilitres:0.#} ml, above {high:0.##} g/L. Dissolve it in water first and "
                            + $"measure that, or take larger samples."
                    )
                );
                continue;
            }

            var measures = Compositions
                .Ladder(Math.Max(low, perMeasure), high, Levels)
                .Select(dose => Math.Max(1, (int)Math.Floor((dose / perMeasure) + 0.5)))
                .Where(one => one * perMeasure <= high * 1.0001)
                .Distinct()
                .Order()
                .ToArray();
            if (measures.Length > 0)
                ladders.Add((name, measures));
        }

        if (ladders.Count == 0)
            return Outcome.Refused<Plan>(
                "additions",
                "No addition can be measured finely enough for samples of this size.",
                "Take larger samples, a finer scale, or dissolve the powder in water first."
            );
        var together =
            ladders.Count <= 3 && model is null
                ? ladders.Count
                : Math.Min(ladders.Count, Math.Max(2, model?.Rows.Max(row => row.Point.GramsPerLitre.Count) ?? 2));
        var candidates = new List<Candidate> { new([], new double[ladders.Count]) };
        void Extend(int from, List<(int Ladder, int Step)> chosen)
        {
            for (var l = from; l < ladders.Count; l++)
            {
                for (var s = 0; s < ladders[l].Measures.Length; s++)
                {
                    chosen.Add((l, s));
                    var steps = new double[ladders.Count];
                    foreach (var (ladder, step) in chosen)
                        steps[ladder] = (step + 1.0) / ladders[ladder].Measures.Length;
                    candidates.Add(
                        new([.. chosen.Select(one => (ladders[one.Ladder].Name, ladders[one.Ladder].Measures[one.Step]))], steps)
                    );
                    if (chosen.Count < together)
                        Extend(l + 1, chosen);
                    chosen.RemoveAt(chosen.Count - 1);
                }
            }
        }

        Extend(0, []);
        if (candidates.Count > MostCandidates)
            candidates =
            [
                candidates[0],
                .. Enumerable
                    .Range(0, MostCandidates)
                    .Select(i => candidates[1 + (int)((long)i * (candidates.Count - 1) / MostCandidates)]),
            ];
        return Outcome.Of(
            new Plan(
                candidates,
                [.. ladders.Select(one => one.Name)],
                Math.Min(count, Math.Min(limits.Jars, Math.Min(fits, candidates.Count)))
            )
        );
    }

    private static TrialPoint PointOf(ResponseModel model, Candidate candidate, BenchLimits limits)
    {
        return model.UsualSetting() with
        {
            Wash = 1,
            Coats = 1,
            GramsPerLitre =
            [
                .. candidate.Doses.Select(dose => new Dose(
                    dose.Name,
                    1000 * dose.Measures * limits.Smallest(dose.Name) / limits.SampleMillilitres
                )),
            ],
        };
    }

    private static bool Alike(TrialPoint one, TrialPoint two) =>
        one.GramsPerLitre.Count == two.GramsPerLitre.Count
        && one.GramsPerLitre.All(own => two.Dose(own.Name) is var dose && dose > 0 && Math.Abs(Math.Log(dose / own.Amount)) < 0.1);

    private static TrialDesign Finish(
        ResponseModel? model,
        IReadOnlyList<Candidate> chosen,
        BenchLimits limits,
        double? before,
        double? after,
        List<string> notes
    )
    {
        var samples = chosen
            .OrderBy(one => one.Doses.Count)
            .ThenBy(one => string.Join(' ', one.Doses.Select(dose => dose.Name)), StringComparer.OrdinalIgnoreCase)
            .ThenBy(one => one.Doses.Sum(dose => dose.Measures))
            .Select(
                (candidate, i) =>
                {
                    var prediction = model?.Predict(PointOf(model, candidate, limits));
                    return new PlannedSample(
                        i + 1,
                        [
                            .. candidate.Doses.Select(dose => new PlannedAddition(
                                dose.Name,
                                dose.Measures,
                                dose.Measures * limits.Smallest(dose.Name),
                                1000 * dose.Measures * limits.Smallest(dose.Name) / limits.SampleMillilitres
                            )),
                        ],
                        prediction?.Colour,
                        prediction?.UncertaintyDe00
                    );
                }
            );
        return new([.. samples], limits.SampleMillilitres, before, after, notes);
    }

    /// <summary>Farthest first [Gonzalez1985] from the plain liquor, then single exchanges as long as the smallest distance
    /// grows.</summary>
    private static List<int> Farthest(int all, int count, Func<int, int, double> apart)
    {
        List<int> chosen = [0];
        var nearest = new double[all];
        for (var i = 0; i < all; i++)
            nearest[i] = apart(0, i);
        while (chosen.Count < count)
        {
            var next = Array.IndexOf(nearest, nearest.Max());
            chosen.Add(next);
            for (var i = 0; i < all; i++)
                nearest[i] = Math.Min(nearest[i], apart(next, i));
        }

        double Smallest()
        {
            var least = double.PositiveInfinity;
            for (var i = 0; i < chosen.Count; i++)
            {
                for (var j = 0; j < i; j++)
                    least = Math.Min(least, apart(chosen[i], chosen[j]));
            }

            return least;
        }

        // The plain liquor stays: everything else is compared with it.
        for (var improved = count > 2; improved; )
        {
            improved = false;
            for (var place = 1; place < chosen.Count; place++)
            {
                var (kept, least) = (chosen[place], Smallest());
                for (var other = 0; other < all; other++)
                {
                    if (chosen.Contains(other))
                        continue;
                    chosen[place] = other;
                    if (Smallest() is var reached && reached > least + 1e-9)
                        (kept, least, improved) = (other, reached, true);
                }

                chosen[place] = kept;
            }
        }

        return chosen;
    }

    private static double[] Inverse(double[] three)
    {
        var inverse = new double[9];
        NormalTriple.Invert(three, inverse);
        return inverse;
    }

    private static double Weighted(double[] covariance, int points, int at, double[] weight)
    {
        var (wide, sum) = (3 * points, 0.0);
        for (var a = 0; a < 3; a++)
        {
            for (var b = 0; b < 3; b++)
                sum += weight[(3 * a) + b] * covariance[(((3 * at) + a) * wide) + (3 * at) + b];
        }

        return sum;
    }

    /// <summary>How much of the weighted variance over the reach a reading of one candidate would take away.</summary>
    private static double Gain(
        double[] covariance,
        int points,
        int at,
        double[] scatter,
        double noise,
        int reach,
        double[][] weights,
        double[] worth
    )
    {
        var wide = 3 * points;
        var inverse = Inverse(Own(covariance, wide, at, scatter, noise));
        var gain = 0.0;
        Span<double> cross = stackalloc double[9];
        for (var r = 0; r < reach; r++)
        {
            for (var a = 0; a < 3; a++)
            {
                for (var b = 0; b < 3; b++)
                    cross[(3 * a) + b] = covariance[(((3 * r) + a) * wide) + (3 * at) + b];
            }

            var sum = 0.0;
            for (var a = 0; a < 3; a++)
            {
                for (var b = 0; b < 3; b++)
                {
                    var inner = 0.0;
                    for (var c = 0; c < 3; c++)
                    {
                        for (var d = 0; d < 3; d++)
                            inner += cross[(3 * a) + c] * inverse[(3 * c) + d] * cross[(3 * b) + d];
                    }

                    sum += weights[r][(3 * a) + b] * inner;
                }
            }

            gain += worth[r] * sum;
        }

        return gain;
    }

    private static double[] Own(double[] covariance, int wide, int at, double[] scatter, double noise)
    {
        var own = new double[9];
        for (var a = 0; a < 3; a++)
        {
            for (var b = 0; b < 3; b++)
                own[(3 * a) + b] =
                    covariance[(((3 * at) + a) * wide) + (3 * at) + b] + (noise * scatter[(3 * a) + b]) + (a == b ? 1e-9 : 0);
        }

        return own;
    }

    /// <summary>What is left open once a candidate has been read.</summary>
    private static void Condition(double[] covariance, int points, int at, double[] scatter, double noise)
    {
        var wide = 3 * points;
        var inverse = Inverse(Own(covariance, wide, at, scatter, noise));
        var columns = new double[wide * 3];
        for (var i = 0; i < wide; i++)
        {
            for (var b = 0; b < 3; b++)
                columns[(3 * i) + b] = covariance[(i * wide) + (3 * at) + b];
        }

        Span<double> solved = stackalloc double[3];
        for (var i = 0; i < wide; i++)
        {
            for (var b = 0; b < 3; b++)
                solved[b] =
                    (columns[3 * i] * inverse[b]) + (columns[(3 * i) + 1] * inverse[3 + b]) + (columns[(3 * i) + 2] * inverse[6 + b]);
            for (var j = 0; j < wide; j++)
                covariance[(i * wide) + j] -=
                    (solved[0] * columns[3 * j]) + (solved[1] * columns[(3 * j) + 1]) + (solved[2] * columns[(3 * j) + 2]);
        }
    }
}

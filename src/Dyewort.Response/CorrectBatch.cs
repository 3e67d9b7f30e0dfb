using System.Globalization;
using Dyewort.Colour;
using Dyewort.Numerics;
using Dyewort.Quantities;

namespace Dyewort.Response;

/// <summary>How a batch may be brought nearer to its recipe's colour.</summary>
public enum CorrectionKind
{
    /// <summary>Leave it.</summary>
    Leave = 0,

    /// <summary>Stir something in.</summary>
    Add,

    /// <summary>Thin it with water.</summary>
    Water,

    /// <summary>Pour another ink to it.</summary>
    Blend,
}

/// <summary>Another ink at hand.</summary>
/// <param name="Name">Its code or name.</param>
/// <param name="Colour">Its colour on the batch's paper, undiluted.</param>
/// <param name="Point">What it is made of, where it is of the same plant; null where only its colour is known.</param>
public sealed record BlendInk(string Name, Lab Colour, TrialPoint? Point = null);

/// <summary>A batch that came out wrong.</summary>
public sealed record WrongBatch
{
    /// <summary>What is believed to be in it.</summary>
    public required TrialPoint Believed { get; init; }

    /// <summary>The colour that was read, CIELAB D65.</summary>
    public required Lab Measured { get; init; }

    /// <summary>95 % radius of that reading, ΔE₀₀, above 0; null where it scatters as the readings of the trials do.</summary>
    public double? MeasuredUncertaintyDe00 { get; init; }

    /// <summary>The recipe's colour.</summary>
    public required Lab Wanted { get; init; }

    /// <summary>Its volume, ml, above 0.</summary>
    public required double Millilitres { get; init; }

    /// <summary>The most of each addition that is safe or sensible, g/L in all; missing where only the tested range limits it.</summary>
    public Doses MostGramsPerLitre { get; init; } = Doses.None;

    /// <summary>Grams of the smallest measure of each addition; 0.1 g where it is missing. No amount is advised that cannot be measured
    /// with it.</summary>
    public Doses SmallestGrams { get; init; } = Doses.None;

    /// <summary>Inks at hand to blend it with.</summary>
    public IReadOnlyList<BlendInk> Inks { get; init; } = [];
}

/// <summary>One way to correct a batch.</summary>
public sealed record RankedCorrection
{
    /// <summary>How.</summary>
    public required CorrectionKind Kind { get; init; }

    /// <summary>What to stir in, grams for the whole batch.</summary>
    public Doses AddGrams { get; init; } = Doses.None;

    /// <summary>Water to pour to it, ml.</summary>
    public double WaterMillilitres { get; init; }

    /// <summary>The ink to pour to it; empty where none.</summary>
    public string Ink { get; init; } = "";

    /// <summary>How much of that ink, ml.</summary>
    public double InkMillilitres { get; init; }

    /// <summary>The colour to expect then.</summary>
    public required Lab Colour { get; init; }

    /// <summary>95 % radius around it, ΔE₀₀.</summary>
    public required double UncertaintyDe00 { get; init; }

    /// <summary>Distance from the recipe's colour to expect, averaged over what is open, ΔE₀₀.</summary>
    public required double ExpectedDe00 { get; init; }

    /// <summary>Chance that nobody sees a difference from the recipe.</summary>
    public required double ChanceWithinJustVisible { get; init; }

    /// <summary>What to do, one sentence.</summary>
    public required string Words { get; init; }
}

/// <summary>What was found for a wrong batch.</summary>
/// <param name="Ranked">Best first; leaving it is always among them.</param>
/// <param name="Advice">One or two sentences.</param>
public sealed record CorrectionAnswer(IReadOnlyList<RankedCorrection> Ranked, string Advice);

/// <summary>Corrects batches: nothing can be taken out of a jar, so doses only grow, water only thins, and blending shares.</summary>
/// <remarks>The batch's colour is what its reading and its forecast say together. What sets it apart from the forecast (a weaker liquor, an
/// unknown slip) is carried along as film density: it stays in the jar whatever is stirred in, and thins with it.</remarks>
public static class BatchCorrection
{
    private const double WorthWhile = 0.3;

    private const double CarriedDoubt = 0.5;

    /// <summary>How far a batch lies from the forecast of its composition before it is read: a tenth of its strength, and 0.03 of density
    /// in any band (estimates, no source); more where the reading says more.</summary>
    private const double StrengthApart = 0.1;
    private const double BandApart = 0.03;
    private const int LeastStates = 40;

    /// <summary>A scatter learned from few rows may be larger by this over their number (found on generated plants,
    /// docs/accuracy.md).</summary>
    private const double ScatterDoubt = 2;
    private const int Rungs = 9;
    private static readonly double[] Waters = [1, 0.92, 0.85, 0.75, 0.65, 0.55, 0.45, 0.35];

    /// <summary>Ways to bring a batch nearer to its recipe.</summary>
    /// <param name="model">What the trials of the plant taught.</param>
    /// <param name="batch">The batch.</param>
    public static Outcome<CorrectionAnswer> Find(ResponseModel model, WrongBatch batch)
    {
        ArgumentNullException.ThrowIfNull(model);
        ArgumentNullException.ThrowIfNull(batch);
        var problems = new List<Problem>();
        if (!(batch.Millilitres is > 0 and <= 1e6))
            problems.Add(new("volume", "The batch's volume is missing.", "Give more than 0 ml."));
        if (batch.MeasuredUncertaintyDe00 is not (null or > 0 and <= 50))
            problems.Add(new("measured", "The reading's ± is not above 0.", "Give its 95 % radius in ΔE00, such as 2."));
        if (problems.Count > 0)
            return Outcome.Refused<CorrectionAnswer>(problems);
        batch = batch with
        {
            MeasuredUncertaintyDe00 =
                batch.MeasuredUncertaintyDe00
                ?? Math.Clamp(ThreeNormals.Radius95 * model.ReadingScatterDe00 * (1 + (ScatterDoubt / model.Rows.Count)), 0.1, 50),
        };
        var usual = model.UsualSetting(batch.Believed.Paper);
        var now = batch.Believed with
        {
            Paper = usual.Paper,
            State = batch.Believed.State.Length > 0 ? batch.Believed.State : usual.State,
            Pot = batch.Believed.Pot.Length > 0 ? batch.Believed.Pot : usual.Pot,
        };
        var film = model.FilmOf(now.Paper);
        var bench = new BenchLimits
        {
            SampleMillilitres = batch.Millilitres,
            SmallestGrams = batch.SmallestGrams,
            MostGramsPerLitre = batch.MostGramsPerLitre,
        };
        var state = States.Of(model, batch, film, [now], oneJar: true);
        var quick = model.QuickDensity(now);
        var mean = state.Mean(0);
        var apart = mean - quick;
        Lab Guess(TrialPoint point, double share) => film.ColourOf(share * (model.QuickDensity(point) + apart));

        var plans = new List<(TrialPoint Point, double Share, double Off)>();
        var ladders = Compositions
            .Ranges(model)
            .Select(range =>
            {
                var room = Math.Min(range.High, bench.Most(range.Name)) - now.Dose(range.Name);
                return (
                    range.Name,
                    Room: room,
                    Steps: room > 0 ? (double[])[.. Compositions.Ladder(Math.Min(range.Low / 4, room), room, Rungs)] : []
                );
            })
            .Where(one => one.Steps.Length > 0)
            .ToArray();
        var points = new List<TrialPoint> { now };
        foreach (var (name, _, steps) in ladders)
        {
            var singles = steps.Select(step => Compositions.WithDose(model, now, name, now.Dose(name) + step)).ToArray();
            points.AddRange(singles);
            foreach (var (other, _, otherSteps) in ladders)
            {
                if (string.CompareOrdinal(name, other) >= 0)
                    continue;
                points.AddRange(
                    singles
                        .Where((_, i) => i % 2 == 0)
                        .SelectMany(single =>
                            otherSteps
                                .Where((_, i) => i % 2 == 0)
                                .Select(step => Compositions.WithDose(model, single, other, now.Dose(other) + step))
                        )
                );
            }
        }

        foreach (var point in points)
        {
            foreach (var share in Waters)
                plans.Add((point, share, Difference.Ciede2000(batch.Wanted, Guess(point, share))));
        }

        // The best of each set of additions, with and without water, brought down to its optimum.
        var best = plans
            .GroupBy(plan => (string.Join('|', Added(now, plan.Point).Names.Order(StringComparer.OrdinalIgnoreCase)), plan.Share < 1))
            .Select(group => group.MinBy(plan => plan.Off))
            .OrderBy(plan => plan.Off)
            .Take(8)
            .Select(plan =>
                Descend(
                    model,
                    now,
                    plan.Point,
                    plan.Share,
                    [.. ladders.Select(one => new Dose(one.Name, now.Dose(one.Name) + one.Room))],
                    (point, share) => Difference.Ciede2000(batch.Wanted, Guess(point, share))
                )
            )
            .ToList();
        var leave = Judge(batch, CorrectionKind.Leave, Array.ConvertAll(state.Read(0), film.ColourOf), []);
        var ranked = new List<RankedCorrection> { leave };
        foreach (var (point, share) in best)
        {
            var added = Added(now, point);
            if (added.Count == 0 && share > 0.97)
                continue;
            Doses grams = [.. added.Select(one => one with { Amount = Measurable(bench, now, one.Name, one.Amount) })];
            var rounded = now;
            foreach (var (name, gram) in grams)
                rounded = Compositions.WithDose(model, rounded, name, now.Dose(name) + (1000 * gram / batch.Millilitres));
            var water = share > 0.97 ? 0 : Poured(batch.Millilitres * ((1 / share) - 1));
            if (grams.Count == 0 && water == 0)
                continue;
            var kept = batch.Millilitres / (batch.Millilitres + water);
            ranked.Add(
                Judge(
                    batch,
                    grams.Count > 0 ? CorrectionKind.Add : CorrectionKind.Water,
                    After(model, batch, film, now, rounded, kept),
                    grams
                ) with
                {
                    WaterMillilitres = water,
                }
            );
        }

        foreach (var ink in batch.Inks)
            ranked.AddRange(Blends(model, batch, film, state, now, ink));
        var worthwhile = new List<RankedCorrection>();
        foreach (var one in ranked.OrderBy(one => one.ExpectedDe00 + Penalty(one)))
        {
            if (!worthwhile.Exists(better => DoesNoMore(better, one)))
                worthwhile.Add(one with { Words = Say(one, bench) });
        }

        ranked = [.. worthwhile.Take(8)];
        if (!ranked.Exists(one => one.Kind == CorrectionKind.Leave))
            ranked[^1] = leave with { Words = Say(leave, bench) };
        return Outcome.Of(new CorrectionAnswer(ranked, Advise(ranked, leave, batch)));
    }

    private static Doses Added(TrialPoint before, TrialPoint after) =>
        [
            .. after
                .GramsPerLitre.Select(dose => dose with { Amount = dose.Amount - before.Dose(dose.Name) })
                .Where(dose => dose.Amount > 1e-9),
        ];

    /// <summary>Steps in one dose after the other and in the water, halved when none helps [HookeJeeves1961].</summary>
    private static (TrialPoint Point, double Share) Descend(
        ResponseModel model,
        TrialPoint now,
        TrialPoint start,
        double startShare,
        Doses most,
        Func<TrialPoint, double, double> off
    )
    {
        var (point, share) = (start, startShare);
        var least = off(point, share);
        for (var step = 0.25; step > 0.02; step /= 2)
        {
            for (var improved = true; improved; )
            {
                improved = false;
                foreach (var factor in new[] { 1 + step, 1 / (1 + step) })
                {
                    foreach (var (name, extra) in Added(now, point))
                    {
                        var dose = Math.Min(now.Dose(name) + (extra * factor), most[name]);
                        var moved = Compositions.WithDose(model, point, name, dose);
                        if (off(moved, share) is var reached && reached < least - 1e-3)
                            (point, least, improved) = (moved, reached, true);
                    }

                    if (startShare == 1)
                        continue;
                    var thinner = Math.Clamp(share * factor, 0.2, 1);
                    if (off(point, thinner) is var thinned && thinned < least - 1e-3)
                        (share, least, improved) = (thinner, thinned, true);
                }
            }
        }

        return (point, share);
    }

    /// <summary>Grams of an addition that can be measured, within what the batch may still take; 0 where none.</summary>
    private static double Measurable(BenchLimits bench, TrialPoint now, string name, double gramsPerLitre)
    {
        var litres = bench.SampleMillilitres / 1000;
        var room = (bench.Most(name) - now.Dose(name)) * litres;
        var grams = bench.Measurable(name, gramsPerLitre * litres);
        return grams <= room ? grams : bench.Measurable(name, Math.Max(0, (2 * room) - grams));
    }

    private static Lab[] After(ResponseModel model, WrongBatch batch, Film film, TrialPoint now, TrialPoint then, double share)
    {
        // A measured pH holds for the batch as it is; how far the addition moves it is reckoned.
        double[]? doubt = now.Ph is { } before && then.Ph is { } after ? [0, BenchAdvice.PhStepDoubt * Math.Abs(after - before)] : null;
        var states = States.Of(model, batch, film, [now, then], oneJar: true, doubt);
        var random = new NormalDraws(11);

        // What sets the batch apart may grow or shrink with what is stirred in.
        var densities = states.Read(1, () => now == then ? 1 : 1 + (CarriedDoubt * random.Next()));
        var draws = new ColourDraws(Array.ConvertAll(densities, film.ColourOf), 0, 0, densities);
        return (share < 1 ? WashedInk.Thin(draws, film, film.IsGuessed, share) : draws).Colours;
    }

    private static IEnumerable<RankedCorrection> Blends(
        ResponseModel model,
        WrongBatch batch,
        Film film,
        States state,
        TrialPoint now,
        BlendInk ink
    )
    {
        var other = film.DensityOf(ink.Colour);
        var mean = state.Mean(0);
        var shares = Enumerable.Range(1, 30).Select(i => i * 0.02).ToArray();
        Lab Plain(double share) => film.ColourOf(((1 - share) * mean) + (share * other));
        var first = shares.MinBy(share => Difference.Ciede2000(batch.Wanted, Plain(share)));
        foreach (var share in new[] { first / 2, first })
        {
            // Either each keeps its dye as it was, or the additions settle to what they make together; both are counted.
            var apart = Array.ConvertAll(state.Read(0), read => film.ColourOf(((1 - share) * read) + (share * other)));
            Lab[] settled = [];
            if (ink.Point is { } made)
            {
                var mixed = now with
                {
                    Ph = now.Ph is { } one && made.Ph is { } two && model.Ph.IsFree ? ((1 - share) * one) + (share * two) : null,
                    GramsPerLitre = ((1 - share) * now.GramsPerLitre) + (share * made.GramsPerLitre),
                };
                var mine = now with { Ph = mixed.Ph is null ? null : now.Ph };
                settled = Array.ConvertAll(
                    States.Of(model, batch, film, [mine, mixed], oneJar: false).Read(1, () => 1 - share),
                    film.ColourOf
                );
            }

            yield return Judge(batch, CorrectionKind.Blend, [.. apart, .. settled], []) with
            {
                Ink = ink.Name,
                InkMillilitres = Poured(batch.Millilitres * share / (1 - share)),
            };
        }
    }

    private static RankedCorrection Judge(WrongBatch batch, CorrectionKind kind, Lab[] colours, Doses grams)
    {
        var draws = new ColourDraws(colours, 0, 0);
        return new()
        {
            Kind = kind,
            AddGrams = grams,
            Colour = draws.Centre,
            UncertaintyDe00 = draws.Radius(0.95),
            ExpectedDe00 = draws.Expected(batch.Wanted),
            ChanceWithinJustVisible = draws.Chance(batch.Wanted, Match.JustVisibleDe00),
            Words = "",
        };
    }

    /// <summary>Whether a plan asks for nothing that the other does not ask for too: what is better and simpler makes the other
    /// idle.</summary>
    private static bool DoesNoMore(RankedCorrection plan, RankedCorrection other) =>
        plan.AddGrams.Names.All(other.AddGrams.Contains)
        && (plan.WaterMillilitres <= 0 || other.WaterMillilitres > 0)
        && (plan.Ink.Length == 0 || plan.Ink == other.Ink);

    /// <summary>Each thing stirred in is a chance of another slip, worth a little.</summary>
    private static double Penalty(RankedCorrection one) =>
        (0.1 * one.AddGrams.Count) + (one.WaterMillilitres > 0 ? 0.05 : 0) + (one.Kind == CorrectionKind.Blend ? 0.15 : 0);

    private static string Say(RankedCorrection one, BenchLimits bench)
    {
        var parts = one
            .AddGrams.Select(added =>
                string.Create(CultureInfo.InvariantCulture, $"{added.Amount:0.###} g of {added.Name}")
                + bench.AsStock(added.Name, added.Amount)
            )
            .ToList();
        if (one.WaterMillilitres > 0)
            parts.Add(string.Create(CultureInfo.InvariantCulture, $"{one.WaterMillilitres:0.#} ml of water"));
        if (one.Ink.Length > 0)
            parts.Add(string.Create(CultureInfo.InvariantCulture, $"{one.InkMillilitres:0.#} ml of {one.Ink}"));
        var end = string.Create(
            CultureInfo.InvariantCulture,
            $"expected ΔE00 {one.ExpectedDe00:0.0} from the recipe, unseen {100 * one.ChanceWithinJustVisible:0} times of 100"
        );
        return parts.Count == 0 ? $"Leave it: {end}." : $"Add {string.Join(" and ", parts)}: {end}.";
    }

    private static string Advise(List<RankedCorrection> ranked, RankedCorrection leave, WrongBatch batch)
    {
        var off = Difference.Ciede2000(batch.Measured, batch.Wanted);
        var best = ranked[0];
        if (off <= Match.JustVisibleDe00)
            return string.Create(
                CultureInfo.InvariantCulture,
                $"Nothing helps more than leaving it: it is ΔE00 {off:0.0} from the recipe, which hardly anybody sees."
            );
        if (best.Kind == CorrectionKind.Leave || leave.ExpectedDe00 - best.ExpectedDe00 < WorthWhile)
            return string.Create(
                CultureInfo.InvariantCulture,
                $"Nothing helps more than leaving it: it is ΔE00 {off:0.0} from the recipe, and no addition, water or ink at "
                    + $"hand is expected to bring it nearer."
            );
        return string.Create(
            CultureInfo.InvariantCulture,
            $"It is ΔE00 {off:0.0} from the recipe. {best.Words} Try it on a spoonful first: what is in cannot be taken out."
        );
    }

    /// <summary>Two figures of what is poured, and no less than a millilitre's steps.</summary>
    private static double Poured(double millilitres)
    {
        if (millilitres <= 0)
            return 0;
        var unit = Math.Max(1, Math.Pow(10, Math.Floor(Math.Log10(millilitres)) - 1));
        return Math.Round(millilitres / unit) * unit;
    }

    /// <summary>What the batch, and what it may become, can look like in the light of its reading: equally likely states of the
    /// world.</summary>
    /// <remarks>Forecasts are weighed by how well they agree with the reading, widened until enough of them count (effective sample size
    /// [Kish1965]), and taken in proportion by systematic resampling [Kitagawa1996].</remarks>
    private sealed class States
    {
        private readonly FilmDensity[][] forecast;
        private readonly FilmDensity[] apart;

        private States(FilmDensity[][] forecast, FilmDensity[] apart) => (this.forecast, this.apart) = (forecast, apart);

        /// <param name="model">What the trials taught.</param>
        /// <param name="batch">The batch, its reading's ± given.</param>
        /// <param name="film">Its paper.</param>
        /// <param name="points">The batch as it is believed to be, then what it may become.</param>
        /// <param name="oneJar">True where they are stages of one jar.</param>
        /// <param name="phDoubt">Standard deviation of each one's pH beyond what its estimate says.</param>
        public static States Of(
            ResponseModel model,
            WrongBatch batch,
            Film film,
            IReadOnlyList<TrialPoint> points,
            bool oneJar,
            double[]? phDoubt = null
        )
        {
            var drawn = model.DensitiesTogether(points, oneJar, phDoubt);
            var count = drawn[0].Length;
            var read = film.DensityOf(batch.Measured);
            var scatter = new double[9];
            Scatter.InDensity(film, read, scatter);
            var scale = Math.Pow(batch.MeasuredUncertaintyDe00!.Value / ThreeNormals.Radius95, 2);
            var off = Array.ConvertAll(drawn[0], one => (read - one).ToArray());
            var prior = new double[9];
            for (var e = 0; e < 9; e++)
                prior[e] = (StrengthApart * StrengthApart * read[e / 3] * read[e % 3]) + (e % 4 == 0 ? BandApart * BandApart : 0);
            var weights = new double[count];
            var solved = new double[count][];
            var total = new double[9];
            for (var round = 0; ; round++)
            {
                for (var e = 0; e < 9; e++)
                    total[e] = prior[e] + (scale * scatter[e]);
                for (var i = 0; i < count; i++)
                {
                    solved[i] = [.. off[i]];
                    NormalTriple.Solve(total, solved[i]);
                    weights[i] = -0.5 * ((off[i][0] * solved[i][0]) + (off[i][1] * solved[i][1]) + (off[i][2] * solved[i][2]));
                }

                var most = weights.Max();
                for (var i = 0; i < count; i++)
                    weights[i] = Math.Exp(weights[i] - most);

                // Where next to no forecast allows the reading, the batch lies further from its forecast than was thought.
                var (sum, squares) = (weights.Sum(), weights.Sum(weight => weight * weight));
                if (sum * sum / squares >= LeastStates || round == 12)
                    break;
                for (var e = 0; e < 9; e++)
                    prior[e] *= 2;
            }

            // Forecasts in proportion to how well they agree with the reading, and with each what the reading says sets the batch apart
            // from it.
            var (chosen, step, at, reached) = (new int[count], weights.Sum() / count, 0, weights[0]);
            for (var i = 0; i < count; i++)
            {
                while (reached < (i + 0.5) * step && at < count - 1)
                    reached += weights[++at];
                chosen[i] = at;
            }

            var left = new double[9];
            for (var b = 0; b < 3; b++)
            {
                double[] column = [prior[b], prior[3 + b], prior[6 + b]];
                NormalTriple.Solve(total, column);
                for (var a = 0; a < 3; a++)
                    left[(3 * a) + b] =
                        prior[(3 * a) + b]
                        - (prior[3 * a] * column[0])
                        - (prior[(3 * a) + 1] * column[1])
                        - (prior[(3 * a) + 2] * column[2]);
            }

            Cholesky.Factor3(left);
            var random = new NormalDraws(407);
            var beyond = Array.ConvertAll(
                chosen,
                i =>
                {
                    double Part(int a) =>
                        (prior[3 * a] * solved[i][0]) + (prior[(3 * a) + 1] * solved[i][1]) + (prior[(3 * a) + 2] * solved[i][2]);
                    return NormalTriple.Draw([Part(0), Part(1), Part(2)], left, random);
                }
            );
            return new([.. drawn.Select(one => Array.ConvertAll(chosen, i => one[i]))], beyond);
        }

        /// <summary>Densities one of the points may have.</summary>
        /// <param name="point">Which, 0 the batch itself.</param>
        /// <param name="carried">Share of what sets the batch apart that it keeps; all where left out.</param>
        public FilmDensity[] Read(int point, Func<double>? carried = null) =>
            [.. forecast[point].Select((one, i) => one + ((carried?.Invoke() ?? 1) * apart[i]))];

        /// <summary>Their mean.</summary>
        public FilmDensity Mean(int point) => FilmDensity.Mean(Read(point));
    }
}

using System.Globalization;
using Dyewort.Colour;
using Dyewort.Numerics;
using Dyewort.Quantities;

namespace Dyewort.Response;

/// <summary>What may have gone wrong with a jar.</summary>
public enum SlipKind
{
    /// <summary>It is as written.</summary>
    AsWritten = 0,

    /// <summary>Another powder out of the pantry.</summary>
    OtherPowder,

    /// <summary>Ten times the dose, or a tenth.</summary>
    TenTimes,

    /// <summary>Another spoon: a tablespoon for a teaspoon, a half for a whole.</summary>
    OtherSpoon,

    /// <summary>Put in twice.</summary>
    Twice,

    /// <summary>Written but not put in.</summary>
    Forgotten,

    /// <summary>Put in but not written.</summary>
    NotWritten,

    /// <summary>Two squares exchanged on the sheet.</summary>
    Swapped,

    /// <summary>Something no slip of the hand explains: a smear, a stain, a bad photo, a jar that went off.</summary>
    SomethingElse,
}

/// <summary>One explanation of a reading that is far from what was written.</summary>
/// <param name="Kind">What kind.</param>
/// <param name="Probability">How probable it is among all that were weighed, 0 to 1.</param>
/// <param name="Meant">What would really be in the jar (of a swap: under this square).</param>
/// <param name="Other">The other sample of a swap, the other powder, else empty.</param>
/// <param name="Words">One sentence.</param>
public sealed record Slip(SlipKind Kind, double Probability, TrialPoint Meant, string Other, string Words);

/// <summary>A jar whose reading does not fit what was written.</summary>
/// <param name="Row">What was written and read.</param>
/// <param name="OffDe00">How far the reading is from what the other jars foretell, ΔE₀₀.</param>
/// <param name="ChanceAsWritten">Chance that nothing is wrong.</param>
/// <param name="Slips">Explanations, most probable first, “as written” among them; those below one in a hundred are left out.</param>
public sealed record DoubtfulJar(TrialRow Row, double OffDe00, double ChanceAsWritten, IReadOnlyList<Slip> Slips);

/// <summary>Looks for jars that are not what was written, and ranks the slips that would explain them.</summary>
/// <remarks>Each slip is weighed by how probable it makes the reading (and the measured pH, where there is one) under what the other jars
/// teach, times how often such slips happen (common practice, no source). Nothing is changed: the maker decides, and what was written is
/// kept.</remarks>
public static class WrongJar
{
    /// <summary>Fewer clean samples than this cannot accuse another.</summary>
    public const int FewestClean = 6;

    /// <summary>A jar that is as written with at least this chance takes no part in exchanges.</summary>
    private const double Settled = 0.98;
    private const double Sound = 0.93;
    private const double Unexplained = 0.02;
    private const double StripDoubt = 0.3;
    private static readonly (SlipKind Kind, double Prior)[] Habits =
    [
        (SlipKind.OtherPowder, 0.010),
        (SlipKind.TenTimes, 0.006),
        (SlipKind.OtherSpoon, 0.010),
        (SlipKind.Twice, 0.005),
        (SlipKind.Forgotten, 0.008),
        (SlipKind.NotWritten, 0.003),
        (SlipKind.Swapped, 0.008),
    ];

    /// <summary>The jars that are probably not what was written, most doubtful first; empty where all fit.</summary>
    /// <param name="rows">Painted and read samples of one plant.</param>
    /// <param name="additions">The additions to consider.</param>
    /// <param name="gramsPerSpoon">What a spoon of each addition weighs, g, where known: another powder is taken by the same spoon, not by
    /// the same weight.</param>
    public static Outcome<IReadOnlyList<DoubtfulJar>> Look(
        IReadOnlyList<TrialRow> rows,
        IReadOnlyList<string> additions,
        Doses? gramsPerSpoon = null
    )
    {
        ArgumentNullException.ThrowIfNull(rows);
        ArgumentNullException.ThrowIfNull(additions);
        var painted = rows.Where(row => row.Point.Wash > 0).ToArray();
        if (painted.Length < FewestClean + 2)
        {
            return Outcome.Refused<IReadOnlyList<DoubtfulJar>>(
                "trials",
                $"Not enough trials yet: {painted.Length} painted samples cannot tell which of them is wrong.",
                $"Paint and read at least {FewestClean + 2}."
            );
        }

        var first = ResponseModel.Fit(rows, additions);
        if (!first.TryGet(out var all))
            return Outcome.Refused<IReadOnlyList<DoubtfulJar>>(first.Problems);
        var left = all.LeaveOneOut()
            .Readings.Select(one => (one.Row, Residual: one.OffDe00 / Math.Max(one.ReadingDe00, 0.5)))
            .GroupBy(one => (one.Row.Point.Pot, one.Row.Point.Sample))
            .Select(group => group.MaxBy(one => one.Residual))
            .OrderByDescending(one => one.Residual)
            .ToArray();
        var most = Math.Min(Math.Max(2, painted.Length / 5), painted.Length - FewestClean);
        TrialRow[] doubted = [.. left.Take(most).Where(one => one.Residual > 0.6).Select(one => one.Row)];

        // The doubted must not speak for themselves, nor may any jar that is being judged.
        var fitted =
            doubted.Length == 0
                ? first
                : ResponseModel.Fit([.. rows.Where(row => !Array.Exists(doubted, one => OneJar(one, row)))], additions);
        if (!fitted.TryGet(out var clean))
            return Outcome.Refused<IReadOnlyList<DoubtfulJar>>(fitted.Problems);
        var background = Background(clean);
        var judged = left.Select(one => one.Row)
            .Select(row => (Row: row, Weighed: Weigh(clean.Without(other => OneJar(other, row)), row, background, gramsPerSpoon)))
            .ToArray();
        var open = judged.Where(one => Sure(one.Weighed) < Settled).ToArray();
        foreach (var (row, weighed) in open)
        {
            foreach (var (other, _) in open)
            {
                if (!OneJar(row, other))
                    weighed.Add(
                        Swap(clean.Without(one => OneJar(one, row) || OneJar(one, other)), row, other, background, painted.Length - 1)
                    );
            }
        }

        var found = new List<DoubtfulJar>();
        foreach (var (row, weighed) in open)
        {
            var sure = Sure(weighed);
            if (sure > 0.5)
                continue;
            var top = weighed.Max(one => one.Log);
            var sum = weighed.Sum(one => Math.Exp(one.Log - top));
            Slip[] ranked =
            [
                .. weighed
                    .Select(one => one.Slip with { Probability = Math.Exp(one.Log - top) / sum })
                    .Where(slip => slip.Probability >= 0.01)
                    .OrderByDescending(slip => slip.Probability),
            ];
            found.Add(
                new(
                    row,
                    Difference.Ciede2000(clean.Without(other => OneJar(other, row)).Predict(row.Point).Colour, row.Colour),
                    sure,
                    ranked
                )
            );
        }

        return Outcome.Of<IReadOnlyList<DoubtfulJar>>([.. found.OrderBy(one => one.ChanceAsWritten)]);
    }

    private static bool OneJar(TrialRow one, TrialRow other) => one.Point.Sample == other.Point.Sample && one.Point.Pot == other.Point.Pot;

    /// <summary>The chance that nothing is wrong.</summary>
    private static double Sure(List<(Slip Slip, double Log)> weighed)
    {
        var top = weighed.Max(one => one.Log);
        return weighed.Where(one => one.Slip.Kind == SlipKind.AsWritten).Sum(one => Math.Exp(one.Log - top))
            / weighed.Sum(one => Math.Exp(one.Log - top));
    }

    private static List<(Slip Slip, double Log)> Weigh(ResponseModel model, TrialRow row, Func<TrialRow, double> background, Doses? spoons)
    {
        var typed = row.Point;
        double Fits(TrialPoint point) => model.LogLikelihood(row with { Point = point }) + PhFits(model, point, typed.Ph);
        var weighed = new List<(Slip, double)>
        {
            (new(SlipKind.AsWritten, 0, typed, "", "Nothing is wrong: it is as written."), Math.Log(Sound) + Fits(typed)),
            (
                new(SlipKind.SomethingElse, 0, typed, "", "Something else: a smear, a stain, a bad photo, or a jar that went off."),
                Math.Log(Unexplained) + background(row) + PhFits(model, typed, typed.Ph)
            ),
        };
        foreach (var group in Alternatives(model, typed, spoons).GroupBy(slip => slip.Kind))
        {
            var prior = Math.Log(Habits.Single(habit => habit.Kind == group.Key).Prior / group.Count());
            weighed.AddRange(group.Select(slip => (slip, prior + Fits(slip.Meant))));
        }

        return weighed;
    }

    /// <summary>A swap moves the reading, not the jar: each pH stays with its own jar, and both readings must fit.</summary>
    private static (Slip Slip, double Log) Swap(
        ResponseModel model,
        TrialRow row,
        TrialRow other,
        Func<TrialRow, double> background,
        int partners
    )
    {
        static TrialPoint Under(TrialPoint jar, TrialPoint square) =>
            jar with
            {
                Paper = square.Paper,
                State = square.State,
                Wash = square.Wash,
                Coats = square.Coats,
            };
        var here = Under(other.Point, row.Point);
        var mine = model.LogLikelihood(row with { Point = here });
        var theirs = model.LogLikelihood(other with { Point = Under(row.Point, other.Point) });
        var before = Math.Max(Math.Log(Sound) + model.LogLikelihood(other), Math.Log(Unexplained) + background(other));
        var prior = Math.Log(Habits.Single(habit => habit.Kind == SlipKind.Swapped).Prior / partners);
        return (
            new(
                SlipKind.Swapped,
                0,
                here,
                other.Point.Sample,
                $"The squares of {row.Point.Sample} and {other.Point.Sample} are exchanged on the sheet."
            ),
            prior + mine + theirs - before + PhFits(model, row.Point, row.Point.Ph)
        );
    }

    private static IEnumerable<Slip> Alternatives(ResponseModel model, TrialPoint typed, Doses? spoons)
    {
        var ranges = Compositions.Ranges(model);
        TrialPoint With(params ReadOnlySpan<(string Name, double Dose)> changes)
        {
            var doses = typed.GramsPerLitre;
            foreach (var (name, dose) in changes)
                doses = doses.With(name, dose);
            return typed with { GramsPerLitre = doses };
        }

        double Spoon(string name) => spoons?.Find(name) ?? 1;

        foreach (var (name, dose) in typed.GramsPerLitre)
        {
            foreach (var (other, _, _) in ranges)
            {
                if (typed.Dose(other) > 0)
                    continue;
                var known = Spoon(name) != 1 && Spoon(other) != 1;
                var taken = known ? dose * Spoon(other) / Spoon(name) : dose;
                yield return new(SlipKind.OtherPowder, 0, With((name, 0), (other, taken)), other, $"It was {other}, not {name}.");
            }

            yield return new(
                SlipKind.TenTimes,
                0,
                With((name, dose * 10)),
                "",
                $"Ten times the {name}: {Say(dose * 10)} g/L instead of {Say(dose)}."
            );
            yield return new(
                SlipKind.TenTimes,
                0,
                With((name, dose / 10)),
                "",
                $"A tenth of the {name}: {Say(dose / 10)} g/L instead of {Say(dose)}."
            );
            yield return new(
                SlipKind.OtherSpoon,
                0,
                With((name, dose * 3)),
                "",
                $"A tablespoon of {name} for a teaspoon: {Say(dose * 3)} g/L instead of {Say(dose)}."
            );
            yield return new(
                SlipKind.OtherSpoon,
                0,
                With((name, dose / 3)),
                "",
                $"A teaspoon of {name} for a tablespoon: {Say(dose / 3)} g/L instead of {Say(dose)}."
            );
            yield return new(
                SlipKind.OtherSpoon,
                0,
                With((name, dose / 2)),
                "",
                $"Half the spoon of {name}: {Say(dose / 2)} g/L instead of {Say(dose)}."
            );
            yield return new(
                SlipKind.Twice,
                0,
                With((name, dose * 2)),
                "",
                $"{char.ToUpperInvariant(name[0])}{name[1..]} went in twice: {Say(dose * 2)} g/L instead of {Say(dose)}."
            );
            yield return new(SlipKind.Forgotten, 0, With((name, 0)), "", $"The {name} was forgotten.");
        }

        foreach (var (name, low, high) in ranges)
        {
            if (typed.Dose(name) > 0)
                continue;
            foreach (var dose in Compositions.Ladder(low, high, 3).Distinct())
                yield return new(
                    SlipKind.NotWritten,
                    0,
                    With((name, dose)),
                    name,
                    $"{char.ToUpperInvariant(name[0])}{name[1..]} went in that nobody wrote down, about {Say(dose)} g/L."
                );
        }
    }

    /// <summary>How well a measured pH fits a composition; nothing where none was measured.</summary>
    private static double PhFits(ResponseModel model, TrialPoint point, double? measured)
    {
        if (measured is not { } ph)
            return 0;
        var expected = model.Ph.Of(point with { Ph = null });

        // What is believed of the liquor's acids is often off by more than its ±; a slip must beat that.
        var spread = Math.Sqrt((4 * expected.Uncertainty * expected.Uncertainty) + (StripDoubt * StripDoubt));
        var z = (ph - expected.Ph) / spread;
        return -Math.Log(spread) - (2.5 * Math.Log(1 + (z * z / 4)));
    }

    /// <summary>How probable a reading is for a square that has nothing to do with what was written: any colour of this plant, or
    /// beyond.</summary>
    private static Func<TrialRow, double> Background(ResponseModel model)
    {
        var film = model.FilmOf(model.UsualSetting().Paper);
        var densities = model.Rows.Select(row => film.DensityOf(row.Colour)).ToArray();
        var centre = FilmDensity.Mean(densities);
        var covariance = new double[9];
        foreach (var density in densities)
        {
            for (var i = 0; i < 9; i++)
                covariance[i] += (density - centre)[i / 3] * (density - centre)[i % 3] / densities.Length;
        }

        for (var i = 0; i < 3; i++)
            covariance[(i * 3) + i] = (covariance[(i * 3) + i] * 1.5) + 0.01;
        Cholesky.Factor3(covariance);
        return row => NormalTriple.LogDensity(covariance, model.FilmOf(row.Point.Paper).DensityOf(row.Colour) - centre);
    }

    private static string Say(double gramsPerLitre) =>
        gramsPerLitre.ToString(gramsPerLitre < 1 ? "0.##" : "0.#", CultureInfo.InvariantCulture);
}

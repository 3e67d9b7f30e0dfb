using Dyewort.Colour;

namespace Dyewort.Response;

/// <summary>How a wanted colour is proposed to be made.</summary>
public enum MatchKind
{
    /// <summary>A tested sample as it is.</summary>
    AsIs = 0,

    /// <summary>Doses inside the tested range that nobody has painted yet.</summary>
    Dose,

    /// <summary>An ink thinned with water.</summary>
    Wash,

    /// <summary>Two inks mixed by volume.</summary>
    Mix,
}

/// <summary>One part of a mixture.</summary>
/// <param name="Plant">The plant the sample is of.</param>
/// <param name="Sample">The sample's code.</param>
/// <param name="Share">Its share by volume, 0 to 1; all shares sum to one.</param>
public sealed record MatchPart(string Plant, string Sample, double Share);

/// <summary>A way to make a wanted colour.</summary>
public sealed record Proposal
{
    /// <summary>How.</summary>
    public required MatchKind Kind { get; init; }

    /// <summary>What to make: additions in g/L, pH where known, wash and paper. Of a mixture of two plants only the paper counts.</summary>
    public required TrialPoint Point { get; init; }

    /// <summary>The tested sample it starts from, empty where none.</summary>
    public string Sample { get; init; } = "";

    /// <summary>The inks of a mixture.</summary>
    public IReadOnlyList<MatchPart> Parts { get; init; } = [];

    /// <summary>The colour to expect.</summary>
    public required Lab Colour { get; init; }

    /// <summary>ΔE₀₀ to the wanted colour, averaged over what the painted colour may turn out to be.</summary>
    public required double ExpectedDe00 { get; init; }

    /// <summary>95 % radius around <see cref="Colour"/>.</summary>
    public required double UncertaintyDe00 { get; init; }

    /// <summary>Chance that nobody sees the difference: ΔE₀₀ at most <see cref="Match.JustVisibleDe00"/>.</summary>
    public required double ChanceWithinJustVisible { get; init; }

    /// <summary>What would make this surer, one sentence.</summary>
    public required string Surer { get; init; }
}

/// <summary>What a search for a colour found.</summary>
/// <param name="Proposals">Best first.</param>
/// <param name="Reached">False where even the best is surely a visible way off.</param>
/// <param name="Why">One sentence where it is not reached: what the wanted colour has that these inks have not.</param>
public sealed record MatchResult(IReadOnlyList<Proposal> Proposals, bool Reached, string Why);

/// <summary>Searches what the trials taught for ways to make a colour.</summary>
public static class Match
{
    /// <summary>Side by side in daylight most people see a difference from about here (common practice, no source).</summary>
    public const double JustVisibleDe00 = 1;

    private const double UsualMillilitres = 100;
    private const int Steps = 7;
    private const int Refined = 6;
    private const int QuickPairs = 8;

    /// <summary>Doses within a factor of 2.2 climb to one optimum as a rule.</summary>
    private const double SameBasin = 0.8;

    /// <summary>Doses within a tenth are measured alike at a bench.</summary>
    private const double SameAmounts = 0.1;

    /// <summary>Ways to make a wanted colour from every plant that has enough trials, best first.</summary>
    /// <param name="wanted">The wanted colour, CIELAB D65.</param>
    /// <param name="models">What the trials of each plant taught; at least one.</param>
    /// <param name="paper">The paper to paint on; empty for the paper each plant was tested on most.</param>
    /// <param name="bench">How much is to be made and what it is measured with; 100 ml and a kitchen scale where left out. No dose is
    /// proposed that cannot be measured so.</param>
    public static MatchResult Find(Lab wanted, IReadOnlyList<ResponseModel> models, string paper = "", BenchLimits? bench = null)
    {
        ArgumentNullException.ThrowIfNull(models);
        bench ??= new() { SampleMillilitres = UsualMillilitres };
        if (models.Count == 0)
            throw new ArgumentException("A search needs a model.", nameof(models));
        // Each plant by itself, so on every core there is; in their order, so that the answer is always the same.
        List<Proposal> proposals =
        [
            .. models
                .AsParallel()
                .AsOrdered()
                .SelectMany(model =>
                {
                    var setting = model.UsualSetting(paper);
                    var tested = model
                        .Rows.Select(row => row.Point)
                        .DistinctBy(point => (point.Pot, point.Sample))
                        .Select(point =>
                            point with
                            {
                                Paper = setting.Paper,
                                State = setting.State,
                                Wash = setting.Wash,
                                Coats = setting.Coats,
                            }
                        )
                        .ToArray();
                    var asIs = tested
                        .Select(point => Judge(model, MatchKind.AsIs, point, wanted, point.Sample))
                        .OrderBy(one => one.ExpectedDe00);
                    var doses = Doses(model, setting, tested, wanted, bench);
                    return (IEnumerable<Proposal>)
                        [
                            .. asIs.Take(3),
                            .. doses.Take(3),
                            .. Washes(model, [.. tested, .. doses.Take(3).Select(one => one.Point)], wanted, bench).Take(3),
                            .. MixesOfOne(model, tested, wanted).Take(2),
                        ];
                }),
        ];
        proposals.AddRange(MixesOfTwo(models, paper, wanted).Take(2));
        Proposal[] ranked = [.. proposals.OrderBy(one => one.ExpectedDe00 + Penalty(one.Kind)).ThenBy(one => one.Kind).Take(10)];
        var best = ranked[0];
        var reached = best.ExpectedDe00 - (best.UncertaintyDe00 / 2) <= 2 * JustVisibleDe00;
        return new(ranked, reached, reached ? "" : Why(wanted, best.Colour));
    }

    /// <summary>What separates a wanted colour from the nearest that can be made, in words.</summary>
    internal static string Why(Lab wanted, Lab nearest)
    {
        var words = new List<string>();
        if (wanted.L - nearest.L > 3)
            words.Add("lighter");
        if (nearest.L - wanted.L > 3)
            words.Add("darker");
        if (wanted.Chroma - nearest.Chroma > 3)
            words.Add("more saturated");
        if (nearest.Chroma - wanted.Chroma > 3)
            words.Add("greyer");
        var turn = Math.Abs(((wanted.HueDegrees - nearest.HueDegrees + 540) % 360) - 180);
        if (wanted.Chroma > 5 && nearest.Chroma > 5 && turn > 12)
            words.Add("of another hue");
        return words.Count == 0
            ? "The wanted colour lies a little beyond what these inks can make."
            : $"The wanted colour is {string.Join(" and ", words)} than anything these inks can make.";
    }

    private static double Penalty(MatchKind kind) =>
        kind switch
        {
            MatchKind.AsIs => 0,
            MatchKind.Dose => 0.05,
            MatchKind.Wash => 0.08,
            _ => 0.2,
        };

    private static Proposal Judge(ResponseModel model, MatchKind kind, TrialPoint point, Lab wanted, string sample) =>
        Judge(model.Draw(point), kind, point with { Ph = model.Ph.Of(point).Ph }, wanted, sample, []);

    private static Proposal Judge(
        ColourDraws draws,
        MatchKind kind,
        TrialPoint point,
        Lab wanted,
        string sample,
        IReadOnlyList<MatchPart> parts
    ) =>
        new()
        {
            Kind = kind,
            Point = point,
            Sample = sample,
            Parts = parts,
            Colour = draws.Centre,
            ExpectedDe00 = draws.Expected(wanted),
            UncertaintyDe00 = draws.Radius(0.95),
            ChanceWithinJustVisible = draws.Chance(wanted, JustVisibleDe00),
            Surer = kind switch
            {
                MatchKind.AsIs => "Paint this sample twice more: its own scatter is most of what is open.",
                MatchKind.Dose => "Paint one sample at these doses, and one a step either side.",
                MatchKind.Wash => "Paint a row of washes of this ink (1, 1/2, 1/4) on this paper.",
                _ => "Mix a spoonful at these shares and paint it beside its parts.",
            },
        };

    /// <summary>Tested doses and what lies between them: a grid over every addition and pair, the best brought down to their nearest
    /// optimum.</summary>
    private static List<Proposal> Doses(ResponseModel model, TrialPoint setting, TrialPoint[] tested, Lab wanted, BenchLimits bench)
    {
        var ladders = new Dictionary<string, double[]>(StringComparer.OrdinalIgnoreCase);
        foreach (var name in model.Additions)
        {
            var doses = tested.Select(point => point.Dose(name)).Where(dose => dose > 0).Order().ToArray();
            if (doses.Length == 0)
                continue;
            var (low, high) = (doses[0], doses[^1]);
            ladders[name] =
                low == high ? [low] : [.. Enumerable.Range(0, Steps).Select(i => low * Math.Pow(high / low, i / (Steps - 1.0)))];
        }

        double?[] phs = model.Ph.IsFree
            ?
            [
                .. Spread([.. tested.Where(point => point.Ph is not null).Select(point => point.Ph!.Value).Distinct().Order()], 6)
                    .Select(ph => (double?)ph),
            ]
            : [null];
        var starts = new List<TrialPoint>();
        foreach (var ph in phs)
        {
            var plain = setting with { Ph = ph };
            foreach (var (name, ladder) in ladders)
            {
                starts.AddRange(ladder.Select(dose => With(plain, name, dose)));
                foreach (var (other, otherLadder) in ladders)
                {
                    if (string.CompareOrdinal(name, other) >= 0)
                        continue;
                    starts.AddRange(ladder.SelectMany(dose => otherLadder.Select(second => With(With(plain, name, dose), other, second))));
                }
            }
        }

        // Samples with three additions and more are starts of their own.
        starts.AddRange(
            tested
                .Where(point => point.GramsPerLitre.Count > 2)
                .Select(point => point with { Sample = "", Ph = model.Ph.IsFree ? point.Ph : null })
        );
        var film = model.FilmOf(setting.Paper);
        var best = starts
            .Select(point => (Point: point, Off: Difference.Ciede2000(wanted, film.ColourOf(model.QuickDensity(point)))))
            .OrderBy(one => one.Off)
            .ToArray();
        var chosen = new List<TrialPoint>();
        foreach (var (point, _) in best)
        {
            // One start per set of additions and neighbourhood: the descent finds the rest.
            if (chosen.Count == Refined)
                break;
            if (!chosen.Exists(known => Near(known, point, SameBasin)))
                chosen.Add(point);
        }

        var ranges = ladders.ToDictionary(
            pair => pair.Key,
            pair => (Low: pair.Value[0] / 2, High: pair.Value[^1]),
            StringComparer.OrdinalIgnoreCase
        );
        var descended = new List<Proposal>();
        foreach (var one in chosen.Select(point => Descend(model, point, wanted, ranges, bench)).OrderBy(one => one.ExpectedDe00))
        {
            // Two starts may have come down to one place; a maker is told of it once.
            if (!descended.Exists(known => Near(known.Point, one.Point, SameAmounts)))
                descended.Add(one);
        }

        return descended;
    }

    private static IEnumerable<double> Spread(double[] sorted, int count) =>
        sorted.Length <= count ? sorted : Enumerable.Range(0, count).Select(i => sorted[i * (sorted.Length - 1) / (count - 1)]);

    // How far two doses may be apart is the logarithm of their ratio.
    private static bool Near(TrialPoint one, TrialPoint two, double apart) =>
        one.GramsPerLitre.Count == two.GramsPerLitre.Count
        && one.GramsPerLitre.All(own => two.Dose(own.Name) is var dose && dose > 0 && Math.Abs(Math.Log(dose / own.Amount)) < apart)
        && Math.Abs((one.Ph ?? 0) - (two.Ph ?? 0)) < 0.5;

    private static TrialPoint With(TrialPoint point, string name, double dose) =>
        point with
        {
            GramsPerLitre = point.GramsPerLitre.With(name, dose),
        };

    /// <summary>Steps in one dose after the other, halved when none helps, on the expected difference itself, over doses that can be
    /// measured [HookeJeeves1961].</summary>
    private static Proposal Descend(
        ResponseModel model,
        TrialPoint start,
        Lab wanted,
        Dictionary<string, (double Low, double High)> ranges,
        BenchLimits bench
    )
    {
        var at = Measured(start, bench);
        var off = model.Expected(at, wanted);
        for (var step = 0.3; step > 0.03; step /= 2)
        {
            for (var improved = true; improved; )
            {
                improved = false;
                foreach (var name in at.GramsPerLitre.Names.ToArray())
                {
                    foreach (var sign in new[] { 1, -1 })
                    {
                        var dose = bench.MeasurableDose(
                            name,
                            Math.Clamp(at.Dose(name) * Math.Exp(sign * step), ranges[name].Low, ranges[name].High)
                        );
                        if (dose <= 0 || dose == at.Dose(name))
                            continue;
                        var tried = With(at, name, dose);
                        var reached = model.Expected(tried, wanted);
                        if (reached >= off - 1e-3)
                            continue;
                        (off, at, improved) = (reached, tried, true);
                    }
                }
            }
        }

        return Judge(model, MatchKind.Dose, at, wanted, "");
    }

    private static TrialPoint Measured(TrialPoint point, BenchLimits bench) =>
        point with
        {
            GramsPerLitre = [.. point.GramsPerLitre.Select(dose => dose with { Amount = bench.MeasurableDose(dose.Name, dose.Amount) })],
        };

    private static double Rounded(double dose)
    {
        var unit = Math.Pow(10, Math.Floor(Math.Log10(dose)) - 2);
        return Math.Round(dose / unit) * unit;
    }

    private static List<Proposal> Washes(ResponseModel model, IEnumerable<TrialPoint> inks, Lab wanted, BenchLimits bench)
    {
        var quick = new List<(TrialPoint Point, double Off)>();
        foreach (var ink in inks)
        {
            var film = model.FilmOf(ink.Paper);
            var density = model.QuickDensity(ink);
            var share = Enumerable
                .Range(2, 38)
                .Select(i => i / 40.0)
                .MinBy(share => Difference.Ciede2000(wanted, film.ColourOf(share * density)));
            var point = ink with { Wash = Math.Round(ink.Wash * share, 4) };

            // What nobody made yet is measured into the liquor that the wash needs.
            if (ink.Sample.Length == 0)
                point = Measured(point, bench with { SampleMillilitres = bench.SampleMillilitres * share });
            quick.Add((point, Difference.Ciede2000(wanted, film.ColourOf(share * density))));
        }

        return
        [
            .. quick
                .OrderBy(one => one.Off)
                .Take(5)
                .Select(one => Judge(model, MatchKind.Wash, one.Point, wanted, one.Point.Sample))
                .OrderBy(one => one.ExpectedDe00),
        ];
    }

    /// <summary>Two samples of one pot: the dye settles to what the mixed additions make of it (the pH shifts at once, metals change
    /// partners within minutes to hours: common practice, no source), or stays a while as it was in each jar. The first is searched; both
    /// are counted, so that a mixture the two disagree about is not thought sure.</summary>
    private static List<Proposal> MixesOfOne(ResponseModel model, TrialPoint[] tested, Lab wanted)
    {
        var film = model.FilmOf(tested[0].Paper);
        var inks = tested.Select(point => (Model: model, Point: point, Density: model.QuickDensity(point))).ToArray();
        TrialPoint Together(TrialPoint first, TrialPoint second, double share)
        {
            var mixed = (share * first.GramsPerLitre) + ((1 - share) * second.GramsPerLitre);
            double? ph = model.Ph.IsFree && first.Ph is { } a && second.Ph is { } b ? (share * a) + ((1 - share) * b) : null;
            return first with
            {
                Sample = "",
                GramsPerLitre = [.. mixed.Select(dose => dose with { Amount = Rounded(dose.Amount) })],
                Ph = ph,
            };
        }

        var quick = Pairs(inks, film, wanted)
            .Take(QuickPairs)
            .SelectMany(pair =>
                new[] { -0.125, 0, 0.125 }
                    .Select(step => pair.Share + step)
                    .Where(share => share is > 0 and < 1)
                    .Select(share => (First: inks[pair.First].Point, Second: inks[pair.Second].Point, Share: share))
            )
            .Select(one => (one.First, one.Second, one.Share, Point: Together(one.First, one.Second, one.Share)))
            .Select(one =>
                (
                    one.First,
                    one.Second,
                    one.Share,
                    one.Point,
                    Off: Difference.Ciede2000(wanted, film.ColourOf(model.QuickDensity(one.Point)))
                )
            )
            .GroupBy(one => (one.First, one.Second))
            .Select(group => group.MinBy(one => one.Off))
            .OrderBy(one => one.Off)
            .Take(4);
        return
        [
            .. quick
                .Select(one =>
                {
                    var apart = WashedInk.Mix(
                        [(model.Draw(one.First), one.Share), (model.Draw(one.Second), 1 - one.Share)],
                        film,
                        film.IsGuessed
                    );
                    var settled = model.Draw(one.Point);
                    var both = new ColourDraws(
                        [.. apart.Colours, .. settled.Colours],
                        Math.Max(apart.PriorWeight, settled.PriorWeight),
                        settled.NoiseVariance
                    );
                    return Judge(
                        both,
                        MatchKind.Mix,
                        one.Point with
                        {
                            Ph = model.Ph.Of(one.Point).Ph,
                        },
                        wanted,
                        "",
                        [new(model.Plant, one.First.Sample, one.Share), new(model.Plant, one.Second.Sample, 1 - one.Share)]
                    );
                })
                .OrderBy(one => one.ExpectedDe00),
        ];
    }

    /// <summary>Two samples of different plants, each keeping its dye.</summary>
    private static List<Proposal> MixesOfTwo(IReadOnlyList<ResponseModel> models, string paper, Lab wanted)
    {
        if (models.Count < 2)
            return [];
        var setting = models[0].UsualSetting(paper);
        var film = models[0].FilmOf(setting.Paper);
        var inks = models
            .SelectMany(model =>
            {
                var own = model.UsualSetting(setting.Paper);
                return model
                    .Rows.Select(row => row.Point)
                    .DistinctBy(point => (point.Pot, point.Sample))
                    .Select(point => point with { Paper = own.Paper, State = own.State, Wash = own.Wash, Coats = own.Coats })
                    .Select(point => (Model: model, Point: point, Density: model.QuickDensity(point)));
            })
            .ToArray();
        return
        [
            .. Pairs(inks, film, wanted)
                .Where(pair => inks[pair.First].Model != inks[pair.Second].Model)
                .Take(4)
                .Select(pair =>
                {
                    var (first, second) = (inks[pair.First], inks[pair.Second]);
                    var draws = WashedInk.Mix(
                        [(first.Model.Draw(first.Point), pair.Share), (second.Model.Draw(second.Point), 1 - pair.Share)],
                        film,
                        film.IsGuessed
                    );
                    return Judge(
                        draws,
                        MatchKind.Mix,
                        new()
                        {
                            Sample = "",
                            Paper = setting.Paper,
                            State = setting.State,
                        },
                        wanted,
                        "",
                        [
                            new(first.Model.Plant, first.Point.Sample, pair.Share),
                            new(second.Model.Plant, second.Point.Sample, 1 - pair.Share),
                        ]
                    );
                })
                .OrderBy(one => one.ExpectedDe00),
        ];
    }

    private static IEnumerable<(int First, int Second, double Share)> Pairs(
        (ResponseModel Model, TrialPoint Point, FilmDensity Density)[] inks,
        Film film,
        Lab wanted
    )
    {
        var found = new List<(int First, int Second, double Share, double Off)>();
        for (var i = 0; i < inks.Length; i++)
        {
            for (var j = 0; j < i; j++)
            {
                var (one, two) = (inks[i].Density, inks[j].Density);
                var best = (Share: 0.5, Off: double.PositiveInfinity);
                for (var eighth = 1; eighth < 8; eighth++)
                {
                    var share = eighth / 8.0;
                    var off = Difference.Ciede2000(wanted, film.ColourOf((share * one) + ((1 - share) * two)));
                    if (off < best.Off)
                        best = (share, off);
                }

                found.Add((i, j, best.Share, best.Off));
            }
        }

        return found.OrderBy(one => one.Off).Select(one => (one.First, one.Second, one.Share));
    }
}

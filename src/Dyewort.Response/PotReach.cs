using Dyewort.Colour;

namespace Dyewort.Response;

/// <summary>What a pot reaches in one direction of hue.</summary>
/// <param name="HueFrom">Hue angle where the bin begins, degrees in CIELAB.</param>
/// <param name="HueTo">Where it ends.</param>
/// <param name="MostChroma">Largest chroma reached there; 0 where nothing is.</param>
/// <param name="DarkestL">Smallest L* reached there; the paper's where nothing is.</param>
/// <param name="LightestL">Largest L* reached there.</param>
public sealed record ReachBin(double HueFrom, double HueTo, double MostChroma, double DarkestL, double LightestL);

/// <summary>One corner of an outline on the a*b* plane.</summary>
public readonly record struct PlanePoint(double A, double B);

/// <summary>A colour and the composition that is expected to give it.</summary>
public sealed record ReachableColour(TrialPoint Point, Lab Colour);

/// <summary>The reachable colour nearest to a wanted one, and what it lacks.</summary>
public sealed record NearestReachable
{
    /// <summary>What to make.</summary>
    public required TrialPoint Point { get; init; }

    /// <summary>The colour to expect.</summary>
    public required Lab Colour { get; init; }

    /// <summary>95 % radius around it, ΔE₀₀.</summary>
    public required double UncertaintyDe00 { get; init; }

    /// <summary>How far it is from the wanted colour, ΔE₀₀.</summary>
    public required double De00 { get; init; }

    /// <summary>The part of that which is lightness: above 0 where the wanted colour is lighter, ΔE₀₀.</summary>
    public required double Lightness { get; init; }

    /// <summary>The part which is chroma: above 0 where the wanted colour is more saturated, ΔE₀₀.</summary>
    public required double Chroma { get; init; }

    /// <summary>The part which is hue, ΔE₀₀; above 0 where the wanted hue angle is larger.</summary>
    public required double Hue { get; init; }

    /// <summary>True where the distance is no more than a just visible one and half the doubt about it.</summary>
    public required bool Reached { get; init; }

    /// <summary>One sentence: reached, or what is short.</summary>
    public required string Why { get; init; }
}

/// <summary>The colours that one pot can make inside the tested doses, one or two additions at a time, and every wash of them.</summary>
/// <remarks>Most probable colours only: the edge is as unsure as a prediction there. The outline is star-shaped around the paper, because
/// every wash of an ink lies on its way to the paper; a plane's convex hull would claim hues between two inks that no mixture in the jar
/// gives.</remarks>
public sealed class PotReach
{
    /// <summary>Bins of hue.</summary>
    public const int Bins = 36;

    private static readonly double[] Shares = [1, 0.75, 0.55, 0.4, 0.28, 0.19, 0.12, 0.07];
    private readonly ResponseModel model;

    private PotReach(ResponseModel model, IReadOnlyList<ReachableColour> colours, Lab paper)
    {
        (this.model, Colours, Paper) = (model, colours, paper);
        var bins = Enumerable.Range(0, Bins).Select(_ => new List<Lab>()).ToArray();
        var around = new (double Radius, Lab Colour)[Bins];
        foreach (var (_, colour) in colours)
        {
            bins[(int)(colour.HueDegrees / 360 * Bins) % Bins].Add(colour);
            var (a, b) = (colour.A - paper.A, colour.B - paper.B);
            var place = (int)(((Math.Atan2(b, a) / (2 * Math.PI)) + 1) * Bins) % Bins;
            var radius = Math.Sqrt((a * a) + (b * b));
            if (radius > around[place].Radius)
                around[place] = (radius, colour);
        }

        ByHue =
        [
            .. bins.Select(
                (own, i) =>
                    new ReachBin(
                        i * 360.0 / Bins,
                        (i + 1) * 360.0 / Bins,
                        own.Count == 0 ? 0 : own.Max(c => c.Chroma),
                        own.Count == 0 ? paper.L : own.Min(c => c.L),
                        own.Count == 0 ? paper.L : own.Max(c => c.L)
                    )
            ),
        ];
        Outline = [.. around.Select(one => one.Radius > 0 ? new PlanePoint(one.Colour.A, one.Colour.B) : new PlanePoint(paper.A, paper.B))];
        Hull = ConvexHull([.. colours.Select(one => new PlanePoint(one.Colour.A, one.Colour.B)), new(paper.A, paper.B)]);
        DarkestL = colours.Min(one => one.Colour.L);
    }

    /// <summary>The plant.</summary>
    public string Plant => model.Plant;

    /// <summary>The bare paper: the lightest colour of all.</summary>
    public Lab Paper { get; }

    /// <summary>Everything that was looked at, with how to make it.</summary>
    public IReadOnlyList<ReachableColour> Colours { get; }

    /// <summary>The reach on the a*b* plane, counter-clockwise around the paper, one corner per 10°; it closes on itself.</summary>
    public IReadOnlyList<PlanePoint> Outline { get; }

    /// <summary>The convex hull on the a*b* plane, counter-clockwise.</summary>
    public IReadOnlyList<PlanePoint> Hull { get; }

    /// <summary>Chroma and lightness per bin of 10° of hue.</summary>
    public IReadOnlyList<ReachBin> ByHue { get; }

    /// <summary>The darkest L* that is reached.</summary>
    public double DarkestL { get; }

    /// <summary>Looks at what a pot can make.</summary>
    /// <param name="model">What its trials taught.</param>
    /// <param name="paper">The paper to paint on; empty for the one the trials used most.</param>
    public static PotReach Of(ResponseModel model, string paper = "")
    {
        ArgumentNullException.ThrowIfNull(model);
        var setting = model.UsualSetting(paper);
        var film = model.FilmOf(setting.Paper);
        var colours = new List<ReachableColour>();
        foreach (var point in Compositions.Grid(model, setting))
        {
            var full = model.QuickDensity(point);
            foreach (var share in Shares)
                colours.Add(new(share == 1 ? point : point with { Wash = point.Wash * share }, film.ColourOf(share * full)));
        }

        return new(model, colours, film.Paper);
    }

    /// <summary>The reachable colour nearest to a wanted one.</summary>
    /// <param name="wanted">CIELAB D65.</param>
    public NearestReachable Nearest(Lab wanted)
    {
        var start = Colours.MinBy(one => Difference.Ciede2000(wanted, one.Colour))!;
        var film = model.FilmOf(start.Point.Paper);
        var ranges = Compositions.Ranges(model).ToDictionary(one => one.Name, one => (one.Low, one.High), StringComparer.OrdinalIgnoreCase);
        double Off(TrialPoint point) => Difference.Ciede2000(wanted, film.ColourOf(model.QuickDensity(point)));
        var (best, least) = (start.Point, Off(start.Point));

        // Steps in one dose after the other and in the wash, halved when none helps [HookeJeeves1961].
        for (var step = 0.3; step > 0.02; step /= 2)
        {
            for (var improved = true; improved; )
            {
                improved = false;
                var around = new List<TrialPoint>();
                foreach (var factor in new[] { Math.Exp(step), Math.Exp(-step) })
                {
                    around.Add(best with { Wash = Math.Clamp(best.Wash * factor, 0.03, 1) });
                    foreach (var (name, dose) in best.GramsPerLitre)
                        around.Add(
                            best with
                            {
                                Sample = "",
                                GramsPerLitre = best.GramsPerLitre.With(
                                    name,
                                    Math.Clamp(dose * factor, ranges[name].Low / 2, ranges[name].High)
                                ),
                            }
                        );
                }

                foreach (var tried in around)
                {
                    var off = Off(tried);
                    if (off < least - 1e-3)
                        (best, least, improved) = (tried, off, true);
                }
            }
        }

        var prediction = model.Predict(best);
        var colour = prediction.Colour;
        var distance = Difference.Ciede2000(wanted, colour);
        var (lightness, chroma, hue) = Parts(colour, wanted);
        var reached = distance <= Match.JustVisibleDe00 + (prediction.UncertaintyDe00 / 2);
        return new()
        {
            Point = best,
            Colour = colour,
            UncertaintyDe00 = prediction.UncertaintyDe00,
            De00 = distance,
            Lightness = lightness,
            Chroma = chroma,
            Hue = hue,
            Reached = reached,
            Why = reached ? "This pot reaches it." : Short(lightness, chroma, hue, wanted, colour),
        };
    }

    /// <summary>A difference in three signed parts, each the ΔE₀₀ that it makes alone.</summary>
    private static (double Lightness, double Chroma, double Hue) Parts(Lab from, Lab to)
    {
        var middle = new Lab((from.L + to.L) / 2, (from.A + to.A) / 2, (from.B + to.B) / 2);
        var (dl, dc, dh) = Difference.Split(from, to);
        var hue = middle.HueDegrees * Math.PI / 180;
        double Part(double l, double a, double b) =>
            Difference.Ciede2000(
                new(middle.L - (l / 2), middle.A - (a / 2), middle.B - (b / 2)),
                new(middle.L + (l / 2), middle.A + (a / 2), middle.B + (b / 2))
            );
        return (
            Math.Sign(dl) * Part(dl, 0, 0),
            Math.Sign(dc) * Part(0, dc * Math.Cos(hue), dc * Math.Sin(hue)),
            Math.Sign(dh) * Part(0, -dh * Math.Sin(hue), dh * Math.Cos(hue))
        );
    }

    private static string Short(double lightness, double chroma, double hue, Lab wanted, Lab nearest)
    {
        var (sin, cos) = Math.SinCos(wanted.HueDegrees * Math.PI / 180);
        var turned = nearest with { A = nearest.Chroma * cos, B = nearest.Chroma * sin };
        var parts = new List<(double Size, string Words)>
        {
            (
                Math.Abs(lightness),
                lightness > 0 ? "it is lighter than this pot gives at that hue" : "it is darker than this pot gives at that hue"
            ),
            (Math.Abs(chroma), chroma > 0 ? "it is more saturated than this pot gives" : "it is greyer than this pot gives"),
            (Math.Abs(hue), $"its hue lies beyond what was tested ({DifferenceWords.Say(nearest, turned)} is wanted)"),
        };
        var largest = parts.Max(part => part.Size);
        var named = parts
            .Where(part => part.Size >= Math.Max(Match.JustVisibleDe00, 0.4 * largest))
            .OrderByDescending(part => part.Size)
            .Select(part => part.Words)
            .ToArray();
        return named.Length == 0
            ? "The wanted colour lies a little beyond this pot's reach."
            : $"Out of reach: {string.Join(", and ", named)}.";
    }

    /// <summary>Monotone chain [Andrew1979]; corners counter-clockwise.</summary>
    private static PlanePoint[] ConvexHull(IReadOnlyList<PlanePoint> points)
    {
        PlanePoint[] sorted = [.. points.Distinct().OrderBy(p => p.A).ThenBy(p => p.B)];
        if (sorted.Length < 3)
            return sorted;
        var hull = new List<PlanePoint>();
        static double Turn(PlanePoint o, PlanePoint p, PlanePoint q) => ((p.A - o.A) * (q.B - o.B)) - ((p.B - o.B) * (q.A - o.A));
        foreach (var order in new[] { sorted, [.. sorted.Reverse()] })
        {
            var kept = hull.Count;
            foreach (var point in order)
            {
                while (hull.Count >= kept + 2 && Turn(hull[^2], hull[^1], point) <= 0)
                    hull.RemoveAt(hull.Count - 1);
                hull.Add(point);
            }

            hull.RemoveAt(hull.Count - 1);
        }

        return [.. hull];
    }
}

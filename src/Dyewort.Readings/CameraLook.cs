namespace Dyewort.Readings;

/// <summary>What a camera did to the light before it wrote the file, as far as it can be told: a tone curve, a push of saturation, stray
/// light.</summary>
/// <remarks>
/// The forward model, on the file's own numbers: stray light is added evenly over the picture; the light is encoded, lifted a little,
/// bent by an S-shaped curve v → (1 − s) v + s v² (3 − 2v), and drawn away from grey. Strength s of 0 is a faithful file, about 0.2 a
/// gentle look, 0.4 a usual phone, 0.6 a vivid one. Saturation and lift go with the strength unless a reference card tells them apart:
/// saturation 1 + 0.42 (s − 0.05), lift exponent 1 − 0.13 (s − 0.1).
/// Evidence: the markers. Their printed black reflects a share of what their paper does (<see cref="PrintedBlack"/>), so a blacker black
/// tells a stronger curve, and a black that is relatively lighter where the page is darker tells stray light. Both are weighed by Bayes'
/// rule on a grid with the priors stated below.
/// The shape of the model, the ties and the priors are our own fit to simulated photos (docs/accuracy.md).
/// </remarks>
public sealed record CameraLook
{
    /// <summary>How far black differs from marker to marker of one print, relative.</summary>
    private const double BlackSpread = 0.05;
    private const double MarkerNoise = 0.03;

    /// <summary>Strength of the curve, 0 to 0.8.</summary>
    public double Curve { get; init; }

    /// <summary>Factor of saturation, 1 = untouched.</summary>
    public double Saturation { get; init; } = 1;

    /// <summary>Stray light relative to the page's paper, 0.01 = one per cent.</summary>
    public double Stray { get; init; }

    /// <summary>Standard uncertainty of the strength.</summary>
    public double CurveDoubt { get; init; }

    /// <summary>The page's paper in scene light: what stray light is relative to.</summary>
    public FileRgb Reference { get; init; } = new(1, 1, 1);

    /// <summary>A look of a given strength with saturation tied to it.</summary>
    /// <param name="curve">Strength.</param>
    /// <param name="stray">Stray light relative to the paper.</param>
    /// <param name="paper">Linear channels of the paper as the file has them.</param>
    /// <param name="doubt">Standard uncertainty of the strength.</param>
    public static CameraLook Of(double curve, double stray, FileRgb paper, double doubt = 0.1)
    {
        var look = new CameraLook
        {
            Curve = curve,
            Saturation = TiedSaturation(curve),
            Stray = 0,
            CurveDoubt = doubt,
        };
        return look with { Stray = stray, Reference = look.Undo(paper) };
    }

    /// <summary>Saturation that usually comes with a strength.</summary>
    public static double TiedSaturation(double curve) => 1 + (0.42 * Math.Max(0, curve - 0.05));

    /// <summary>Tells the look from the markers.</summary>
    /// <param name="markers">Black and white of each marker; may be empty, then the priors speak alone.</param>
    /// <param name="paper">Linear channels of the paper, median over the page.</param>
    /// <param name="pictureMean">Mean of the whole picture relative to the paper: stray light comes from everything in view.</param>
    /// <param name="scan">True for a flatbed scanner, which has little of either.</param>
    /// <param name="black">Share of the paper's light that printed black reflects; that of <see cref="PrintedBlack.Usual"/> when
    /// null.</param>
    public static CameraLook Estimate(IReadOnlyList<InkSample> markers, FileRgb paper, double pictureMean, bool scan, double? black = null)
    {
        var share = black ?? PrintedBlack.Usual.Share;
        var priorStray = Math.Max(2e-4, (scan ? 0.003 : 0.008) * Math.Clamp(pictureMean, 0.1, 2));
        const double StrayDoubt = 0.8;
        var usable = Usable(markers);

        double total = 0,
            sumCurve = 0,
            sumSquare = 0,
            sumStray = 0,
            best = double.MaxValue;
        var cells = new List<(double Cost, double Curve, double Stray)>();
        Span<double> off = stackalloc double[Math.Max(1, usable.Count)];
        for (var i = 0; i <= 40; i++)
        {
            var curve = i * 0.02;
            var look = Of(curve, 0, paper);
            var reference = Mixed(look.Reference);
            var ink = usable.Select(marker => Math.Log(Math.Max(1e-6, Mixed(look.Undo(marker.Black))))).ToArray();
            var white = usable.Select(marker => Mixed(look.Undo(marker.White))).ToArray();
            for (var j = 0; j < 23; j++)
            {
                var logStray = -2 + (4.4 * j / 22);
                var stray = priorStray * Math.Exp(logStray);
                var cost = (-2 * Math.Log(Prior(curve, scan))) + Math.Pow(logStray / StrayDoubt, 2);
                if (usable.Count > 0)
                {
                    double mean = 0;
                    for (var k = 0; k < usable.Count; k++)
                    {
                        off[k] = ink[k] - Math.Log((share * white[k]) + (stray * reference));
                        mean += off[k] / usable.Count;
                    }

                    double spread = 0;
                    for (var k = 0; k < usable.Count; k++)
                        spread += (off[k] - mean) * (off[k] - mean);
                    cost +=
                        (spread / (MarkerNoise * MarkerNoise))
                        + (mean * mean / ((BlackSpread * BlackSpread) + (MarkerNoise * MarkerNoise / usable.Count)));
                }

                cells.Add((cost, curve, stray));
                best = Math.Min(best, cost);
            }
        }

        foreach (var (cost, curve, stray) in cells)
        {
            var weight = Math.Exp((best - cost) / 2);
            total += weight;
            sumCurve += weight * curve;
            sumSquare += weight * curve * curve;
            sumStray += weight * stray;
        }

        var found = sumCurve / total;
        var doubt = Math.Sqrt(Math.Max(0.0004, (sumSquare / total) - (found * found)));
        return Of(found, sumStray / total, paper, doubt);
    }

    /// <summary>The share of its paper's light that printed black reflects, as this look sees it.</summary>
    /// <param name="markers">Black and white of each marker.</param>
    /// <returns>The median over the markers; null where fewer than two can be used.</returns>
    public double? BlackOf(IReadOnlyList<InkSample> markers)
    {
        var shares = Usable(markers).Select(marker => Mixed(Undo(marker.Black)) / Mixed(Undo(marker.White))).Order().ToArray();
        return shares.Length < 2 ? null : (shares[(shares.Length - 1) / 2] + shares[shares.Length / 2]) / 2;
    }

    /// <summary>The scene's light that the file's light came from, stray light taken off.</summary>
    /// <param name="light">Linear channels as the file's profile gives them.</param>
    public FileRgb Undo(FileRgb light)
    {
        var (r, g, b) = (FileColour.LinearToSrgb(light.R), FileColour.LinearToSrgb(light.G), FileColour.LinearToSrgb(light.B));
        var grey = (0.2126 * r) + (0.7152 * g) + (0.0722 * b);
        var lift = 1 / (1 - (0.13 * Math.Clamp(Curve - 0.1, 0, 1)));
        return new(
            One(grey + ((r - grey) / Saturation)) - (Stray * Reference.R),
            One(grey + ((g - grey) / Saturation)) - (Stray * Reference.G),
            One(grey + ((b - grey) / Saturation)) - (Stray * Reference.B)
        );

        double One(double encoded) => FileColour.SrgbToLinear(Math.Clamp(Math.Pow(Straighten(encoded), lift), 0, 1.2));
    }

    /// <summary>Mean of the channels, green counted twice.</summary>
    internal static double Mixed(FileRgb colour) => (0.25 * colour.R) + (0.5 * colour.G) + (0.25 * colour.B);

    /// <summary>Markers whose black and white can be trusted: not burnt out, and large enough for blur not to mix the two.</summary>
    private static List<InkSample> Usable(IReadOnlyList<InkSample> markers)
    {
        var usable = markers.Where(marker => !marker.WhiteIsFull && marker.CellPx > 5 && Most(marker.White) < 0.97).ToList();
        if (usable.Count < 2)
            usable = [.. markers.Where(marker => !marker.WhiteIsFull && marker.CellPx > 3)];
        return
        [
            .. usable.Where(marker =>
                Mixed(marker.White) > 0.01 && Mixed(marker.Black) > 1e-5 && Mixed(marker.Black) < 0.5 * Mixed(marker.White)
            ),
        ];
    }

    /// <summary>Three pictures in ten are left as they are; the others bend by 0.25 ± 0.22. A scanner bends by 0.08 ± 0.1.</summary>
    private static double Prior(double curve, bool scan) =>
        scan ? Bell(curve, 0.08, 0.1) : (0.3 * Bell(curve, 0, 0.03)) + (0.7 * Bell(curve, 0.25, 0.22));

    private static double Bell(double value, double mean, double sigma) => Math.Exp(-0.5 * Math.Pow((value - mean) / sigma, 2)) / sigma;

    private static double Most(FileRgb colour) => Math.Max(colour.R, Math.Max(colour.G, colour.B));

    /// <summary>The inverse of the S-shaped curve.</summary>
    private double Straighten(double encoded)
    {
        encoded = Math.Clamp(encoded, 0, 1);
        if (Curve <= 0)
            return encoded;
        var v = encoded;
        for (var round = 0; round < 10; round++)
        {
            var value = ((1 - Curve) * v) + (Curve * v * v * (3 - (2 * v))) - encoded;
            var slope = 1 - Curve + (6 * Curve * v * (1 - v));
            v = Math.Clamp(v - (value / Math.Max(slope, 0.05)), 0, 1.2);
        }

        return v;
    }
}

namespace Dyewort.Colour;

/// <summary>Colour-difference formulas.</summary>
public static class Difference
{
    /// <summary>CIEDE2000 colour difference.</summary>
    /// <param name="first">A colour.</param>
    /// <param name="second">Another, under the same white and observer.</param>
    /// <param name="kL">Weight of lightness, 1 for reference conditions.</param>
    /// <param name="kC">Weight of chroma.</param>
    /// <param name="kH">Weight of hue.</param>
    /// <returns>ΔE₀₀ ≥ 0, no unit; NaN if a coordinate is NaN. Symmetric.</returns>
    /// <remarks>Fitted for differences below about 5; larger results rank colours but do not measure them.
    /// Where two hues lie exactly opposite, the mean hue jumps and the result with it; a tolerance of 1e-9° keeps the plain mean
    /// there, so that every platform gives the published value.
    /// Source: Sharma, Wu, Dalal 2005, doi:10.1002/col.20070, eqs. 2–22 [Sharma2005].</remarks>
    public static double Ciede2000(Lab first, Lab second, double kL = 1, double kC = 1, double kH = 1)
    {
        const double Pow25To7 = 6103515625;
        var c1 = first.Chroma;
        var c2 = second.Chroma;
        var cBar7 = Math.Pow((c1 + c2) / 2, 7);
        var g = 0.5 * (1 - Math.Sqrt(cBar7 / (cBar7 + Pow25To7)));
        var a1 = (1 + g) * first.A;
        var a2 = (1 + g) * second.A;
        var cp1 = Math.Sqrt((a1 * a1) + (first.B * first.B));
        var cp2 = Math.Sqrt((a2 * a2) + (second.B * second.B));
        var h1 = Hue(first.B, a1);
        var h2 = Hue(second.B, a2);

        var dL = second.L - first.L;
        var dC = cp2 - cp1;
        var product = cp1 * cp2;
        var dh = product == 0 ? 0 : h2 - h1;
        if (dh > 180 + 1e-9)
            dh -= 360;
        else if (dh < -180 - 1e-9)
            dh += 360;
        var dH = 2 * Math.Sqrt(product) * Math.Sin(Radians(dh / 2));

        var lBar = (first.L + second.L) / 2;
        var cBar = (cp1 + cp2) / 2;
        double hBar;
        if (product == 0)
            hBar = h1 + h2;
        else if (Math.Abs(h1 - h2) <= 180 + 1e-9)
            hBar = (h1 + h2) / 2;
        else
            hBar = h1 + h2 < 360 ? (h1 + h2 + 360) / 2 : (h1 + h2 - 360) / 2;

        var t =
            1
            - (0.17 * Math.Cos(Radians(hBar - 30)))
            + (0.24 * Math.Cos(Radians(2 * hBar)))
            + (0.32 * Math.Cos(Radians((3 * hBar) + 6)))
            - (0.20 * Math.Cos(Radians((4 * hBar) - 63)));
        var dTheta = 30 * Math.Exp(-Math.Pow((hBar - 275) / 25, 2));
        var cBarP7 = Math.Pow(cBar, 7);
        var rC = 2 * Math.Sqrt(cBarP7 / (cBarP7 + Pow25To7));
        var l50 = (lBar - 50) * (lBar - 50);
        var sL = 1 + (0.015 * l50 / Math.Sqrt(20 + l50));
        var sC = 1 + (0.045 * cBar);
        var sH = 1 + (0.015 * cBar * t);
        var rT = -Math.Sin(Radians(2 * dTheta)) * rC;
        var l = dL / (kL * sL);
        var c = dC / (kC * sC);
        var h = dH / (kH * sH);
        return Math.Sqrt(Math.Max(0, (l * l) + (c * c) + (h * h) + (rT * c * h)));
    }

    /// <summary>ΔE*ab, the plain distance in CIELAB (CIE 1976).</summary>
    /// <returns>≥ 0, no unit. Symmetric.</returns>
    /// <remarks>Source: CIE 15, section 8.2.1 [CIE15].</remarks>
    public static double Cie1976(Lab first, Lab second)
    {
        var (dL, da, db) = (second.L - first.L, second.A - first.A, second.B - first.B);
        return Math.Sqrt((dL * dL) + (da * da) + (db * db));
    }

    /// <summary>CMC(l:c) colour difference of a sample from a standard, as the textile trade uses it.</summary>
    /// <param name="standard">The standard: the weights are taken from it, so the formula is not symmetric.</param>
    /// <param name="sample">The sample.</param>
    /// <param name="l">Weight of lightness: 2 to judge acceptance, 1 to judge visibility.</param>
    /// <param name="c">Weight of chroma, 1.</param>
    /// <returns>≥ 0, no unit.</returns>
    /// <remarks>Source: ISO 105-J03 [ISO105-J03], after Clarke, McDonald and Rigg 1984 [Clarke1984].</remarks>
    public static double Cmc(Lab standard, Lab sample, double l = 2, double c = 1)
    {
        var (l1, c1, h1) = (standard.L, standard.Chroma, standard.HueDegrees);
        var (dL, dC, dH) = Split(standard, sample);
        var sL = l1 < 16 ? 0.511 : 0.040975 * l1 / (1 + (0.01765 * l1));
        var sC = (0.0638 * c1 / (1 + (0.0131 * c1))) + 0.638;
        var c4 = c1 * c1 * c1 * c1;
        var f = Math.Sqrt(c4 / (c4 + 1900));
        var t = h1 is >= 164 and <= 345
            ? 0.56 + Math.Abs(0.2 * Math.Cos(Radians(h1 + 168)))
            : 0.36 + Math.Abs(0.4 * Math.Cos(Radians(h1 + 35)));
        var sH = sC * ((f * t) + 1 - f);
        var (x, y, z) = (dL / (l * sL), dC / (c * sC), dH / sH);
        return Math.Sqrt((x * x) + (y * y) + (z * z));
    }

    /// <summary>A difference split into lightness, chroma and hue: ΔL*, ΔC*ab and ΔH*ab of the second colour against the first.</summary>
    /// <returns>Squares add up to that of <see cref="Cie1976"/>. ΔH is above 0 where the hue angle grows.</returns>
    /// <remarks>Source: CIE 15, section 8.2.1 [CIE15]; ΔH without cancellation as 2 √(C₁C₂) sin(Δh/2).</remarks>
    public static (double Lightness, double Chroma, double Hue) Split(Lab first, Lab second)
    {
        var turn = second.HueDegrees - first.HueDegrees;
        if (turn > 180)
            turn -= 360;
        else if (turn < -180)
            turn += 360;
        return (
            second.L - first.L,
            second.Chroma - first.Chroma,
            2 * Math.Sqrt(first.Chroma * second.Chroma) * Math.Sin(Radians(turn / 2))
        );
    }

    private static double Hue(double b, double a)
    {
        if (a == 0 && b == 0)
            return 0;
        var degrees = Math.Atan2(b, a) * 180 / Math.PI;
        return degrees < 0 ? degrees + 360 : degrees;
    }

    private static double Radians(double degrees) => degrees * Math.PI / 180;
}

namespace Dyewort.Colour;

/// <summary>A rating on the grey scales that textile fastness tests are judged with: 5 no change, down to 1, in half steps.</summary>
/// <param name="Difference">The difference the rating is made from: ΔE_F for a change in colour, ΔE_GS for staining.</param>
/// <param name="Rating">The unrounded rating, 1 to 5.</param>
/// <param name="Grade">The grade in half steps as it is written: 5, 4-5, 4 … 1.</param>
public sealed record GreyScale(double Difference, double Rating, string Grade)
{
    private static readonly string[] Grades = ["5", "4-5", "4", "3-4", "3", "2-3", "2", "1-2", "1"];
    private static readonly double[] ChangeBelow = [0.40, 1.25, 2.10, 2.95, 4.10, 5.80, 8.20, 11.60];
    private static readonly double[] StainingFrom = [4.75, 4.25, 3.75, 3.25, 2.75, 2.25, 1.75, 1.25];

    /// <summary>Rating of a change in colour (light, washing) by ISO 105-A05.</summary>
    /// <param name="before">CIELAB before the test. The standard asks for D65 and the 10° observer.</param>
    /// <param name="after">CIELAB after the test.</param>
    /// <remarks>The grade comes from the standard's table of ΔE_F; the formula, rounded to half grades, differs from it in narrow
    /// bands only. Mean hue, x, rating formula and clamp: seen in open code citing EN ISO 105-A05:1997; D, the two damping factors and
    /// ΔE_F: from memory of ISO 105-A05:1996. Neutral pairs give the grades of ISO 105-A02 exactly. Source: [ISO105-A05].</remarks>
    public static GreyScale Change(Lab before, Lab after)
    {
        var (dL, dC, dH) = Colour.Difference.Split(before, after);
        var (h0, h1) = (before.HueDegrees, after.HueDegrees);
        var meanChroma = (before.Chroma + after.Chroma) / 2;
        var meanHue = (h0 + h1) / 2;
        if (Math.Abs(h1 - h0) > 180)
            meanHue += h0 + h1 < 360 ? 180 : -180;
        var u = Math.Abs(meanHue - 280);
        var x = Math.Pow((u <= 180 ? u : 360 - u) / 30, 2);
        var d = dC * meanChroma * Math.Exp(-x) / 100;
        var cf = (dC - d) / (1 + Math.Pow(20 * meanChroma / 1000, 2));
        var hf = (dH - d) / (1 + Math.Pow(10 * meanChroma / 1000, 2));
        var f = Math.Sqrt((dL * dL) + (cf * cf) + (hf * hf));
        var rating = f <= 3.4 ? 5 - (f / 1.7) : 5 - Math.Log2(f / 0.85);
        var place = Array.FindIndex(ChangeBelow, limit => f < limit);
        return new(f, Math.Clamp(rating, 1, 5), Grades[place < 0 ? Grades.Length - 1 : place]);
    }

    /// <summary>Rating of staining of a white cloth or paper by ISO 105-A04.</summary>
    /// <param name="before">CIELAB of the clean cloth.</param>
    /// <param name="after">CIELAB of the stained cloth.</param>
    /// <remarks>ΔE_GS and the half-grade bands: seen in open code citing EN ISO 105-A04:1999; the rating formula: from memory; it gives the
    /// remembered grades of ISO 105-A03. Source: [ISO105-A04].</remarks>
    public static GreyScale Staining(Lab before, Lab after)
    {
        var e = Colour.Difference.Cie1976(before, after);
        var dL = after.L - before.L;
        var g = e - (0.4 * Math.Sqrt(Math.Max(0, (e * e) - (dL * dL))));
        var rating = g == 0 ? 5 : 6.1 - (1.45 * Math.Log(g));
        if (rating > 4)
            rating = 5 - (0.23 * g);
        rating = Math.Clamp(rating, 1, 5);
        var place = Array.FindIndex(StainingFrom, limit => rating >= limit);
        return new(g, rating, Grades[place < 0 ? Grades.Length - 1 : place]);
    }
}

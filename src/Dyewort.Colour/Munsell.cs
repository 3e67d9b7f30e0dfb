using Dyewort.Numerics;

namespace Dyewort.Colour;

/// <summary>Munsell notations and CIE values, both ways, by interpolating the renotation data.</summary>
/// <remarks><para>The data: 2734 real samples for illuminant C, 2° observer, whose Y is relative to magnesium oxide; ×0.975 makes it
/// relative to the perfect diffuser. Source: Newhall, Nickerson and Judd 1943, Table I [Newhall1943]; value and luminance between the
/// nine levels by the polynomial of ASTM D1535 [ASTMD1535], corrected by its (tiny) misfit at the levels.</para>
/// <para>Between samples the chromaticity is linear in chroma along a hue line (from the white point at chroma 0), in hue between
/// neighbouring hue lines, and in value between neighbouring levels. Beyond the strongest real sample of a line its last step is
/// continued straight; below value 1 and above value 9 the chromaticities of those levels are kept: both are our own extension, and
/// <see cref="IsWithinData"/> says where it is used. The map is continuous, so that it can be inverted everywhere it is
/// used.</para></remarks>
public static class Munsell
{
    private const double MagnesiumOxide = 0.975;
    private const int HueLines = 40;
    private static readonly Xyz White = WhitePoint.C;
    private static readonly double WhiteX = White.X / (White.X + White.Y + White.Z);
    private static readonly double WhiteY = White.Y / (White.X + White.Y + White.Z);

    /// <summary>[level 0–8, hue line 0–39] → chromaticities at chroma 0, 2, 4 …</summary>
    private static readonly (double X, double Y)[,][] Lines = Load(out LevelLuminance);

    /// <summary>Luminance factor at values 1 to 9, relative to the perfect diffuser.</summary>
    private static readonly double[] LevelLuminance;

    /// <summary>xyY of a notation under illuminant C, relative to the perfect diffuser.</summary>
    /// <param name="notation">Value 0 to 10.</param>
    public static Chromaticity ToChromaticity(MunsellNotation notation)
    {
        var (x, y) = At(notation.HueNumber, notation.Value, notation.Chroma);
        return new(x, y, Luminance(notation.Value));
    }

    /// <summary>XYZ under D65 of a notation: the renotation's colour, adapted from illuminant C by Bradford.</summary>
    public static Xyz ToXyz(MunsellNotation notation) => Adaptation.Bradford(ToChromaticity(notation).ToXyz(), White, WhitePoint.D65);

    /// <summary>The notation of XYZ under D65.</summary>
    public static MunsellNotation FromXyz(Xyz colour) =>
        FromChromaticity(Chromaticity.FromXyz(Adaptation.Bradford(colour, WhitePoint.D65, White), White));

    /// <summary>The notation of xyY under illuminant C, relative to the perfect diffuser: the inverse of
    /// <see cref="ToChromaticity"/>.</summary>
    /// <remarks>Luminance is held within 0 to 100. Solved by damped Newton steps in the plane of hue and chroma, from several
    /// starts.</remarks>
    public static MunsellNotation FromChromaticity(Chromaticity colour)
    {
        var value = ValueOf(Math.Clamp(colour.Luminance, 0, 100));
        if (value == 0)
            return default;
        var (dx, dy) = (colour.X - WhiteX, colour.Y - WhiteY);
        if ((dx * dx) + (dy * dy) < 1e-16)
            return new(0, value, 0);

        var lab = Lab.FromXyz(colour.ToXyz(), White);
        var best = (Error: double.PositiveInfinity, P: 0.0, Q: 0.0);
        foreach (var turn in (ReadOnlySpan<double>)[0, 0.35, -0.35, 0.8, -0.8, 1.6, -1.6, Math.PI])
        {
            foreach (var stretch in (ReadOnlySpan<double>)[1, 0.6, 1.6])
            {
                var angle = Math.Atan2(lab.B, lab.A) + turn;
                var radius = Math.Max(0.05, lab.Chroma / 5.5 * stretch);
                var found = Solve(value, colour.X, colour.Y, radius * Math.Cos(angle), radius * Math.Sin(angle));
                if (found.Error < best.Error)
                    best = found;
                if (best.Error < 1e-10)
                    return Notation(value, best.P, best.Q);
            }
        }

        return Notation(value, best.P, best.Q);
    }

    /// <summary>Whether a notation lies within the renotation's real samples, so that nothing was extended to find it.</summary>
    public static bool IsWithinData(MunsellNotation notation)
    {
        if (notation.Value is < 1 or > 9)
            return notation.IsNeutral && notation.Value is >= 0 and <= 10;
        var low = Math.Clamp((int)Math.Floor(notation.Value), 1, 8) - 1;
        var high = notation.Value == Math.Floor(notation.Value) ? (int)notation.Value - 1 : low + 1;
        var line = LinePosition(notation.HueNumber);
        var first = (int)Math.Floor(line) % HueLines;
        var second = line == Math.Floor(line) ? first : (first + 1) % HueLines;
        if (notation.Value == Math.Floor(notation.Value))
            low = high;
        return notation.Chroma
            <= Math.Min(Math.Min(Strongest(low, first), Strongest(low, second)), Math.Min(Strongest(high, first), Strongest(high, second)));
    }

    /// <summary>Luminance factor (perfect diffuser 100) of a Munsell value 0 to 10.</summary>
    public static double Luminance(double value)
    {
        var below = Math.Clamp((int)Math.Floor(value), 0, 9);
        var share = value - below;
        return Polynomial(value) + ((1 - share) * Misfit(below)) + (share * Misfit(below + 1));
    }

    /// <summary>Munsell value of a luminance factor 0 to 100: the inverse of <see cref="Luminance"/>.</summary>
    public static double ValueOf(double luminance)
    {
        if (luminance >= Luminance(10))
            return 10;
        // Nothing changes for 0 and below: the lower end is their answer.
        var value = Bisection.Narrow(0, 10, 1e-15, middle => Luminance(middle) < luminance).Middle;
        return value < 1e-12 ? 0 : value;
    }

    private static double Strongest(int level, int line) => 2 * (Lines[level, line].Length - 1);

    private static double Polynomial(double v) => v * (1.1914 + (v * (-0.22533 + (v * (0.23352 + (v * (-0.020484 + (v * 0.00081939))))))));

    private static double Misfit(int level) => level is 0 or 10 ? 0 : LevelLuminance[level - 1] - Polynomial(level);

    private static MunsellNotation Notation(double value, double p, double q)
    {
        var chroma = Math.Sqrt((p * p) + (q * q));
        var hue = Math.Atan2(q, p) / (2 * Math.PI) * 100;
        return chroma < 1e-9 ? new(0, value, 0) : new(hue <= 0 ? hue + 100 : hue, value, chroma);
    }

    private static (double Error, double P, double Q) Solve(double value, double x, double y, double p, double q)
    {
        var (ex, ey) = Miss(value, x, y, p, q);
        var error = Math.Sqrt((ex * ex) + (ey * ey));
        for (var round = 0; round < 60 && error > 1e-12; round++)
        {
            const double H = 1e-6;
            var (ax, ay) = Miss(value, x, y, p + H, q);
            var (bx, by) = Miss(value, x, y, p, q + H);
            var (j11, j12, j21, j22) = ((ax - ex) / H, (bx - ex) / H, (ay - ey) / H, (by - ey) / H);
            var determinant = (j11 * j22) - (j12 * j21);
            if (Math.Abs(determinant) < 1e-18)
                break;
            var (dp, dq) = (-((ex * j22) - (ey * j12)) / determinant, -((ey * j11) - (ex * j21)) / determinant);
            var step = 1.0;
            var better = false;
            for (var halving = 0; halving < 25; halving++, step /= 2)
            {
                var (nx, ny) = Miss(value, x, y, p + (step * dp), q + (step * dq));
                var now = Math.Sqrt((nx * nx) + (ny * ny));
                if (now >= error)
                    continue;
                (p, q, ex, ey, error, better) = (p + (step * dp), q + (step * dq), nx, ny, now, true);
                break;
            }

            if (!better)
                break;
        }

        return (error, p, q);
    }

    private static (double X, double Y) Miss(double value, double x, double y, double p, double q)
    {
        var (u, v) = At(Math.Atan2(q, p) / (2 * Math.PI) * 100, value, Math.Sqrt((p * p) + (q * q)));
        return (u - x, v - y);
    }

    private static (double X, double Y) At(double hueNumber, double value, double chroma)
    {
        var place = Math.Clamp(value, 1, 9) - 1;
        var low = Math.Min((int)Math.Floor(place), 7);
        var share = place - low;
        var (x0, y0) = OnLevel(low, hueNumber, chroma);
        if (share == 0)
            return (x0, y0);
        var (x1, y1) = OnLevel(low + 1, hueNumber, chroma);
        return (x0 + (share * (x1 - x0)), y0 + (share * (y1 - y0)));
    }

    private static (double X, double Y) OnLevel(int level, double hueNumber, double chroma)
    {
        var line = LinePosition(hueNumber);
        var first = (int)Math.Floor(line);
        var share = line - first;
        var (x0, y0) = OnLine(Lines[level, first % HueLines], chroma);
        if (share == 0)
            return (x0, y0);
        var (x1, y1) = OnLine(Lines[level, (first + 1) % HueLines], chroma);
        return (x0 + (share * (x1 - x0)), y0 + (share * (y1 - y0)));
    }

    private static (double X, double Y) OnLine((double X, double Y)[] line, double chroma)
    {
        var place = chroma / 2;
        var first = Math.Min((int)Math.Floor(place), line.Length - 2);
        var share = place - first;
        var (a, b) = (line[first], line[first + 1]);
        return (a.X + (share * (b.X - a.X)), a.Y + (share * (b.Y - a.Y)));
    }

    /// <summary>Place among the hue lines: 2.5R is 0, 5R is 1 … 10RP is 39.</summary>
    private static double LinePosition(double hueNumber)
    {
        var place = (hueNumber / 2.5) - 1;
        place -= HueLines * Math.Floor(place / HueLines);
        return place >= HueLines ? 0 : place;
    }

    private static (double X, double Y)[,][] Load(out double[] luminance)
    {
        var lines = new List<(double X, double Y)>[9, HueLines];
        luminance = new double[9];
        foreach (var row in TextTable.Embedded(typeof(Munsell), "munsell.csv").Rows)
        {
            var level = (int)row.NumberOf("value") - 1;
            var text = row["hue"];
            if (!MunsellNotation.Parse("hue", $"{text} 5/2").TryGet(out var hue))
                throw new InvalidOperationException($"Not a hue: {text}.");
            var line = (int)Math.Round(LinePosition(hue.HueNumber)) % HueLines;
            var list = lines[level, line] ??= [(WhiteX, WhiteY)];
            var place = (int)row.NumberOf("chroma") / 2;
            if (place != list.Count)
                throw new InvalidOperationException($"Chroma {row["chroma"]} of {text} {row["value"]} is out of order.");
            list.Add((row.NumberOf("x"), row.NumberOf("y")));
            luminance[level] = MagnesiumOxide * row.NumberOf("luminance");
        }

        var arrays = new (double X, double Y)[9, HueLines][];
        for (var level = 0; level < 9; level++)
        {
            for (var line = 0; line < HueLines; line++)
                arrays[level, line] = [.. lines[level, line]];
        }

        return arrays;
    }
}

using System.Globalization;
using Dyewort.Numerics;
using Dyewort.Quantities;

namespace Dyewort.Colour;

/// <summary>A colour as CSS Color 4 writes it.</summary>
/// <param name="Colour">Under D65.</param>
/// <param name="Alpha">Opacity, 0 to 1.</param>
/// <remarks>Reads names, hex, rgb, hsl, hwb, lab, lch, oklab, oklch and color(…), legacy and modern, with percentages, angles in
/// deg, grad, rad, turn, and none (taken as 0). CSS lab and lch are relative to D50 and are adapted by Bradford, as CSS says.
/// <c>color(--lab-d65 L a b)</c>, in the form CSS leaves to programs, is CIELAB as this program shows it.
/// Source: CSS Color Module Level 4 [CSS4].</remarks>
public sealed record CssColour(Xyz Colour, double Alpha)
{
    private static readonly Dictionary<string, string> Names = TextTable
        .Embedded(typeof(CssColour), "css-names.csv")
        .Rows.ToDictionary(row => row["name"], row => row["hex"], StringComparer.Ordinal);

    private static readonly Dictionary<string, RgbSpace> Spaces = new[]
    {
        RgbSpace.Srgb,
        RgbSpace.DisplayP3,
        RgbSpace.A98,
        RgbSpace.ProPhoto,
        RgbSpace.Rec2020,
    }.ToDictionary(space => space.Name, StringComparer.Ordinal);

    private static readonly HashSet<string> Functions = new(StringComparer.Ordinal)
    {
        "rgb",
        "rgba",
        "hsl",
        "hsla",
        "hwb",
        "lab",
        "lch",
        "oklab",
        "oklch",
        "color",
    };

    /// <summary>Whether a text is meant as CSS: a hash, a function, or one of its colour names.</summary>
    public static bool LooksLike(string text)
    {
        ArgumentNullException.ThrowIfNull(text);
        var trimmed = text.Trim();
        return trimmed.StartsWith('#') || trimmed.Contains('(', StringComparison.Ordinal) || Names.ContainsKey(trimmed.ToLowerInvariant());
    }

    /// <summary>Reads a colour.</summary>
    /// <param name="field">The field or option to name in a refusal.</param>
    /// <param name="text">What was typed.</param>
    public static Outcome<CssColour> Parse(string field, string? text)
    {
        var typed = (text ?? "").Trim();
        var lower = typed.ToLowerInvariant();
        if (Names.TryGetValue(lower, out var hex))
            return Hex(field, typed, hex);
        if (lower.StartsWith('#'))
            return Hex(field, typed, lower[1..]);
        var open = lower.IndexOf('(', StringComparison.Ordinal);
        if (open <= 0 || !lower.EndsWith(')'))
            return Refuse(field, typed, "Write a hex code such as #5b3f7a, or a function such as lab(40 20 -30).");
        var function = lower[..open].Trim();
        if (!Functions.Contains(function))
            return Refuse(field, typed, $"Use one of {string.Join(", ", Functions.Order(StringComparer.Ordinal))}.");
        return new Reader(field, typed, function, lower[(open + 1)..^1]).Read();
    }

    /// <summary>A colour as <c>#rrggbb</c>, mapped into sRGB where it lies outside.</summary>
    public static string Hex(Xyz colour) => SrgbChip.Of(colour).Hex;

    /// <summary>A colour as <c>rgb(91 63 122)</c>, mapped into sRGB where it lies outside.</summary>
    public static string RgbText(Xyz colour)
    {
        var (r, g, b) = SrgbChip.Of(colour).Bytes;
        return string.Create(CultureInfo.InvariantCulture, $"rgb({r} {g} {b})");
    }

    /// <summary>A colour as CSS <c>lab(…)</c>: D50, as CSS demands.</summary>
    public static string LabText(Xyz colour)
    {
        var lab = Lab.FromXyz(Adaptation.ToD50(colour), WhitePoint.D50);
        return $"lab({Number(lab.L, 3)} {Number(lab.A, 3)} {Number(lab.B, 3)})";
    }

    /// <summary>A colour as CSS <c>lch(…)</c>: D50, as CSS demands.</summary>
    public static string LchText(Xyz colour)
    {
        var lch = Lch.FromLab(Lab.FromXyz(Adaptation.ToD50(colour), WhitePoint.D50));
        return $"lch({Number(lch.L, 3)} {Number(lch.C, 3)} {Number(lch.HueDegrees, 3)})";
    }

    /// <summary>A colour as <c>oklab(…)</c>.</summary>
    public static string OklabText(Xyz colour)
    {
        var ok = Oklab.FromXyz(colour);
        return $"oklab({Number(ok.L, 5)} {Number(ok.A, 5)} {Number(ok.B, 5)})";
    }

    /// <summary>A colour as <c>oklch(…)</c>.</summary>
    public static string OklchText(Xyz colour)
    {
        var ok = Oklab.FromXyz(colour);
        return $"oklch({Number(ok.L, 5)} {Number(ok.Chroma, 5)} {Number(ok.HueDegrees, 3)})";
    }

    /// <summary>A colour as <c>color(display-p3 …)</c>, unmapped: components outside 0 to 1 say that the space cannot show it.</summary>
    public static string ColorText(Xyz colour, RgbSpace space)
    {
        ArgumentNullException.ThrowIfNull(space);
        var rgb = space.FromXyz(colour);
        return $"color({space.Name} {Number(rgb.R, 5)} {Number(rgb.G, 5)} {Number(rgb.B, 5)})";
    }

    private static string Number(double value, int decimals)
    {
        var rounded = Math.Round(value, decimals);
        return (rounded == 0 ? 0 : rounded).ToString("0." + new string('#', decimals), CultureInfo.InvariantCulture);
    }

    private static Outcome<CssColour> Refuse(string field, string typed, string remedy) =>
        Outcome.Refused<CssColour>(field, $"“{typed}” is not a CSS colour.", remedy);

    private static Outcome<CssColour> Hex(string field, string typed, string digits)
    {
        if (digits.Length is not (3 or 4 or 6 or 8) || !digits.All(char.IsAsciiHexDigit))
            return Refuse(field, typed, "A hex code has 3, 4, 6 or 8 digits from 0 to f, such as #5b3f7a.");
        var full = digits.Length <= 4 ? string.Concat(digits.Select(digit => new string(digit, 2))) : digits;
        double Byte(int place) => int.Parse(full.AsSpan(place, 2), NumberStyles.HexNumber, CultureInfo.InvariantCulture) / 255.0;
        var rgb = new Rgb(Byte(0), Byte(2), Byte(4));
        return Outcome.Of(new CssColour(RgbSpace.Srgb.ToXyz(rgb), full.Length == 8 ? Byte(6) : 1));
    }

    private enum Unit
    {
        Number,
        Percent,
        Degrees,
    }

    private readonly record struct Part(double Value, Unit Unit)
    {
        /// <summary>The number, a percentage being that share of the reference.</summary>
        public double Of(double reference) => Unit == Unit.Percent ? Value / 100 * reference : Value;
    }

    private sealed class Reader(string field, string typed, string function, string inside)
    {
        private string? wrong;

        public Outcome<CssColour> Read()
        {
            var (body, alphaText) = Split();
            string? space = null;
            if (function == "color")
            {
                var words = body.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries);
                space = words.FirstOrDefault() ?? "";
                body = string.Join(' ', words.Skip(1));
            }

            var texts = body.Split(
                body.Contains(',', StringComparison.Ordinal) ? [','] : [' ', '\t', '\n', '\r'],
                StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries
            );
            if (
                body.Contains(',', StringComparison.Ordinal)
                && texts.Length == 4
                && alphaText is null
                && function is not ("lab" or "lch" or "oklab" or "oklch" or "color")
            )
                (alphaText, texts) = (texts[3], texts[..3]);
            if (texts.Length != 3)
                return Refuse(
                    field,
                    typed,
                    $"{function}(…) takes three components{(function == "color" ? " after the name of the space" : "")}."
                );

            var parts = Array.ConvertAll(texts, ReadPart);
            var alpha = alphaText is null ? new Part(1, Unit.Number) : ReadPart(alphaText);
            if (wrong is not null)
                return Refuse(field, typed, $"“{wrong}” in it is not a number, a percentage or an angle.");
            for (var i = 0; i < 3; i++)
            {
                var hue = (function is "hsl" or "hsla" or "hwb" && i == 0) || (function is "lch" or "oklch" && i == 2);
                if (parts[i].Unit == Unit.Degrees && !hue)
                    return Refuse(field, typed, $"“{texts[i]}” is an angle, and {function}(…) takes none there.");
                if (parts[i].Unit == Unit.Percent && hue)
                    return Refuse(field, typed, "A hue is an angle, not a percentage.");
            }

            return Convert(space, parts) is { } colour
                ? Outcome.Of(new CssColour(colour, Math.Clamp(alpha.Of(1), 0, 1)))
                : Refuse(
                    field,
                    typed,
                    $"Spaces for color(…) are {string.Join(", ", Spaces.Keys.Order(StringComparer.Ordinal))}, srgb-linear, xyz, "
                        + $"xyz-d50, xyz-d65 and --lab-d65."
                );
        }

        private (string Body, string? Alpha) Split()
        {
            var slash = inside.IndexOf('/', StringComparison.Ordinal);
            return slash < 0 ? (inside, null) : (inside[..slash], inside[(slash + 1)..].Trim());
        }

        private Part ReadPart(string text)
        {
            if (text == "none")
                return new(0, Unit.Number);
            foreach (
                var (suffix, unit, factor) in new[]
                {
                    ("%", Unit.Percent, 1),
                    ("deg", Unit.Degrees, 1),
                    ("grad", Unit.Degrees, 0.9),
                    ("rad", Unit.Degrees, 180 / Math.PI),
                    ("turn", Unit.Degrees, 360),
                }
            )
            {
                if (text.EndsWith(suffix, StringComparison.Ordinal) && Try(text[..^suffix.Length], out var value))
                    return new(value * factor, unit);
            }

            if (Try(text, out var number))
                return new(number, Unit.Number);
            wrong ??= text;
            return default;
        }

        private static bool Try(string text, out double value) =>
            double.TryParse(
                text,
                NumberStyles.AllowLeadingSign | NumberStyles.AllowDecimalPoint | NumberStyles.AllowExponent,
                CultureInfo.InvariantCulture,
                out value
            ) && double.IsFinite(value);

        private Xyz? Convert(string? space, Part[] parts)
        {
            double P(int i, double reference) => parts[i].Of(reference);
            switch (function)
            {
                case "rgb" or "rgba":
                    return RgbSpace.Srgb.ToXyz(new Rgb(P(0, 255) / 255, P(1, 255) / 255, P(2, 255) / 255).Clipped());
                case "hsl" or "hsla":
                    return RgbSpace.Srgb.ToXyz(Hsl(P(0, 0), Math.Max(0, P(1, 100)) / 100, P(2, 100) / 100).Clipped());
                case "hwb":
                    return RgbSpace.Srgb.ToXyz(Hwb(P(0, 0), P(1, 100) / 100, P(2, 100) / 100).Clipped());
                case "lab":
                    return Adaptation.FromD50(new Lab(Math.Clamp(P(0, 100), 0, 100), P(1, 125), P(2, 125)).ToXyz(WhitePoint.D50));
                case "lch":
                    return Adaptation.FromD50(
                        new Lch(Math.Clamp(P(0, 100), 0, 100), Math.Max(0, P(1, 150)), P(2, 0)).ToLab().ToXyz(WhitePoint.D50)
                    );
                case "oklab":
                    return new Oklab(Math.Clamp(P(0, 1), 0, 1), P(1, 0.4), P(2, 0.4)).ToXyz();
                case "oklch":
                    return Oklab.FromLch(Math.Clamp(P(0, 1), 0, 1), Math.Max(0, P(1, 0.4)), P(2, 0)).ToXyz();
                default:
                    if (space == "--lab-d65")
                        return new Lab(P(0, 100), P(1, 125), P(2, 125)).ToXyz();
                    if (space == "srgb-linear")
                        return RgbSpace.Srgb.LinearToXyz(new(P(0, 1), P(1, 1), P(2, 1)));
                    if (space is "xyz" or "xyz-d65")
                        return new Xyz(P(0, 1), P(1, 1), P(2, 1)) * 100;
                    if (space is "xyz-d50")
                        return Adaptation.FromD50(new Xyz(P(0, 1), P(1, 1), P(2, 1)) * 100);
                    return space is not null && Spaces.TryGetValue(space, out var rgb) ? rgb.ToXyz(new(P(0, 1), P(1, 1), P(2, 1))) : null;
            }
        }

        /// <summary>CSS Color 4, section 7.1, sample code.</summary>
        private static Rgb Hsl(double hue, double saturation, double lightness)
        {
            double F(double n)
            {
                var k = (n + (hue / 30)) % 12;
                if (k < 0)
                    k += 12;
                var a = saturation * Math.Min(lightness, 1 - lightness);
                return lightness - (a * Math.Max(-1, Math.Min(k - 3, Math.Min(9 - k, 1))));
            }

            return new(F(0), F(8), F(4));
        }

        /// <summary>CSS Color 4, section 8.1, sample code.</summary>
        private static Rgb Hwb(double hue, double white, double black)
        {
            if (white + black >= 1)
            {
                var grey = white / (white + black);
                return new(grey, grey, grey);
            }

            var pure = Hsl(hue, 1, 0.5);
            double Mix(double channel) => (channel * (1 - white - black)) + white;
            return new(Mix(pure.R), Mix(pure.G), Mix(pure.B));
        }
    }
}

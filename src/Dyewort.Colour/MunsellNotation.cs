using System.Globalization;
using System.Text.RegularExpressions;
using Dyewort.Quantities;

namespace Dyewort.Colour;

/// <summary>A Munsell notation such as 5P 4/8: hue, value (lightness) and chroma.</summary>
/// <param name="HueNumber">Hue on the scale of 100: above 0 to 100, where 5 is 5R, 15 is 5YR … 95 is 5RP; 0 for neutrals.</param>
/// <param name="Value">0 black to 10 white.</param>
/// <param name="Chroma">≥ 0; 0 is neutral.</param>
/// <remarks>Source of the notation: Newhall, Nickerson and Judd 1943 [Newhall1943]; the hue scale is that of ASTM D1535
/// [ASTMD1535].</remarks>
public readonly partial record struct MunsellNotation(double HueNumber, double Value, double Chroma)
{
    private static readonly string[] Families = ["R", "YR", "Y", "GY", "G", "BG", "B", "PB", "P", "RP"];

    /// <summary>Whether it has no hue: chroma below 0.05, which would print as 0.0.</summary>
    public bool IsNeutral => Chroma < 0.05;

    /// <summary>As printed in the trade, one decimal where it needs one: 5P 4/8, 2.5YR 6.5/10, N 5/.</summary>
    public override string ToString()
    {
        if (IsNeutral)
            return string.Create(CultureInfo.InvariantCulture, $"N {Value:0.#}/");
        var step = Math.Round(HueNumber, 1);
        if (step <= 0)
            step += 100;
        var family = (int)Math.Floor((step - 0.05) / 10) % 10;
        return string.Create(CultureInfo.InvariantCulture, $"{step - (10 * family):0.#}{Families[family]} {Value:0.#}/{Chroma:0.#}");
    }

    /// <summary>Whether a text looks meant as a Munsell notation, so that its refusal should talk about Munsell.</summary>
    internal static bool LooksLike(string text) => Loose().IsMatch(text);

    /// <summary>Reads a notation; spaces and case do not matter.</summary>
    public static Outcome<MunsellNotation> Parse(string field, string? text)
    {
        var match = Strict().Match(text ?? "");
        if (!match.Success)
            return Outcome.Refused<MunsellNotation>(
                field,
                $"“{text}” is not a Munsell notation.",
                "Write hue, value and chroma such as 5P 4/8, or N 5/ for a grey."
            );
        double Part(string name) => double.Parse(match.Groups[name].ValueSpan, NumberStyles.Float, CultureInfo.InvariantCulture);
        var value = Part("value");
        if (value > 10)
            return Outcome.Refused<MunsellNotation>(
                field,
                $"Munsell value {value} in “{text}” is above 10.",
                "Values run from 0 (black) to 10 (white)."
            );
        if (match.Groups["neutral"].Success)
            return Outcome.Of(new MunsellNotation(0, value, 0));
        var step = Part("step");
        if (step > 10)
            return Outcome.Refused<MunsellNotation>(
                field,
                $"Hue step {step} in “{text}” is above 10.",
                "Steps within a hue run from 0 to 10, such as 2.5R or 7.5R."
            );
        var chroma = Part("chroma");
        if (chroma > 50)
            return Outcome.Refused<MunsellNotation>(
                field,
                $"Munsell chroma {chroma} in “{text}” is above 50.",
                "The strongest real surface colours stay below 40."
            );
        if (chroma == 0)
            return Outcome.Of(new MunsellNotation(0, value, 0));
        var number = (10 * Array.IndexOf(Families, match.Groups["family"].Value.ToUpperInvariant())) + step;
        return Outcome.Of(new MunsellNotation(number == 0 ? 100 : number, value, chroma));
    }

    [GeneratedRegex(
        @"^\s*(?:(?<neutral>N)\s*(?<value>\d+(\.\d+)?)\s*/?\s*0?"
            + @"|(?<step>\d+(\.\d+)?)\s*(?<family>RP|YR|GY|BG|PB|R|Y|G|B|P)\s*(?<value>\d+(\.\d+)?)\s*/\s*(?<chroma>\d+(\.\d+)?))\s*$",
        RegexOptions.IgnoreCase | RegexOptions.CultureInvariant | RegexOptions.ExplicitCapture
    )]
    private static partial Regex Strict();

    [GeneratedRegex(
        @"^\s*([\d.]*\s*(RP|YR|GY|BG|PB|R|Y|G|B|P)\s*[\d.]+\s*/|N\s*[\d.]+)",
        RegexOptions.IgnoreCase | RegexOptions.CultureInvariant | RegexOptions.ExplicitCapture
    )]
    private static partial Regex Loose();
}

using System.Globalization;
using System.Text;

namespace Dyewort.Workshop.Chemistry;

/// <summary>A small picture of a pH on a ladder from 1 to 14, with its interval; greys only, and its meaning in words for those who cannot
/// see it.</summary>
public static class PhLadder
{
    private const double Width = 320;
    private const double Left = 10;
    private const double Right = 310;
    private const double Base = 34;

    /// <summary>An SVG element to set into a page: 320 units wide, scales with its box.</summary>
    public static string Svg(JarWords words)
    {
        ArgumentNullException.ThrowIfNull(words);
        var svg = new StringBuilder();
        svg.Append("<svg class=\"ph-ladder\" viewBox=\"0 0 320 62\" role=\"img\" xmlns=\"http://www.w3.org/2000/svg\">");
        svg.Append(
            words.IsPhKnown
                ? Say($"<title>pH {words.Ph:0.0}, between {words.PhLow:0.0} and {words.PhHigh:0.0}; nearest: {Nearest(words.Ph)}</title>")
                : "<title>pH not known</title>"
        );
        svg.Append(Say($"<line x1=\"{Left}\" y1=\"{Base}\" x2=\"{Right}\" y2=\"{Base}\" stroke=\"currentColor\" stroke-width=\"1\"/>"));
        for (var ph = 1; ph <= 14; ph++)
        {
            svg.Append(
                Say(
                    $"<line x1=\"{At(ph):0.#}\" y1=\"{Base}\" x2=\"{At(ph):0.#}\" y2=\"{Base + (ph == 7 ? 8 : 4)}\" ",
                    $"stroke=\"currentColor\" stroke-width=\"1\"/>"
                )
            );
            svg.Append(
                Say($"<text x=\"{At(ph):0.#}\" y=\"{Base + 18}\" font-size=\"10\" text-anchor=\"middle\" fill=\"currentColor\">{ph}</text>")
            );
        }

        var (low, high) = (At(words.PhLow), At(words.PhHigh));
        svg.Append(
            Say(
                $"<rect x=\"{low:0.#}\" y=\"{Base - 12}\" width=\"{Math.Max(high - low, 1):0.#}\" height=\"8\" rx=\"4\" ",
                $"fill=\"currentColor\" opacity=\"0.3\"/>"
            )
        );
        if (!words.IsPhKnown)
            return svg.Append("</svg>").ToString();
        svg.Append(Say($"<circle cx=\"{At(words.Ph):0.#}\" cy=\"{Base - 8}\" r=\"5\" fill=\"currentColor\"/>"));
        svg.Append(
            Say(
                $"<text x=\"{Math.Clamp(At(words.Ph), 30, Width - 30):0.#}\" y=\"14\" font-size=\"12\" text-anchor=\"middle\" ",
                $"fill=\"currentColor\">pH {words.Ph:0.0}</text>"
            )
        );
        svg.Append("</svg>");
        return svg.ToString();
    }

    /// <summary>The everyday thing nearest to a pH.</summary>
    public static string Nearest(double ph) => JarWords.Rungs.MinBy(rung => Math.Abs(rung.Ph - ph)).Like;

    private static double At(double ph) => Left + ((Math.Clamp(ph, 1, 14) - 1) / 13 * (Right - Left));

    private static string Say(params FormattableString[] parts) =>
        string.Concat(parts.Select(part => part.ToString(CultureInfo.InvariantCulture)));
}

using System.Globalization;
using Dyewort.Quantities;

namespace Dyewort.Colour;

/// <summary>A colour as a person types it: a CSS colour, a Munsell notation, an ISCC–NBS name, or L*, a*, b*.</summary>
/// <param name="Colour">Under D65.</param>
/// <param name="ReadAs">How the text was understood, such as “Munsell notation 5P 4/8”.</param>
public sealed record ColourText(Xyz Colour, string ReadAs)
{
    /// <summary>Reads a colour.</summary>
    /// <param name="field">The field or option to name in a refusal.</param>
    /// <param name="text">What was typed. Names that CSS and ISCC–NBS share (black, white) are CSS's. Three numbers with commas are
    /// CIELAB under D65.</param>
    public static Outcome<ColourText> Parse(string field, string? text)
    {
        var typed = (text ?? "").Trim();
        if (typed.Length == 0)
            return Outcome.Refused<ColourText>(
                field,
                "No colour was given.",
                "Type a colour such as #5b3f7a, 5P 4/8 or “dark grayish purple”."
            );
        if (typed.Length > 200)
            return Outcome.Refused<ColourText>(
                field,
                "That is too long for a colour.",
                "Type a colour such as #5b3f7a, 5P 4/8 or “dark grayish purple”."
            );

        if (CssColour.LooksLike(typed))
        {
            var css = CssColour.Parse(field, typed);
            if (!css.TryGet(out var colour))
                return Outcome.Refused<ColourText>(css.Problems);
            if (colour.Alpha < 1)
                return Outcome.Refused<ColourText>(
                    field,
                    $"“{typed}” lets what lies under it show through, so it is no colour by itself.",
                    "Leave its alpha out."
                );
            return Check(field, typed, colour.Colour, $"CSS colour {typed}");
        }

        if (MunsellNotation.LooksLike(typed))
        {
            var munsell = MunsellNotation.Parse(field, typed);
            return munsell.TryGet(out var notation)
                ? Check(field, typed, Munsell.ToXyz(notation), $"Munsell notation {notation}")
                : Outcome.Refused<ColourText>(munsell.Problems);
        }

        if (ColourName.Find(typed) is { } name)
            return Outcome.Of(new ColourText(Munsell.ToXyz(name.Centre), $"centre of ISCC–NBS {name.Number}, {name.Name}"));
        if (Triple(typed) is { } lab)
            return Check(field, typed, lab.ToXyz(), "CIELAB under D65");

        var near = Nearest(typed);
        return Outcome.Refused<ColourText>(
            field,
            $"“{typed}” is not a colour that can be read.",
            near is null
                ? "Type a CSS colour (#5b3f7a), a Munsell notation (5P 4/8) or an ISCC–NBS name (dark grayish purple)."
                : $"Did you mean “{near}”?"
        );
    }

    private static Outcome<ColourText> Check(string field, string typed, Xyz colour, string readAs)
    {
        var lab = Lab.FromXyz(colour);
        return
            double.IsFinite(lab.L)
            && double.IsFinite(lab.A)
            && double.IsFinite(lab.B)
            && Math.Abs(lab.A) < 500
            && Math.Abs(lab.B) < 500
            && lab.L is > -1 and < 150
            ? Outcome.Of(new ColourText(colour, readAs))
            : Outcome.Refused<ColourText>(field, $"“{typed}” lies far outside every colour a surface can have.", "Check its numbers.");
    }

    private static Lab? Triple(string typed)
    {
        var parts = typed.Split(',');
        if (parts.Length != 3)
            return null;
        var values = new double[3];
        for (var i = 0; i < 3; i++)
        {
            if (!double.TryParse(parts[i], NumberStyles.Float, CultureInfo.InvariantCulture, out values[i]))
                return null;
        }

        return values[0] is >= 0 and <= 100 ? new(values[0], values[1], values[2]) : null;
    }

    /// <summary>The ISCC–NBS name one or two typing mistakes away, if there is exactly one nearest.</summary>
    private static string? Nearest(string typed)
    {
        var wanted = ColourName.Normal(typed);
        if (wanted.Length is < 4 or > 40)
            return null;
        var ranked = ColourName
            .All.Select(name => (name.Name, Distance: Edits(wanted, name.Name)))
            .OrderBy(pair => pair.Distance)
            .ThenBy(pair => pair.Name, StringComparer.Ordinal)
            .First();
        return ranked.Distance <= 2 ? ranked.Name : null;
    }

    private static int Edits(string a, string b)
    {
        var row = new int[b.Length + 1];
        for (var j = 0; j <= b.Length; j++)
            row[j] = j;
        for (var i = 1; i <= a.Length; i++)
        {
            var diagonal = row[0];
            row[0] = i;
            for (var j = 1; j <= b.Length; j++)
            {
                var above = row[j];
                row[j] = Math.Min(Math.Min(row[j] + 1, row[j - 1] + 1), diagonal + (a[i - 1] == b[j - 1] ? 0 : 1));
                diagonal = above;
            }
        }

        return row[b.Length];
    }
}

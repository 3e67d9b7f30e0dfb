using System.Globalization;
using Dyewort.Colour;

namespace Dyewort.Workshop.Readings;

/// <summary>CIELAB figures as an instrument shows them and a person types them.</summary>
internal static class TypedLab
{
    /// <summary>Reads "41.2 12.5 -20.1", with commas or blanks between; D65 comes out.</summary>
    /// <param name="entered">Takes the problems.</param>
    /// <param name="field">The field.</param>
    /// <param name="text">What was typed.</param>
    /// <param name="d50">True where the figures are for illuminant D50.</param>
    /// <returns>Null where it cannot be read; the problem is noted.</returns>
    public static Lab? Read(Entered entered, string field, string text, bool d50)
    {
        var parts = text.Split([' ', ',', ';', '\t', '/'], StringSplitOptions.RemoveEmptyEntries);
        var numbers = new double[3];
        var sound = parts.Length == 3;
        for (var i = 0; sound && i < 3; i++)
            sound = double.TryParse(
                parts[i].Replace('−', '-'),
                NumberStyles.AllowDecimalPoint | NumberStyles.AllowLeadingSign,
                CultureInfo.InvariantCulture,
                out numbers[i]
            );
        if (!sound || numbers[0] is not (>= 0 and <= 110) || Math.Abs(numbers[1]) > 150 || Math.Abs(numbers[2]) > 150)
        {
            entered.Refuse(
                field,
                $"“{(text.Length > 40 ? text[..40] + "…" : text)}” are not L*, a* and b*.",
                "Type three numbers with blanks between, such as 41.2 12.5 -20.1."
            );
            return null;
        }

        var lab = new Lab(numbers[0], numbers[1], numbers[2]);
        return d50 ? Adaptation.LabFromD50(lab) : lab;
    }

    /// <summary>Reads the choice of illuminant: true for D50.</summary>
    public static bool IsD50(Entered entered, string field, string? text)
    {
        if (text is "D50" or "D65")
            return text == "D50";
        entered.Refuse(
            field,
            "It was not said for which light the figures are.",
            "Choose D50 or D65; the instrument says it beside the figures."
        );
        return false;
    }
}

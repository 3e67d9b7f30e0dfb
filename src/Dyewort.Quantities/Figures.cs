using System.Globalization;

namespace Dyewort.Quantities;

/// <summary>Numbers as a recipe says them; the decimal sign is always a point.</summary>
public static class Figures
{
    private static readonly (double Value, string Sign)[] Fractions =
    [
        (1.0 / 8, "⅛"),
        (1.0 / 4, "¼"),
        (1.0 / 3, "⅓"),
        (3.0 / 8, "⅜"),
        (1.0 / 2, "½"),
        (5.0 / 8, "⅝"),
        (2.0 / 3, "⅔"),
        (3.0 / 4, "¾"),
        (7.0 / 8, "⅞"),
    ];

    /// <summary>A number as people write it: <c>1.5</c>, <c>1,5</c>, <c>½</c>, <c>1 1/2</c>, <c>−3</c>.</summary>
    /// <param name="text">What was typed.</param>
    /// <param name="most">The most that would make sense; <c>1,500</c> is one and a half where fifteen hundred would not.</param>
    /// <returns>Null for what is no number, and for what could be two.</returns>
    public static double? Read(string? text, double most = double.PositiveInfinity)
    {
        var typed = (text ?? "").Trim();
        var below = typed.StartsWith('-') || typed.StartsWith('−');
        var rest = below || typed.StartsWith('+') ? typed[1..].TrimStart() : typed;
        if (rest.Length == 0 || rest[0] is '+' or '-' or '−')
            return null;
        double number;
        if (IsThousands(rest))
        {
            if (double.Parse(rest.Replace(",", "", StringComparison.Ordinal), CultureInfo.InvariantCulture) <= most)
                return null;
            number = double.Parse(rest.Replace(',', '.'), CultureInfo.InvariantCulture);
        }
        else if (AmountText.Lead("", rest, "").TryGet(out var lead) && lead.After.Count == 0)
            number = lead.Number;
        else
            return null;
        return below ? -number : number;
    }

    /// <summary>True for a number such as <c>1,500</c>, which is fifteen hundred to one reader and one and a half to the next.</summary>
    public static bool IsThousands(string? text) =>
        (text ?? "").Trim().Split(',') is [{ Length: >= 1 and <= 3 } thousands, { Length: 3 } hundreds]
        && thousands[0] != '0'
        && (thousands + hundreds).All(char.IsAsciiDigit);

    /// <summary>A number to so many significant figures, without trailing zeros and without an exponent: 24.4, 0.05, 1350.</summary>
    /// <param name="number">Any finite number.</param>
    /// <param name="figures">1 to 15.</param>
    public static string Say(double number, int figures = 3)
    {
        if (number == 0)
            return "0";
        var decimals = figures - 1 - (int)Math.Floor(Math.Log10(Math.Abs(number)));
        if (decimals < 0)
        {
            var step = Math.Pow(10, -decimals);
            return (Math.Round(number / step, MidpointRounding.AwayFromZero) * step).ToString("0", CultureInfo.InvariantCulture);
        }

        return Math.Round(number, Math.Min(decimals, 15), MidpointRounding.AwayFromZero)
            .ToString("0.###############", CultureInfo.InvariantCulture);
    }

    /// <summary>A number of spoons or cups: <c>½</c>, <c>1½</c>, <c>2</c>; a number that is no eighth or third comes as a
    /// decimal.</summary>
    /// <param name="number">Zero or more.</param>
    public static string SayFraction(double number)
    {
        var whole = Math.Floor(number + 1e-6);
        var rest = number - whole;
        if (Math.Abs(rest) < 1e-6)
            return whole.ToString("0", CultureInfo.InvariantCulture);
        foreach (var (value, sign) in Fractions)
        {
            if (Math.Abs(rest - value) < 1e-6)
                return whole == 0 ? sign : whole.ToString("0", CultureInfo.InvariantCulture) + sign;
        }

        return Say(number);
    }
}

using System.Globalization;
using System.Text.RegularExpressions;
using Dyewort.Quantities;

namespace Dyewort.Readings;

/// <summary>A page to print on, in millimetres.</summary>
/// <param name="Name">What people call it: “A5”, or “120 × 180 mm”.</param>
/// <param name="WidthMm">40 to 1200 mm.</param>
/// <param name="HeightMm">40 to 1200 mm.</param>
/// <remarks>A sizes: ISO 216; Letter: 8½ × 11 inches of 25.4 mm.</remarks>
public sealed partial record PageSize(string Name, double WidthMm, double HeightMm)
{
    private const double Smallest = 40;
    private const double Largest = 1200;

    /// <summary>105 × 148 mm.</summary>
    public static PageSize A6 { get; } = new("A6", 105, 148);

    /// <summary>148 × 210 mm.</summary>
    public static PageSize A5 { get; } = new("A5", 148, 210);

    /// <summary>210 × 297 mm.</summary>
    public static PageSize A4 { get; } = new("A4", 210, 297);

    /// <summary>215.9 × 279.4 mm.</summary>
    public static PageSize Letter { get; } = new("Letter", 215.9, 279.4);

    /// <summary>The named sizes, smallest first.</summary>
    public static IReadOnlyList<PageSize> Named { get; } = [A6, A5, Letter, A4];

    /// <summary>The same page turned on its side.</summary>
    public PageSize Turned => new($"{Name} on its side", HeightMm, WidthMm);

    /// <summary>Reads <c>A4</c>, <c>A5</c>, <c>A6</c>, <c>Letter</c> or a size such as <c>120x180</c>; “landscape” after it turns
    /// it.</summary>
    /// <param name="field">The field or option it stands in.</param>
    /// <param name="text">What was typed.</param>
    public static Outcome<PageSize> Parse(string field, string? text)
    {
        const string Remedy = "Type A4, A5, A6, Letter, or width x height in millimetres such as 120x180.";
        var typed = (text ?? "").Trim();
        var turn = typed.EndsWith(" landscape", StringComparison.OrdinalIgnoreCase);
        var name = turn ? typed[..^" landscape".Length].TrimEnd() : typed;
        var page = Named.FirstOrDefault(one => one.Name.Equals(name, StringComparison.OrdinalIgnoreCase));
        if (page is null)
        {
            var match = Sides().Match(name);
            if (!match.Success)
                return Outcome.Refused<PageSize>(field, $"“{typed}” is not a page size.", Remedy);
            var width = double.Parse(match.Groups["width"].Value, CultureInfo.InvariantCulture);
            var height = double.Parse(match.Groups["height"].Value, CultureInfo.InvariantCulture);
            if (width is not (>= Smallest and <= Largest) || height is not (>= Smallest and <= Largest))
                return Outcome.Refused<PageSize>(
                    field,
                    $"A page of “{typed}” mm is outside {Smallest:0} to {Largest:0} mm.",
                    "Give both sides in millimetres."
                );
            page = new PageSize(string.Create(CultureInfo.InvariantCulture, $"{width:0.##} × {height:0.##} mm"), width, height);
        }

        return Outcome.Of(turn ? page.Turned : page);
    }

    [GeneratedRegex(
        @"^(?<width>\d{1,4}(\.\d{1,3})?)\s*[x×X*]\s*(?<height>\d{1,4}(\.\d{1,3})?)\s*(mm)?$",
        RegexOptions.CultureInvariant | RegexOptions.ExplicitCapture,
        1000
    )]
    private static partial Regex Sides();
}

using System.Globalization;
using System.Text.RegularExpressions;

namespace Dyewort.Colour;

/// <summary>One table of a CGATS.17 file: what is said about it, its fields, and its samples.</summary>
/// <param name="Properties">Keywords and their values, in the order of the file; a keyword without a value has an empty one.</param>
/// <param name="Fields">Field names as written, such as SAMPLE_ID and LAB_L.</param>
/// <param name="Samples">Rows of as many texts as there are fields.</param>
public sealed partial record CgatsTable(
    IReadOnlyList<KeyValuePair<string, string>> Properties,
    IReadOnlyList<string> Fields,
    IReadOnlyList<IReadOnlyList<string>> Samples
)
{
    private static readonly string[] IdFields = ["SAMPLE_ID", "SAMPLEID", "SAMPLE_NAME", "SAMPLENAME", "SAMPLE_LOC", "ID"];

    /// <summary>The light its CIELAB and XYZ are for: D65 where the table says so, else D50, which graphic arts files mean
    /// unsaid.</summary>
    public bool IsD65 =>
        Properties.Any(property =>
            (
                property.Key.Contains("ILLUMINANT", StringComparison.OrdinalIgnoreCase)
                || property.Key.Contains("WEIGHTING", StringComparison.OrdinalIgnoreCase)
                || property.Key.Contains("MEASUREMENT_SOURCE", StringComparison.OrdinalIgnoreCase)
            ) && property.Value.Contains("D65", StringComparison.OrdinalIgnoreCase)
        );

    /// <summary>The value of a keyword, or null.</summary>
    public string? Property(string keyword) =>
        Properties.FirstOrDefault(property => property.Key.Equals(keyword, StringComparison.OrdinalIgnoreCase)).Value;

    /// <summary>What a sample is called: its id, else its name, else its place in the table counted from 1.</summary>
    public string IdOf(int sample)
    {
        foreach (var name in IdFields)
        {
            if (Column(name) is { } column)
                return Samples[sample][column];
        }

        return (sample + 1).ToString(CultureInfo.InvariantCulture);
    }

    /// <summary>A sample's colour under D65, from its spectrum if it has one, else its XYZ, else its CIELAB; null without any.</summary>
    /// <remarks>Values for D50 are adapted by Bradford. A spectrum in per cent (some value above 2) is taken as such.</remarks>
    public Xyz? ColourOf(int sample)
    {
        if (SpectrumOf(sample) is { } spectrum)
            return spectrum.ToXyz();
        if (Three(sample, "XYZ_X", "XYZ_Y", "XYZ_Z") is var (x, y, z))
            return IsD65 ? new Xyz(x, y, z) : Adaptation.FromD50(new(x, y, z));
        if (Three(sample, "LAB_L", "LAB_A", "LAB_B") is var (l, a, b))
            return (IsD65 ? new Lab(l, a, b) : Adaptation.LabFromD50(new(l, a, b))).ToXyz();
        return null;
    }

    /// <summary>A sample's CIELAB as the table gives it, in its own light; null without.</summary>
    public Lab? LabOf(int sample) => Three(sample, "LAB_L", "LAB_A", "LAB_B") is var (l, a, b) ? new Lab(l, a, b) : null;

    /// <summary>A sample's reflectance from its spectral fields; null with fewer than five of them.</summary>
    public Spectrum? SpectrumOf(int sample)
    {
        var points = new SortedDictionary<double, double>();
        for (var column = 0; column < Fields.Count; column++)
        {
            var match = Wavelength().Match(Fields[column]);
            if (
                !match.Success
                || !double.TryParse(match.Groups["nm"].ValueSpan, NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out var nm)
                || nm is < 200 or > 2500
            )
                continue;
            if (!double.TryParse(Samples[sample][column], NumberStyles.Float, CultureInfo.InvariantCulture, out var value))
                return null;
            points[nm] = value;
        }

        if (points.Count < 5)
            return null;
        var percent = points.Values.Max() > 2 || Fields.Any(field => field.Contains("PCT", StringComparison.OrdinalIgnoreCase)) ? 100 : 1;
        return Spectrum.FromSamples([.. points.Keys], [.. points.Values.Select(value => value / percent)]);
    }

    internal int? Column(string name)
    {
        for (var column = 0; column < Fields.Count; column++)
        {
            if (Fields[column].Equals(name, StringComparison.OrdinalIgnoreCase))
                return column;
        }

        return null;
    }

    private (double First, double Second, double Third)? Three(int sample, string first, string second, string third)
    {
        if (Column(first) is not { } a || Column(second) is not { } b || Column(third) is not { } c)
            return null;
        var row = Samples[sample];
        bool Read(int column, out double value) =>
            double.TryParse(row[column], NumberStyles.Float, CultureInfo.InvariantCulture, out value) && double.IsFinite(value);
        return Read(a, out var x) && Read(b, out var y) && Read(c, out var z) ? (x, y, z) : null;
    }

    [GeneratedRegex(
        @"^(SPECTRAL|SPEC|NM|R|REFLECTANCE|WL)?(_?(NM|PCT|DEC))?[_ ]?(?<nm>\d{3,4}(\.\d+)?)(_?NM)?$",
        RegexOptions.IgnoreCase | RegexOptions.CultureInvariant | RegexOptions.ExplicitCapture
    )]
    private static partial Regex Wavelength();
}

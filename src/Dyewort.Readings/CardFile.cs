using System.Globalization;
using Dyewort.Colour;
using Dyewort.Quantities;

namespace Dyewort.Readings;

/// <summary>A patch of a reference card and its published colour.</summary>
/// <param name="Id">SAMPLE_ID.</param>
/// <param name="Lab">CIELAB, D65, 2°.</param>
public sealed record CardPatch(string Id, Lab Lab)
{
    /// <summary>95 % uncertainty of the colour, ΔE₀₀; null where it is not stated.</summary>
    public double? UncertaintyDe00 { get; init; }
}

/// <summary>A reference card, a house strip or an instrument's readings as a CGATS.17 text file states them: SAMPLE_ID and CIELAB, XYZ or
/// spectra (the spectrum where there are several); D50 unless the file says D65. STDEV_DE is taken as the standard deviation in
/// ΔE₀₀.</summary>
public static class CardFile
{
    /// <summary>Reads the text of a file.</summary>
    /// <param name="field">The option or field it came from.</param>
    /// <param name="text">The text.</param>
    /// <param name="name">What to call the file in a refusal.</param>
    public static Outcome<IReadOnlyList<CardPatch>> Parse(string field, string text, string name = "card file")
    {
        var read = Cgats.Parse(field, text);
        if (!read.TryGet(out var file))
            return Outcome.Refused<IReadOnlyList<CardPatch>>(read.Problems);
        foreach (var table in file.Tables)
        {
            var patches = new List<CardPatch>();
            for (var sample = 0; sample < table.Samples.Count; sample++)
            {
                if (table.ColourOf(sample) is { } colour)
                    patches.Add(
                        new(table.IdOf(sample), Lab.FromXyz(colour)) { UncertaintyDe00 = Uncertainty.TwoSided * Deviation(table, sample) }
                    );
            }

            if (patches.Count > 0)
                return Outcome.Of<IReadOnlyList<CardPatch>>(patches);
        }

        return Outcome.Refused<IReadOnlyList<CardPatch>>(
            field,
            $"The {name} holds no colours.",
            "Use a CGATS.17 text file with SAMPLE_ID, LAB_L, LAB_A and LAB_B."
        );
    }

    /// <summary>A house strip's first reading as a file: CIELAB under D65, with its uncertainty.</summary>
    /// <param name="patches">The patches, in the order of the strip.</param>
    /// <param name="description">What to say about it.</param>
    public static string Write(IReadOnlyList<CardPatch> patches, string description)
    {
        static string Number(double value) => (Math.Round(value, 3) + 0.0).ToString("0.###", CultureInfo.InvariantCulture);
        KeyValuePair<string, string>[] properties =
        [
            new("DESCRIPTOR", description),
            new("WEIGHTING_FUNCTION", "ILLUMINANT,D65"),
            new("WEIGHTING_FUNCTION", "OBSERVER,2 degree"),
        ];
        var samples = patches.Select(patch =>
            (IReadOnlyList<string>)
                [
                    patch.Id,
                    Number(patch.Lab.L),
                    Number(patch.Lab.A),
                    Number(patch.Lab.B),
                    Number((patch.UncertaintyDe00 ?? 0) / Uncertainty.TwoSided),
                ]
        );
        return new Cgats("CGATS.17", [new(properties, ["SAMPLE_ID", "LAB_L", "LAB_A", "LAB_B", "STDEV_DE"], [.. samples])], []).Write();
    }

    /// <summary>Where in a grid each patch lies, counted along rows from the card's first corner.</summary>
    /// <param name="patches">The patches; some of the grid's places may be missing among them.</param>
    /// <param name="columns">Columns of the grid.</param>
    /// <param name="rows">Rows of the grid.</param>
    /// <returns>One place per patch, or −1 where it cannot be told.</returns>
    /// <remarks>A full list goes by its order. With patches missing, names decide: numbers count from 1 along rows; a letter with a number
    /// is column and row where letters fit the columns, else row and column.</remarks>
    public static IReadOnlyList<int> Places(IReadOnlyList<CardPatch> patches, int columns, int rows)
    {
        var count = columns * rows;
        if (patches.Count == count)
            return [.. Enumerable.Range(0, count)];
        var numbers = patches
            .Select(patch => int.TryParse(patch.Id, NumberStyles.Integer, CultureInfo.InvariantCulture, out var number) ? number : 0)
            .ToArray();
        if (numbers.All(number => number >= 1 && number <= count) && numbers.Distinct().Count() == numbers.Length)
            return [.. numbers.Select(number => number - 1)];
        var pairs = patches.Select(patch => Pair(patch.Id)).ToArray();
        if (pairs.All(pair => pair is { Letter: >= 1, Number: >= 1 }))
        {
            var letterIsColumn = pairs.All(pair => pair.Letter <= columns && pair.Number <= rows);
            return
            [
                .. pairs.Select(pair =>
                    letterIsColumn ? ((pair.Number - 1) * columns) + pair.Letter - 1
                    : pair.Letter <= rows && pair.Number <= columns ? ((pair.Letter - 1) * columns) + pair.Number - 1
                    : -1
                ),
            ];
        }

        return [.. patches.Select((_, i) => i < count ? i : -1)];
    }

    private static double? Deviation(CgatsTable table, int sample)
    {
        for (var column = 0; column < table.Fields.Count; column++)
        {
            if (
                table.Fields[column].Equals("STDEV_DE", StringComparison.OrdinalIgnoreCase)
                && double.TryParse(table.Samples[sample][column], NumberStyles.Float, CultureInfo.InvariantCulture, out var value)
                && value is > 0 and < 100
            )
                return value;
        }

        return null;
    }

    private static (int Letter, int Number) Pair(string id) =>
        id.Length >= 2
        && char.IsAsciiLetter(id[0])
        && int.TryParse(id.AsSpan(1), NumberStyles.None, CultureInfo.InvariantCulture, out var number)
            ? (char.ToUpperInvariant(id[0]) - 'A' + 1, number)
            : (0, 0);
}

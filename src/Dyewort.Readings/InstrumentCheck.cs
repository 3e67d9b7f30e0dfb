using Dyewort.Colour;
using Dyewort.Numerics;
using Dyewort.Quantities;

namespace Dyewort.Readings;

/// <summary>One swatch as a photo and as an instrument read it.</summary>
/// <param name="Id">The swatch's name.</param>
/// <param name="Photo">CIELAB (D65) from the photo.</param>
/// <param name="Instrument">CIELAB (D65) from the instrument.</param>
/// <param name="De00">How far apart they are, CIEDE2000.</param>
/// <param name="StatedDe00">95 % bound that was stated: the photo reading's and, where the instrument states one, its own, added in
/// squares.</param>
public sealed record CheckedSwatch(string Id, Lab Photo, Lab Instrument, double De00, double StatedDe00)
{
    /// <summary>True where the two differ by no more than was stated.</summary>
    public bool IsInside => De00 <= StatedDe00;
}

/// <summary>A photo's readings held against an instrument's.</summary>
/// <param name="Swatches">Those that both have, in the photo's order.</param>
/// <param name="OnlyInstrument">Names that only the instrument's file has.</param>
/// <param name="OnlyPhoto">Names that only the photo has.</param>
public sealed record InstrumentCheck(
    IReadOnlyList<CheckedSwatch> Swatches,
    IReadOnlyList<string> OnlyInstrument,
    IReadOnlyList<string> OnlyPhoto
)
{
    /// <summary>Mean CIEDE2000.</summary>
    public double MeanDe00 => Swatches.Average(swatch => swatch.De00);

    /// <summary>Median CIEDE2000.</summary>
    public double MedianDe00 => Quantiles.Median(Swatches.Select(swatch => swatch.De00));

    /// <summary>95th percentile of CIEDE2000, between the nearest two where it falls between them.</summary>
    public double P95De00 => Quantiles.Of(Swatches.Select(swatch => swatch.De00), 0.95);

    /// <summary>Share of swatches whose stated bound contains the instrument's colour, 0 to 1.</summary>
    public double InsideShare => Swatches.Count(swatch => swatch.IsInside) / (double)Swatches.Count;

    /// <summary>Mean of photo minus instrument in L*, a* and b*: what all swatches have in common, such as a misjudged paper.</summary>
    public (double L, double A, double B) MeanShift =>
        (
            Swatches.Average(swatch => swatch.Photo.L - swatch.Instrument.L),
            Swatches.Average(swatch => swatch.Photo.A - swatch.Instrument.A),
            Swatches.Average(swatch => swatch.Photo.B - swatch.Instrument.B)
        );

    /// <summary>Compares by name; capitals and blanks around a name do not matter.</summary>
    /// <param name="photo">Readings from a photo; cells without any paint may be among them.</param>
    /// <param name="instrument">What the instrument read, as <see cref="CardFile.Parse"/> gives it.</param>
    public static Outcome<InstrumentCheck> Of(IReadOnlyList<SwatchReading> photo, IReadOnlyList<CardPatch> instrument)
    {
        static string Name(string id) => id.Trim().ToUpperInvariant();
        if (instrument.GroupBy(patch => Name(patch.Id), StringComparer.Ordinal).FirstOrDefault(group => group.Count() > 1) is { } twice)
            return Outcome.Refused<InstrumentCheck>(
                "check",
                $"The instrument's file has two samples with the name “{twice.First().Id}”.",
                "Keep the one that is meant, or their mean."
            );
        var known = instrument.ToDictionary(patch => Name(patch.Id), StringComparer.Ordinal);
        var swatches = new List<CheckedSwatch>();
        var alone = new List<string>();
        foreach (var swatch in photo)
        {
            if (!known.Remove(Name(swatch.Id), out var patch))
            {
                alone.Add(swatch.Id);
                continue;
            }

            var own = patch.UncertaintyDe00 ?? 0;
            var stated = Math.Sqrt((swatch.UncertaintyDe00 * swatch.UncertaintyDe00) + (own * own));
            swatches.Add(new(swatch.Id, swatch.Lab, patch.Lab, Difference.Ciede2000(swatch.Lab, patch.Lab), stated));
        }

        return swatches.Count > 0
            ? Outcome.Of(
                new InstrumentCheck(
                    swatches,
                    [.. instrument.Where(patch => known.ContainsKey(Name(patch.Id))).Select(patch => patch.Id)],
                    alone
                )
            )
            : Outcome.Refused<InstrumentCheck>(
                "check",
                "No sample of the instrument's file has the name of a swatch in the photo.",
                "Give its samples the cells' codes as SAMPLE_ID, such as A1."
            );
    }
}

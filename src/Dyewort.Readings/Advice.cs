using System.Globalization;

namespace Dyewort.Readings;

/// <summary>Says in plain words what is wrong with a swatch's picture, and what to do.</summary>
public static class Advice
{
    /// <summary>Warnings for one cell.</summary>
    public static IReadOnlyList<ReadingWarning> For(CellSample cell, double spread)
    {
        var warnings = new List<ReadingWarning>();
        var id = cell.Id;
        if (cell.Pixels < 8)
            warnings.Add(new("outside", $"{id} lies outside the picture, so this is no reading. Photograph the whole page."));
        else if (cell.Pixels < 200)
            warnings.Add(new("small", $"{id} is very small in this picture. Go closer."));
        if (cell.Glare > 0.01)
            warnings.Add(new("glare", $"Glare on {id}: turn the page away from the lamp or window, and let wet paint dry."));
        if (cell.PaperClipped > 0.05)
            warnings.Add(
                new("overexposed", $"The paper around {id} is burnt out in this picture. Make it darker with the camera's exposure slider.")
            );
        else if (cell.ClippedHigh > 0.05)
            warnings.Add(new("clipped", $"{id} is burnt out in one colour. Make the picture darker."));
        if (cell.ClippedLow > 0.3)
            warnings.Add(new("dark", $"{id} is darker than the camera can tell apart. Use more light."));
        if (cell.Marked > 0 && cell.Coverage > 0)
            warnings.Add(
                new(
                    "mark",
                    $"A pencil line, a hair or a crease lies in {id}; it was left out. Brush off what is loose, and write beside "
                        + $"the square."
                )
            );
        if (cell.LightStep > 0.06)
            warnings.Add(new("shadow", $"A shadow's edge or strong change of light runs across {id}. Move the page, or your hand."));
        if (cell.Pixels >= 8 && cell.Coverage == 0)
            warnings.Add(new("empty", $"No paint was found in {id}."));
        else if (cell.Coverage is > 0 and < 0.55)
            warnings.Add(
                new(
                    "gaps",
                    string.Create(
                        CultureInfo.InvariantCulture,
                        $"Only {cell.Coverage * 100:0} % of {id} is covered; the paint between the gaps was read."
                    )
                )
            );
        if (spread > 12)
            warnings.Add(new("uneven", $"{id} is very uneven: pooled edges, a backrun or granules. Its middle tone was read."));
        return warnings;
    }
}

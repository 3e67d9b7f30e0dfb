using Dyewort.Colour;

namespace Dyewort.Readings;

/// <summary>Brings what was measured on a page to colours with uncertainty.</summary>
public static class ReadPage
{
    /// <summary>Reads every cell.</summary>
    /// <param name="cells">What each cell shows.</param>
    /// <param name="colour">The file's colour space.</param>
    /// <param name="paper">The bare paper's colour.</param>
    public static (IReadOnlyList<SwatchReading> Swatches, Calibration Calibration) Of(IReadOnlyList<CellSample> cells, FileColour colour, PaperColour paper)
    {
        var white = colour.FromXyz(paper.Colour.ToXyz());
        var swatches = cells.Select(cell =>
        {
            Xyz Colour(FileRgb ratio) => colour.ToXyz(new(ratio.R * white.R, ratio.G * white.G, ratio.B * white.B));
            var spread = Difference.Ciede2000(Lab.FromXyz(Colour(cell.Pale)), Lab.FromXyz(Colour(cell.Deep)));
            return new SwatchReading(cell.Id, Colour(cell.Wash), 5, 1 / (1 + (spread / 5)), cell.Coverage, []) { SpreadDe00 = spread };
        }).ToList();
        return (swatches, new Calibration("paper", 0, null) { Paper = paper.Colour, PaperKnown = paper.Known });
    }
}

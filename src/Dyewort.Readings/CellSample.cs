namespace Dyewort.Readings;

/// <summary>A robust sample of bare paper at one place of a page.</summary>
/// <param name="X">Place, in the plane in which the page is mapped (millimetres of the page, or pixels where there is no page).</param>
/// <param name="Y">Place.</param>
/// <param name="Light">Linear channels of the file.</param>
/// <param name="Spread">Relative spread of its pixels, 0.01 = one per cent.</param>
/// <param name="Clipped">Share of its pixels at the top of a channel.</param>
public readonly record struct PaperSample(double X, double Y, FileRgb Light, double Spread, double Clipped);

/// <summary>A marker's black ink and the paper beside it.</summary>
/// <param name="Black">Linear channels of the black, mean over the marker's border.</param>
/// <param name="White">Linear channels of the paper around it.</param>
/// <param name="CellPx">Size of one of its cells in pixels: below about four, blur mixes black and white.</param>
/// <param name="WhiteIsFull">True where the paper beside it is burnt out, so that black over white says nothing.</param>
public readonly record struct InkSample(FileRgb Black, FileRgb White, double CellPx, bool WhiteIsFull = false);

/// <summary>What one cell shows, before any correction of colour.</summary>
/// <param name="Id">The cell's code.</param>
/// <param name="Wash">Linear channels of the even wash, relative to the bare paper at the same place (1 = as light as the paper).</param>
/// <param name="Pale">The same at the palest tenth of the coloured area.</param>
/// <param name="Deep">The same at the deepest tenth.</param>
/// <param name="Paper">Linear channels of bare paper under the light at the cell's middle.</param>
/// <param name="Coverage">Share of the looked-at area that carries colour.</param>
/// <param name="Glare">Share that shines.</param>
/// <param name="ClippedHigh">Share with a channel at its top.</param>
/// <param name="ClippedLow">Share with a channel at zero.</param>
/// <param name="Pixels">How many pixels were looked at.</param>
/// <param name="Noise">Relative spread of neighbouring wash pixels.</param>
/// <param name="LightDoubt">Relative uncertainty of the paper light at the cell, one standard deviation.</param>
/// <param name="LightStep">Largest relative step of the light between the cell's sides that a gentle slope does not explain.</param>
public sealed record CellSample(
    string Id,
    FileRgb Wash,
    FileRgb Pale,
    FileRgb Deep,
    FileRgb Paper,
    double Coverage,
    double Glare,
    double ClippedHigh,
    double ClippedLow,
    int Pixels,
    double Noise,
    double LightDoubt,
    double LightStep
)
{
    /// <summary>True for the half of the cell that was kept covered from light.</summary>
    public bool IsCovered { get; init; }

    /// <summary>Share of the paper around the cell that is at the top of a channel.</summary>
    public double PaperClipped { get; init; }

    /// <summary>Share of the looked-at area that lies on pencil marks and was left out.</summary>
    public double Marked { get; init; }

    /// <summary>Place of the cell's middle on the page or, without a page, in the picture.</summary>
    public double X { get; init; }

    /// <summary>Place of the cell's middle.</summary>
    public double Y { get; init; }
}

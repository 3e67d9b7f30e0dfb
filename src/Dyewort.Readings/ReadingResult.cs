using Dyewort.Colour;

namespace Dyewort.Readings;

/// <summary>Something a maker should know about a reading, in plain words with what to do.</summary>
/// <param name="Code">One word for machines, such as "glare".</param>
/// <param name="Text">One or two sentences for people.</param>
public sealed record ReadingWarning(string Code, string Text);

/// <summary>The colour of one swatch as a photo, a scan or an instrument shows it.</summary>
/// <param name="Id">The cell's code.</param>
/// <param name="Colour">XYZ of the even wash: CIE 1931 2° observer, D65, perfect diffuser Y = 100.</param>
/// <param name="UncertaintyDe00">95 % uncertainty: the true colour lies within this CIEDE2000 difference in 19 of 20 cases.</param>
/// <param name="Evenness">1 for a perfectly even wash, falling to 0; 1 / (1 + spread / 5) with the spread in ΔE₀₀ from the palest to the
/// deepest tenth.</param>
/// <param name="Coverage">Share of the looked-at area that carries colour, 0 to 1.</param>
/// <param name="Warnings">What to know, and what to do about it.</param>
public sealed record SwatchReading(
    string Id,
    Xyz Colour,
    double UncertaintyDe00,
    double Evenness,
    double Coverage,
    IReadOnlyList<ReadingWarning> Warnings
)
{
    /// <summary>CIELAB under D65.</summary>
    public Lab Lab => Lab.FromXyz(Colour);

    /// <summary>True for the half of the cell that was kept covered from light.</summary>
    public bool IsCovered { get; init; }

    /// <summary>Outline of the cell in the upright picture, clockwise.</summary>
    public IReadOnlyList<PointPx> OutlinePx { get; init; } = [];

    /// <summary>Outline of the part that was read.</summary>
    public IReadOnlyList<PointPx> SampledPx { get; init; } = [];

    /// <summary>ΔE₀₀ from the palest to the deepest tenth of the coloured area.</summary>
    public double SpreadDe00 { get; init; }

    /// <summary>What the uncertainty was made from; null where a person or an instrument stated it.</summary>
    public UncertaintyFeatures? Features { get; init; }
}

/// <summary>What brought the camera's numbers to colour.</summary>
/// <param name="Method">"paper", "card" or "strip".</param>
/// <param name="ResidualDe00">Mean ΔE₀₀ of the reference patches after the fit; with paper alone, of the paper around the cells.</param>
/// <param name="LeaveOneOutDe00">Mean ΔE₀₀ of each patch predicted from all others; null with paper alone.</param>
public sealed record Calibration(string Method, double ResidualDe00, double? LeaveOneOutDe00)
{
    /// <summary>The correction's form in words, such as "white balance" or "3 × 3 matrix".</summary>
    public string Form { get; init; } = "white balance";

    /// <summary>The paper's colour that readings stand on.</summary>
    public Lab Paper { get; init; }

    /// <summary>False when the paper's colour is a guess.</summary>
    public bool PaperKnown { get; init; }

    /// <summary>Share of its paper's light that the sheet's printed black reflects, as a card or strip measured it; null without
    /// one.</summary>
    public double? Black { get; init; }
}

/// <summary>All that one photo told.</summary>
/// <param name="Swatches">One reading per cell, in the layout's order; never fewer.</param>
/// <param name="Calibration">How colours were found.</param>
/// <param name="PageCornersPx">The page's corners in the upright picture, clockwise from its top left; empty where spots were
/// tapped.</param>
/// <param name="Warnings">What concerns the whole photo.</param>
public sealed record ReadingResult(
    IReadOnlyList<SwatchReading> Swatches,
    Calibration Calibration,
    IReadOnlyList<PointPx> PageCornersPx,
    IReadOnlyList<ReadingWarning> Warnings
)
{
    /// <summary>Size of the upright picture, pixels.</summary>
    public (int Width, int Height) PictureSize { get; init; }

    /// <summary>Corners of the card or strip in the upright picture, clockwise from the patch that comes first; empty without
    /// one.</summary>
    public IReadOnlyList<PointPx> CardCornersPx { get; init; } = [];
}

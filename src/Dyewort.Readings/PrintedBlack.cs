namespace Dyewort.Readings;

/// <summary>How black the sheet's print is: the yardstick that a camera's tone curve is told by where no card is in the picture.</summary>
/// <param name="Share">Share of the paper's light that printed black reflects, 0.01 to 0.15; 0.04 is four per cent.</param>
/// <param name="Doubt">Standard uncertainty of its natural logarithm, so 0.1 is about ten per cent of the share.</param>
public sealed record PrintedBlack(double Share, double Doubt)
{
    /// <summary>Toner and black ink on a paper nobody said anything about: 4 %, and from 3 to 8 % in use (common practice, no source).</summary>
    public static PrintedBlack Usual { get; } = new(0.04, 0.3);
}

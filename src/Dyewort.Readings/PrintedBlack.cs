namespace Dyewort.Readings;

/// <summary>How black the sheet's print is: the yardstick that a camera's tone curve is told by where no card is in the picture.</summary>
/// <param name="Share">Share of the paper's light that printed black reflects, 0.01 to 0.15; 0.04 is four per cent.</param>
/// <param name="Doubt">Standard uncertainty of its natural logarithm, so 0.1 is about ten per cent of the share.</param>
public sealed record PrintedBlack(double Share, double Doubt)
{
    /// <summary>Toner and black ink on a paper nobody said anything about: 4 %, and from 3 to 8 % in use (common practice, no
    /// source).</summary>
    public static PrintedBlack Usual { get; } = new(0.04, 0.3);

    /// <summary>A black that was measured beside a card, or that the maker states: one print differs from the next by about a
    /// tenth.</summary>
    /// <param name="percent">Per cent of the paper's light, 1 to 15.</param>
    public static PrintedBlack OfPercent(double percent) =>
        percent is >= LeastPercent and <= MostPercent
            ? new(percent / 100, 0.1)
            : throw new ArgumentOutOfRangeException(nameof(percent), percent, "Allowed: 1 to 15 %.");

    /// <summary>Blacker than any print.</summary>
    public const double LeastPercent = 1;

    /// <summary>Lighter than any print that markers are found in.</summary>
    public const double MostPercent = 15;
}

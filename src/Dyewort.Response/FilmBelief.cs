namespace Dyewort.Response;

/// <summary>Which inputs the data have, and what is believed about them before any sample is read.</summary>
internal sealed record FilmBelief
{
    /// <summary>Per addition: true for acids and bases, which act by way of the pH.</summary>
    public required bool[] Agent { get; init; }

    /// <summary>Per addition: natural logarithm of the dose in g/L that has half its effect, before data.</summary>
    public required double[] LogHalfDose { get; init; }

    /// <summary>Per addition: natural logarithm of its share of the colour's variance, before data.</summary>
    public required double[] LogShare { get; init; }

    /// <summary>How many papers were painted on; likewise states and pots.</summary>
    public required int Papers { get; init; }

    public required int States { get; init; }

    public required int Pots { get; init; }

    /// <summary>True where more than one strength was painted.</summary>
    public required bool LearnWash { get; init; }

    /// <summary>True where some pH is computed, so that the colours may say which liquor it was.</summary>
    public required bool LearnLiquor { get; init; }

    public int Additions => LogHalfDose.Length;
}

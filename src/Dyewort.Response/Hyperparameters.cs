namespace Dyewort.Response;

/// <summary>One set of hyperparameters by their names, in the units that the kernel takes.</summary>
internal sealed record Hyperparameters
{
    /// <summary>Variance of the films' densities.</summary>
    public required double Variance { get; init; }

    /// <summary>Variance of a reading along each axis, ΔE₀₀².</summary>
    public required double Noise { get; init; }

    /// <summary>One over the pH by which the colour has become another.</summary>
    public required double InverseLength { get; init; }

    /// <summary>How much of the free dye's variance follows the pH.</summary>
    public required double PhShare { get; init; }

    /// <summary>Variance of a sample's private scatter in density.</summary>
    public required double Private { get; init; }

    /// <summary>How far additions compete for the dye, 0 to 1.</summary>
    public required double Competition { get; init; }

    /// <summary>Per addition: g/L that have half its effect.</summary>
    public required double[] HalfDose { get; init; }

    /// <summary>Per addition: its share of the colour's variance.</summary>
    public required double[] Share { get; init; }

    /// <summary>Per addition: the pH below which it lets go of the dye.</summary>
    public required double[] ReleasePh { get; init; }

    /// <summary>What two papers do not have in common, as a share of the variance; likewise states and pots.</summary>
    public required double PaperApart { get; init; }

    public required double StateApart { get; init; }

    public required double PotApart { get; init; }

    /// <summary>The power of its strength by which a wash thins.</summary>
    public required double WashPower { get; init; }

    /// <summary>Density of a film on each paper against the first; likewise in each state and of each pot.</summary>
    public required double[] PaperStrength { get; init; }

    public required double[] StateStrength { get; init; }

    public required double[] PotStrength { get; init; }

    /// <summary>How far the liquor's pH, and the logarithm of its acids, lie from what is believed, in standard deviations.</summary>
    public required double LiquorPh { get; init; }

    public required double LiquorAcid { get; init; }
}

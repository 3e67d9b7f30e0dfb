namespace Dyewort.Numerics;

/// <summary>Where a condition changes, between two ends.</summary>
/// <param name="Low">The highest place seen that is still below.</param>
/// <param name="High">The lowest place seen that is no longer below.</param>
/// <param name="Ending">Converged, NotBracketed (the condition never changed), or RoundLimit.</param>
/// <param name="Rounds">Halvings made.</param>
public readonly record struct Bracket(double Low, double High, Ending Ending, int Rounds)
{
    /// <summary>The middle of both: off by half the width at most.</summary>
    public double Middle => (Low + High) / 2;
}

/// <summary>Bisection: slow, and never wrong about a condition that changes once.</summary>
public static class Bisection
{
    /// <summary>Halves an interval until it is narrow.</summary>
    /// <param name="low">The lower end, finite.</param>
    /// <param name="high">The upper end, finite, above <paramref name="low"/>.</param>
    /// <param name="width">The width asked for, in the unit of the ends; 0 goes on until no number lies between (some 60 halvings).</param>
    /// <param name="isBelow">True where what is sought lies higher than the place asked about; asked inside the interval only.</param>
    /// <param name="rounds">Most halvings.</param>
    /// <exception cref="ArgumentOutOfRangeException">An end is not finite, or the upper one is not above the lower.</exception>
    /// <remarks>Each halving costs one call and gives one binary digit. Where the condition changes several times one of the changes is
    /// found.</remarks>
    public static Bracket Narrow(double low, double high, double width, Func<double, bool> isBelow, int rounds = 200)
    {
        ArgumentNullException.ThrowIfNull(isBelow);
        if (!double.IsFinite(low) || !double.IsFinite(high) || low >= high)
            throw new ArgumentOutOfRangeException(nameof(high), high, $"The ends must be finite and {low} below the upper one.");
        var (movedLow, movedHigh) = (false, false);
        for (var round = 0; ; round++)
        {
            var middle = low + ((high - low) / 2);
            if (high - low <= width || middle <= low || middle >= high)
                return new(low, high, movedLow && movedHigh ? Ending.Converged : Ending.NotBracketed, round);
            if (round == rounds)
                return new(low, high, Ending.RoundLimit, round);
            if (isBelow(middle))
                (low, movedLow) = (middle, true);
            else
                (high, movedHigh) = (middle, true);
        }
    }
}

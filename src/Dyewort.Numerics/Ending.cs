namespace Dyewort.Numerics;

/// <summary>How an iteration ended. A caller that does not ask says why it need not.</summary>
public enum Ending
{
    /// <summary>The answer is as close as was asked for.</summary>
    Converged,

    /// <summary>The rounds were used up first; the answer is the best one seen.</summary>
    RoundLimit,

    /// <summary>No step made it better, though it is not as close as was asked for; the answer is the best one seen.</summary>
    Stalled,

    /// <summary>What was sought does not lie between the two ends; the answer is the end that is nearer.</summary>
    NotBracketed,
}

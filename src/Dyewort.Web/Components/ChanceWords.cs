namespace Dyewort.Web.Components;

/// <summary>How likely nobody sees a difference, in words.</summary>
internal static class ChanceWords
{
    /// <param name="chance">Chance that nobody sees it, 0 to 1.</param>
    public static string Unseen(double chance) =>
        chance switch
        {
            < 0.01 => "anybody will see the difference",
            > 0.99 => "nobody will see the difference",
            _ => FormattableString.Invariant($"nobody sees the difference {Math.Round(100 * chance):0} times of 100"),
        };
}

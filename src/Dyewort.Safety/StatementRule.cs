namespace Dyewort.Safety;

/// <summary>A hazard statement and how a mixture comes by it.</summary>
/// <param name="Code">"H319".</param>
/// <param name="Words">Its words without full stop.</param>
/// <param name="SignalWord">"Danger", "Warning" or empty.</param>
/// <param name="IsSummed">True where the shares of all ingredients add up; false where one of them must reach its limit alone.</param>
/// <param name="Worse">Statements that say more and stand instead.</param>
internal sealed record StatementRule(string Code, string Words, string SignalWord, bool IsSummed, IReadOnlyList<string> Worse);

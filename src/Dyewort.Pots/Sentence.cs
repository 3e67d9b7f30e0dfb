using Dyewort.Quantities;

namespace Dyewort.Pots;

/// <summary>Sentences with figures in them, the same on every machine.</summary>
internal static class Sentence
{
    /// <summary>The sentence with its figures written the invariant way.</summary>
    internal static string Of(InvariantText sentence) => InvariantText.Of(sentence);

    /// <summary>A problem whose sentence holds figures.</summary>
    internal static Problem Bad(string field, InvariantText what, string remedy) => new(field, Of(what), remedy);
}

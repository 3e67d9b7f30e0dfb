using Dyewort.Colour;
using Dyewort.Quantities;

namespace Dyewort.Workshop.Response;

/// <summary>A colour somebody asks for.</summary>
/// <param name="Colour">The wanted colour.</param>
/// <param name="ReadAs">How it was understood.</param>
/// <param name="UncertaintyDe00">Its own 95 % radius where it was read, ΔE₀₀.</param>
/// <param name="Thing">What of the notebook has it; null where it was typed.</param>
public sealed record Wish(Xyz Colour, string ReadAs, double? UncertaintyDe00 = null, Thing? Thing = null)
{
    /// <summary>A colour in any notation.</summary>
    public static Outcome<Wish> Parse(string field, string? text)
    {
        var typed = ColourText.Parse(field, text);
        return typed.TryGet(out var read) ? Outcome.Of(new Wish(read.Colour, read.ReadAs)) : Outcome.Refused<Wish>(typed.Problems);
    }
}

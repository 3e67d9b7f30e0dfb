using Dyewort.Colour;
using Dyewort.Quantities;

namespace Dyewort.Workshop.Colours;

/// <summary>Says everything the program knows about one colour.</summary>
public sealed class ShowColour : IUseCase
{
    public Outcome<ShowColourAnswer> Handle(string field, string? text)
    {
        var read = ColourText.Parse(field, text);
        return read.TryGet(out var colour)
            ? Outcome.Of(Describe(colour.Colour, colour.ReadAs))
            : Outcome.Refused<ShowColourAnswer>(read.Problems);
    }

    public static ShowColourAnswer Describe(Xyz colour, string readAs)
    {
        var lab = Lab.FromXyz(colour);
        var munsell = Colour.Munsell.FromXyz(colour);
        return new(
            readAs,
            colour,
            lab,
            Lch.FromLab(lab),
            Luv.FromXyz(colour),
            Oklab.FromXyz(colour),
            SrgbChip.Of(colour),
            munsell,
            Colour.Munsell.IsWithinData(munsell),
            ColourName.Of(munsell)
        );
    }
}

/// <param name="ReadAs">How the text was understood.</param>
/// <param name="Munsell">The notation; extended past the renotation's real samples where <paramref name="MunsellIsWithinData"/> is
/// false.</param>
public sealed record ShowColourAnswer(
    string ReadAs,
    Xyz Xyz,
    Lab Lab,
    Lch Lch,
    Luv Luv,
    Oklab Oklab,
    SrgbChip Chip,
    MunsellNotation Munsell,
    bool MunsellIsWithinData,
    ColourName Name
);

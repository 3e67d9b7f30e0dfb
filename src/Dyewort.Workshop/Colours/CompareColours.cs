using System.Globalization;
using Dyewort.Colour;
using Dyewort.Quantities;

namespace Dyewort.Workshop.Colours;

/// <summary>Says how far two colours lie apart, in figures and in words.</summary>
public sealed class CompareColours : IUseCase
{
    /// <param name="first">A colour.</param>
    /// <param name="second">Another.</param>
    /// <param name="uncertainty">95 % radius of each colour in CIEDE2000, as a reading states it; empty when the colours are exact.</param>
    public Outcome<CompareColoursAnswer> Handle(string? first, string? second, string? uncertainty = null)
    {
        var entered = new Entered();
        var one = entered.Take(ColourText.Parse("first", first));
        var two = entered.Take(ColourText.Parse("second", second));
        var radius = entered.OptionalNumber("uncertainty", uncertainty, "ΔE", 0, 50, 0.8.ToString(CultureInfo.InvariantCulture));
        return entered.Sound && one is not null && two is not null
            ? Outcome.Of(Compare(one.Colour, two.Colour, radius))
            : Outcome.Refused<CompareColoursAnswer>(entered.Problems);
    }

    public static CompareColoursAnswer Compare(Xyz first, Xyz second, double? radius)
    {
        var (a, b) = (Lab.FromXyz(first), Lab.FromXyz(second));
        var (lightness, chroma, hue) = Difference.Split(a, b);
        var de00 = Difference.Ciede2000(a, b);
        return new(
            a,
            b,
            de00,
            Difference.Cie1976(a, b),
            Difference.Cmc(a, b),
            Difference.Cmc(a, b, l: 1),
            lightness,
            chroma,
            hue,
            DifferenceWords.Say(a, b),
            DifferenceWords.Visibility(de00),
            GreyScale.Change(a, b),
            GreyScale.Staining(a, b),
            radius is { } r ? UncertainColour.FromRadius(first, r).ChanceOfDifference(UncertainColour.FromRadius(second, r)) : null
        );
    }
}

/// <param name="Cmc21">CMC(2:1) with the first colour as the standard.</param>
/// <param name="ChanceVisible">The chance that the true colours differ by more than 1, where an uncertainty was given.</param>
public sealed record CompareColoursAnswer(
    Lab First,
    Lab Second,
    double De00,
    double De76,
    double Cmc21,
    double Cmc11,
    double Lightness,
    double Chroma,
    double Hue,
    string Words,
    string Visibility,
    GreyScale Change,
    GreyScale Staining,
    double? ChanceVisible
);

using Dyewort.Colour;
using Dyewort.Quantities;

namespace Dyewort.Workshop.Colours;

/// <summary>Gathers what a maker wants to see of a colour: all its notations, its washes as an ink, and how it stands and mixes with
/// another.</summary>
public sealed class LookAtColour : IUseCase
{
    private static readonly (double Share, string Say)[] WashShares =
    [
        (1, "as it is"),
        (0.75, "3 parts in 4"),
        (0.5, "1 part in 2"),
        (0.25, "1 part in 4"),
        (0.125, "1 part in 8"),
    ];
    private static readonly (double First, double Second)[] MixShares = [(3, 1), (1, 1), (1, 3)];

    /// <param name="colour">The colour as typed.</param>
    /// <param name="with">A second colour, or empty.</param>
    /// <param name="paper">The bare paper, or empty for a guessed drawing paper.</param>
    public Outcome<LookAtColourAnswer> Handle(string? colour, string? with, string? paper)
    {
        var entered = new Entered();
        var first = entered.Take(ColourText.Parse("c", colour));
        var second = string.IsNullOrWhiteSpace(with) ? null : entered.Take(ColourText.Parse("with", with));
        var bare = string.IsNullOrWhiteSpace(paper) ? null : entered.Take(ColourText.Parse("paper", paper));
        var known = bare is null ? null : Paper.TryOf(bare.Colour);
        if (bare is not null && known is null)
            entered.Refuse("paper", $"“{paper}” cannot be a paper's colour.", "Give the colour of the bare paper, such as lab(95 0 3).");
        if (!entered.Sound || first is null)
            return Outcome.Refused<LookAtColourAnswer>(entered.Problems);

        var on = known ?? Paper.DrawingPaperGuess;
        var ink = Ink(first.Colour, on);
        var other = second is null ? null : Ink(second.Colour, on);
        return Outcome.Of(
            new LookAtColourAnswer(
                ShowColour.Describe(first.Colour, first.ReadAs),
                Lab.FromXyz(on.Colour),
                known is null,
                ink is null ? [] : [.. WashShares.Select(wash => Make(wash.Say, ink.Wash(wash.Share), on))],
                second is null ? null : ShowColour.Describe(second.Colour, second.ReadAs),
                second is null ? null : CompareColours.Compare(first.Colour, second.Colour, radius: null),
                ink is null || other is null
                    ? []
                    :
                    [
                        .. MixShares.Select(mix =>
                            Make($"{mix.First} to {mix.Second}", InkFilm.Mix([(ink, mix.First), (other, mix.Second)]), on)
                        ),
                    ]
            )
        );
    }

    private static LookAtColourStep Make(string say, InkFilm film, Paper on)
    {
        var colour = film.UncertainOn(on);
        return new(say, colour, ColourName.Of(colour.Colour));
    }

    /// <summary>The film that gives the colour, or null where no ink can give it on this paper.</summary>
    private static InkFilm? Ink(Xyz colour, Paper on)
    {
        var film = InkFilm.FromColour(colour, on);
        return Difference.Ciede2000(Lab.FromXyz(film.On(on)), Lab.FromXyz(colour)) < 0.5 ? film : null;
    }
}

/// <param name="Colour">The colour.</param>
/// <param name="Washes">What an ink of this colour becomes when thinned, on the paper; empty where it cannot be an ink there.</param>
/// <param name="Other">The second colour, if one was given.</param>
/// <param name="Against">How the second stands against the first.</param>
/// <param name="Mixtures">Both as inks, mixed by volume.</param>
public sealed record LookAtColourAnswer(
    ShowColourAnswer Colour,
    Lab Paper,
    bool PaperIsGuessed,
    IReadOnlyList<LookAtColourStep> Washes,
    ShowColourAnswer? Other,
    CompareColoursAnswer? Against,
    IReadOnlyList<LookAtColourStep> Mixtures
);

/// <param name="Say">The step in words.</param>
/// <param name="Colour">The predicted colour with its uncertainty.</param>
public sealed record LookAtColourStep(string Say, UncertainColour Colour, ColourName Name);

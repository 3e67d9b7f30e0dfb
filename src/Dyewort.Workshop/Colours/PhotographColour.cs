using Dyewort.Colour;
using Dyewort.Imaging;
using Dyewort.Quantities;

namespace Dyewort.Workshop.Colours;

/// <summary>Takes the colour in the middle of a close photo.</summary>
public sealed class PhotographColour : IUseCase
{
    /// <param name="field">The field or option to name in a refusal.</param>
    /// <param name="picture">The picture file's bytes.</param>
    /// <param name="paperAround">Whether bare white paper shows all around the edge of the photo.</param>
    public Outcome<PhotographColourAnswer> Handle(string field, byte[] picture, bool paperAround)
    {
        var opened = PhotoFile.Open(field, picture);
        if (!opened.TryGet(out var photo))
            return Outcome.Refused<PhotographColourAnswer>(opened.Problems);
        using (photo)
        {
            var seen = PhotoMiddle.Of(photo);
            if (!paperAround)
                return Outcome.Of(new PhotographColourAnswer(photo.Colour.ToXyz(seen.Middle), AgainstPaper: false));
            var (middle, edge) = (photo.Colour.ToXyz(seen.Middle), photo.Colour.ToXyz(seen.Edge));
            if (edge.Y < 15 || edge.Y < 0.95 * middle.Y)
                return Outcome.Refused<PhotographColourAnswer>(
                    field,
                    "The edge of the photo is darker than bare paper beside the colour would be.",
                    "Take it with white paper showing all around, or untick the paper."
                );
            if (seen.ClippedShare > 0.3)
                return Outcome.Refused<PhotographColourAnswer>(
                    field,
                    "The paper in the photo is burnt out to white, so nothing can be reckoned against it.",
                    "Take it again a little darker, or untick the paper."
                );
            var paper = photo.Colour.FromXyz(Paper.DrawingPaperGuess.Colour);
            var ratio = seen.Middle / seen.Edge;
            return Outcome.Of(
                new PhotographColourAnswer(
                    photo.Colour.ToXyz(new(ratio.R * paper.R, ratio.G * paper.G, ratio.B * paper.B)),
                    AgainstPaper: true
                )
            );
        }
    }
}

/// <param name="Colour">The colour.</param>
/// <param name="AgainstPaper">Whether it was reckoned against the bare paper around it.</param>
public sealed record PhotographColourAnswer(Xyz Colour, bool AgainstPaper);

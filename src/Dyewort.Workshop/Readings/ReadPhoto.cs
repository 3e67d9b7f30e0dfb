using Dyewort.Colour;
using Dyewort.Imaging;
using Dyewort.Quantities;
using Dyewort.Readings;

namespace Dyewort.Workshop.Readings;

/// <summary>Reads the swatches of one photo or scan.</summary>
public sealed class ReadPhoto : IUseCase
{
    /// <summary>What to read, and how.</summary>
    public sealed record Request
    {
        /// <summary>The picture file's bytes.</summary>
        public required byte[] Picture { get; init; }

        /// <summary>The sheet in the photo; null when spots are given.</summary>
        public SheetLayout? Layout { get; init; }

        /// <summary>Swatches outlined on the photo itself, upright pixels.</summary>
        public IReadOnlyList<Spot> Spots { get; init; } = [];

        /// <summary>The bare paper's colour; a stated guess when null.</summary>
        public Lab? Paper { get; init; }
    }

    /// <summary>A swatch outlined by hand.</summary>
    public sealed record Spot(string Id, IReadOnlyList<PointPx> PolygonPx);

    /// <summary>The reading, with the photo still open for pictures of it.</summary>
    public sealed class Answer(ReadingResult result, PageSamples samples, Photo photo) : IDisposable
    {
        public ReadingResult Result { get; } = result;

        /// <summary>What was measured before correction.</summary>
        public PageSamples Samples { get; } = samples;

        public Photo Photo { get; } = photo;

        public void Dispose() => Photo.Dispose();
    }

    /// <summary>Reads a photo; the caller disposes of the answer.</summary>
    public Outcome<Answer> Handle(Request request)
    {
        if (!PhotoFile.Open("photo", request.Picture).TryGet(out var photo)) return Outcome.Refused<Answer>(PhotoFile.Open("photo", request.Picture).Problems);
        var page = FindPage.ByMarkers("photo", photo, request.Layout!);
        if (!page.TryGet(out var found))
        {
            photo.Dispose();
            return Outcome.Refused<Answer>(page.Problems);
        }

        var samples = SampleCells.OnPage(photo, request.Layout!, found.Pose, found.Markers);
        var paper = request.Paper is { } known ? PaperColour.Measured(known) : PaperColour.Guess;
        var (swatches, calibration) = ReadPage.Of(samples.Cells, photo.Colour, paper);
        var layout = request.Layout!;
        var corners = found.Pose.Project([new(0, 0), new(layout.WidthMm, 0), new(layout.WidthMm, layout.HeightMm), new(0, layout.HeightMm)]);
        var result = new ReadingResult(
            [.. swatches.Select((swatch, i) => swatch with { OutlinePx = samples.Outlines[i], SampledPx = samples.Sampled[i] })],
            calibration,
            corners,
            [.. photo.Warnings, .. found.Warnings]) { PictureSize = (photo.Width, photo.Height) };
        return Outcome.Of(new Answer(result, samples, photo));
    }
}

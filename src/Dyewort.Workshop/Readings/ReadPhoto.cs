using System.Globalization;
using Dyewort.Colour;
using Dyewort.Imaging;
using Dyewort.Quantities;
using Dyewort.Readings;

namespace Dyewort.Workshop.Readings;

/// <summary>Reads the swatches of one photo or scan.</summary>
public sealed class ReadPhoto : IUseCase
{
    /// <summary>A swatch outlined by hand.</summary>
    public sealed record Spot(string Id, IReadOnlyList<PointPx> PolygonPx, bool IsCovered = false);

    /// <summary>Where a strip lies whose colours are not known yet.</summary>
    /// <param name="Corners">Its four outer corners, clockwise from the patch that comes first, upright pixels; empty to look for it beside
    /// the page.</param>
    /// <param name="Columns">Patches along the first side.</param>
    /// <param name="Rows">Patches along the second.</param>
    public sealed record StripPlace(IReadOnlyList<PointPx> Corners, int Columns, int Rows);

    /// <summary>Reads a photo; the caller disposes of the answer.</summary>
    public Outcome<ReadPhotoAnswer> Handle(ReadPhotoRequest request)
    {
        if (request.Layout is null && request.Grid is null && request.Spots.Count == 0)
            return Outcome.Refused<ReadPhotoAnswer>(
                "layout",
                "It is not known where the swatches are.",
                "Give the sheet's layout, or the corners and the grid, or outline each swatch."
            );
        if (request.Corners.Count is not (0 or 4))
            return Outcome.Refused<ReadPhotoAnswer>(
                "corners",
                $"{request.Corners.Count} corners were given.",
                "Give four, clockwise from the top left."
            );
        if (request.Grid is { } size && (size.Columns is < 1 or > 26 || size.Rows is < 1 or > 99))
            return Outcome.Refused<ReadPhotoAnswer>(
                "grid",
                $"A grid of {size.Columns} × {size.Rows} cannot be read.",
                "Give 1 to 26 columns and 1 to 99 rows, such as 4x6."
            );
        var opened = PhotoFile.Open("photo", request.Picture, buffers: request.Buffers);
        if (!opened.TryGet(out var photo))
            return Outcome.Refused<ReadPhotoAnswer>(opened.Problems);
        try
        {
            var outcome = Read(request, photo);
            if (!outcome.TryGet(out _))
                photo.Dispose();
            return outcome;
        }
        catch
        {
            photo.Dispose();
            throw;
        }
    }

    /// <summary>Brings a photo, reads it, and closes it again.</summary>
    /// <param name="request">How it is read; its picture is not used.</param>
    /// <param name="bring">Brings the picture file's bytes.</param>
    /// <param name="look">Called while the picture is open; null where only the colours are wanted.</param>
    public Outcome<ReadingResult> Handle(ReadPhotoRequest request, Func<Outcome<byte[]>> bring, Action<ReadPhotoAnswer>? look = null)
    {
        var brought = bring();
        if (!brought.TryGet(out var bytes))
            return Outcome.Refused<ReadingResult>(brought.Problems);
        var read = Handle(request with { Picture = bytes });
        if (!read.TryGet(out var answer))
            return Outcome.Refused<ReadingResult>(read.Problems);
        using (answer)
        {
            look?.Invoke(answer);
            return Outcome.Of(answer.Result);
        }
    }

    private static Outcome<ReadPhotoAnswer> Read(ReadPhotoRequest request, OpenPhoto photo)
    {
        var warnings = new List<ReadingWarning>(photo.Warnings);
        IReadOnlyList<PointPx> pageCorners = [];
        PageSamples samples;
        var isScan = request.IsScan;
        if (request.Layout is { } layout)
        {
            PagePose pose;
            IReadOnlyList<(SheetMarker Printed, SeenMarker Seen)> markers = [];
            PointMm[] corners = [new(0, 0), new(layout.WidthMm, 0), new(layout.WidthMm, layout.HeightMm), new(0, layout.HeightMm)];
            if (request.Corners.Count == 4)
            {
                if (PagePose.FromPoints(corners, request.Corners) is not { } tapped)
                    return BadCorners();
                pose = tapped;
            }
            else
            {
                var page = FindPage.ByMarkers("photo", photo, layout);
                if (!page.TryGet(out var found))
                    return Outcome.Refused<ReadPhotoAnswer>(page.Problems);
                (pose, markers) = (found.Pose, found.Markers);
                warnings.AddRange(found.Warnings);
                isScan |= FindPage.IsScan(photo, pose, layout.WidthMm, layout.HeightMm);
            }

            samples = SampleCells.OnPage(photo, layout, pose, markers);
            pageCorners = pose.Project(corners);
        }
        else
        {
            var spots = request.Spots.Select(spot => (spot.Id, spot.PolygonPx, spot.IsCovered)).ToList();
            if (request.Grid is { } grid)
            {
                if (request.Corners.Count != 4)
                    return Outcome.Refused<ReadPhotoAnswer>(
                        "corners",
                        "The grid's corners are not known.",
                        "Give its four corners, clockwise from the top left."
                    );
                if (GridSpots(request.Corners, grid.Columns, grid.Rows) is not { } cells)
                    return BadCorners();
                spots.InsertRange(0, cells.Select(cell => (cell.Id, cell.PolygonPx, cell.IsCovered)));
            }

            if (spots.GroupBy(spot => (spot.Id, spot.IsCovered)).FirstOrDefault(group => group.Count() > 1) is { } twice)
                return Outcome.Refused<ReadPhotoAnswer>("spots", $"Two swatches have the name “{twice.Key.Id}”.", "Give each its own.");
            samples = SampleCells.OnPhoto(photo, spots);
        }

        ShadowEdges(samples, warnings);
        var measured = new Measured(
            samples.Cells,
            samples.Markers,
            photo.Colour,
            SampleCells.PictureMean(photo),
            isScan,
            samples.Light?.Residual ?? 0.03
        );
        if (request.Card is not null && request.DefineStrip is not null)
            return Outcome.Refused<ReadPhotoAnswer>(
                "strip",
                "A strip cannot be defined and used in one reading.",
                "Define it first; then read with it."
            );
        var outlines = pageCorners.Count > 0 ? [pageCorners] : samples.Outlines;
        Reference? reference = null;
        IReadOnlyList<CardPatch>? defined = null;
        IReadOnlyList<PointPx> cardCorners = [];
        if (request.Card is { } card)
        {
            var (known, firstPaper) = card.IsStrip ? FirstStrip.Parts(card.Patches) : (card.Patches, null);
            var placed =
                card.Corners.Count == 0
                    ? FindCardPlace.ByColours(photo, known, card.Columns, card.Rows, outlines)
                    : Placed(new(card.Corners, card.Columns, card.Rows));
            if (!placed.TryGet(out var place))
                return Outcome.Refused<ReadPhotoAnswer>(placed.Problems);
            cardCorners = place.Corners;
            reference = new(FindCard.Patches(photo, place, known), card.IsStrip, PaperBeside(samples, place.Corners))
            {
                FirstPaper = firstPaper,
            };
        }
        else if (request.DefineStrip is { } strip)
        {
            var placed =
                strip.Corners.Count == 0
                    ? FindCardPlace.ByGrid(photo, strip.Columns, strip.Rows, outlines)
                    : Placed(new(strip.Corners, strip.Columns, strip.Rows));
            if (!placed.TryGet(out var place))
                return Outcome.Refused<ReadPhotoAnswer>(placed.Problems);
            cardCorners = place.Corners;
            if (PaperBeside(samples, place.Corners) is not { } beside)
                return Outcome.Refused<ReadPhotoAnswer>(
                    "strip",
                    "There is no bare paper in this photo to read the strip against.",
                    "Photograph the strip beside a painted sheet."
                );
            var unknown = Enumerable
                .Range(1, strip.Columns * strip.Rows)
                .Select(number => new CardPatch(number.ToString(CultureInfo.InvariantCulture), new(50, 0, 0)))
                .ToList();
            var patches = FindCard.Patches(photo, place, unknown);
            defined = FirstStrip.Define(measured, request.Paper, patches, beside, request.PaperDoubt, request.PaperKind, request.Black);
            if (defined.Count - 1 < Math.Max(3, unknown.Count - 2))
                return Outcome.Refused<ReadPhotoAnswer>(
                    "strip",
                    $"Only {defined.Count - 1} of the strip's {unknown.Count} patches can be read.",
                    "Make the picture darker, and keep shine off the strip."
                );
        }

        var (swatches, calibration, more) = ReadPage.Of(
            measured,
            request.Paper,
            reference,
            request.PaperDoubt,
            request.PaperKind,
            request.Black
        );
        warnings.AddRange(more);
        var result = new ReadingResult(
            [.. swatches.Select((swatch, i) => swatch with { OutlinePx = samples.Outlines[i], SampledPx = samples.Sampled[i] })],
            calibration,
            pageCorners,
            warnings
        )
        {
            PictureSize = (photo.Width, photo.Height),
            CardCornersPx = cardCorners,
        };
        return Outcome.Of(new ReadPhotoAnswer(result, samples, photo) { Strip = defined });
    }

    private static Outcome<CardPlace> Placed(CardPlace place) =>
        place.Corners.Count == 4
            ? Outcome.Of(place)
            : Outcome.Refused<CardPlace>(
                "card-corners",
                "The card's corners are not known.",
                "Give its four outer corners, clockwise from the patch that comes first."
            );

    private static Outcome<ReadPhotoAnswer> BadCorners() =>
        Outcome.Refused<ReadPhotoAnswer>(
            "corners",
            "Those four corners do not make a page.",
            "Give the four corners in order, clockwise from the top left."
        );

    /// <summary>Cells of a grid between four corners, named A1, B1 … by column letter and row number.</summary>
    /// <param name="corners">Its four corners, clockwise from the top left, upright pixels.</param>
    /// <param name="columns">1 to 26.</param>
    /// <param name="rows">1 to 99.</param>
    /// <returns>Row by row; null where the corners do not make a page.</returns>
    public static IReadOnlyList<Spot>? GridSpots(IReadOnlyList<PointPx> corners, int columns, int rows)
    {
        if (PagePose.FromPoints([new(0, 0), new(1, 0), new(1, 1), new(0, 1)], corners) is not { } pose)
            return null;
        var cells = new List<Spot>();
        for (var row = 0; row < rows; row++)
        {
            for (var column = 0; column < columns; column++)
            {
                // Painted swatches leave some paper between them: the middle four fifths of each place are taken for the swatch.
                PointMm At(double u, double v) => new((column + u) / columns, (row + v) / rows);
                cells.Add(new($"{(char)('A' + column)}{row + 1}", pose.Project([At(0.1, 0.1), At(0.9, 0.1), At(0.9, 0.9), At(0.1, 0.9)])));
            }
        }

        return cells;
    }

    /// <summary>Paper of the cell that lies nearest to the card.</summary>
    private static FileRgb? PaperBeside(PageSamples samples, IReadOnlyList<PointPx> card)
    {
        if (samples.Cells.Count == 0)
            return null;
        var middle = new PointPx(card.Average(p => p.X), card.Average(p => p.Y));
        var nearest = Enumerable.Range(0, samples.Cells.Count).MinBy(i => samples.Outlines[i][0].DistanceTo(middle));
        return samples.Cells[nearest].Paper;
    }

    private static void ShadowEdges(PageSamples samples, List<ReadingWarning> warnings)
    {
        var crossed = samples.Cells.Where(cell => cell.LightStep > 0.06).Select(cell => cell.Id).ToList();
        if (crossed.Count > 0)
            warnings.Add(
                new(
                    "shadow",
                    "A shadow's edge or a strong change of light runs across "
                        + $"{string.Join(", ", crossed.Take(8))}{(crossed.Count > 8 ? " and others" : "")}. Move the page, the lamp or "
                        + "your hand."
                )
            );
    }
}

/// <summary>The reading, with the photo still open for pictures of it.</summary>
public sealed class ReadPhotoAnswer(ReadingResult result, PageSamples samples, OpenPhoto photo) : IDisposable
{
    public ReadingResult Result { get; } = result;

    /// <summary>What was measured before correction.</summary>
    public PageSamples Samples { get; } = samples;

    public OpenPhoto Photo { get; } = photo;

    /// <summary>The strip's patches as this photo defines them, and the bare paper; null where that was not asked for.</summary>
    public IReadOnlyList<CardPatch>? Strip { get; init; }

    /// <summary>The photo with what was read where drawn on it, PNG.</summary>
    public byte[] MarkedPicture(int longSide = 1600) => PhotoPictures.Marked(Photo, Result, longSide);

    /// <summary>The painted cell as the photo shows it, JPEG without any camera notes; empty where the cell lies outside.</summary>
    public byte[] Crop(SwatchReading swatch, int longSide = 320) => PhotoPictures.Crop(Photo, swatch.OutlinePx, longSide);

    public void Dispose() => Photo.Dispose();
}

/// <summary>A reference card or house strip in the photo.</summary>
/// <param name="Patches">Its patches.</param>
/// <param name="Corners">Its four outer corners, clockwise from the patch that comes first, upright pixels; empty to look for it beside the
/// page.</param>
/// <param name="Columns">Patches along the first side.</param>
/// <param name="Rows">Patches along the second.</param>
/// <param name="IsStrip">True for the maker's own strip; its patches may hold the first day's paper
/// (<see cref="FirstStrip.PaperId"/>).</param>
public sealed record ReadPhotoCard(
    IReadOnlyList<CardPatch> Patches,
    IReadOnlyList<PointPx> Corners,
    int Columns,
    int Rows,
    bool IsStrip = false
);

/// <summary>What to read, and how. One of layout, grid or spots says where the swatches are.</summary>
public sealed record ReadPhotoRequest
{
    /// <summary>The picture file's bytes.</summary>
    public required byte[] Picture { get; init; }

    /// <summary>The printed sheet in the photo.</summary>
    public SheetLayout? Layout { get; init; }

    /// <summary>Four corners tapped on the photo, clockwise from the top left, upright pixels: of the sheet with a layout, of the painted
    /// grid without one. Markers are then not needed.</summary>
    public IReadOnlyList<PointPx> Corners { get; init; } = [];

    /// <summary>Columns and rows of a grid painted without a sheet; wants <see cref="Corners"/>.</summary>
    public (int Columns, int Rows)? Grid { get; init; }

    /// <summary>Swatches outlined on the photo itself, upright pixels.</summary>
    public IReadOnlyList<ReadPhoto.Spot> Spots { get; init; } = [];

    /// <summary>The bare paper's colour; a stated guess when null.</summary>
    public Lab? Paper { get; init; }

    /// <summary>Standard uncertainty of <see cref="Paper"/>, ΔE₀₀; that of a good instrument when null.</summary>
    public double? PaperDoubt { get; init; }

    /// <summary>The kind of paper, for the guess where <see cref="Paper"/> is null.</summary>
    public PaperKind? PaperKind { get; init; }

    /// <summary>How black the sheet is printed, where it is known.</summary>
    public PrintedBlack? Black { get; init; }

    /// <summary>True when the maker says that it is a flatbed scan; a scan of a sheet is also told by its size.</summary>
    public bool IsScan { get; init; }

    /// <summary>A reference card in the photo.</summary>
    public ReadPhotoCard? Card { get; init; }

    /// <summary>A strip of stable patches whose colours this reading is to define; not with <see cref="Card"/>.</summary>
    public ReadPhoto.StripPlace? DefineStrip { get; init; }

    /// <summary>Memory for the pixels, for a caller who reads many photos in a row; taken from the system when null.</summary>
    public PixelBuffers? Buffers { get; init; }
}

using Dyewort.Colour;
using Dyewort.Imaging;
using Dyewort.Notebook;
using Dyewort.Quantities;
using Dyewort.Readings;
using Dyewort.Store;
using Dyewort.Workshop.Readings;
using Microsoft.EntityFrameworkCore;
using Photo = Dyewort.Notebook.Photo;

namespace Dyewort.Workshop.Pantry;

/// <summary>Measures a bare paper once, so that every reading on it stands on a known white.</summary>
public sealed class MeasurePaper(NotebookDb db, PhotoShelf shelf, TimeProvider clock) : IUseCase
{
    /// <summary>Light on a paper that lies beside a card differs from that on the card by about this, ΔE₀₀, one standard deviation (common
    /// practice, no source).</summary>
    private const double LightBeside = 1;

    /// <summary>95 % uncertainty of a scan's white, ΔE₀₀: with a profile of its own, and without (common practice, no source).</summary>
    private const double ProfiledScan = 2.5;
    private const double PlainScan = 4;

    public sealed record InstrumentFigures
    {
        /// <summary>"L a b".</summary>
        public string? Lab { get; init; }

        /// <summary>"D50" or "D65".</summary>
        public string? Illuminant { get; init; }

        /// <summary>95 % uncertainty, ΔE₀₀.</summary>
        public string? Uncertainty { get; init; }

        public string? MeasuredOn { get; init; }
    }

    public sealed record Print
    {
        /// <summary>Per cent of the paper's light; empty to forget it.</summary>
        public string? Black { get; init; }
    }

    public sealed record Pointed
    {
        /// <summary>A place of bare paper, "x, y".</summary>
        public string? Paper { get; init; }

        /// <summary>The card's four corners, clockwise from the patch that comes first.</summary>
        public IReadOnlyList<string> Corner { get; init; } = [];

        public string? Columns { get; init; }

        public string? Rows { get; init; }

        /// <summary>The card's CGATS.17 text.</summary>
        public string? Card { get; init; }
    }

    /// <returns>Null where there is no such paper.</returns>
    public async Task<MeasurePaperAnswer?> ShowAsync(Guid id, CancellationToken cancel)
    {
        if (
            await db.Materials.AsNoTracking().SingleOrDefaultAsync(one => one.Id == id && one.Kind == MaterialKind.Paper, cancel)
            is not { } paper
        )
            return null;
        var photos = await db
            .Photos.AsNoTracking()
            .Counting()
            .Where(photo => photo.SubjectId == id)
            .OrderByDescending(photo => photo.Id)
            .ToListAsync(cancel);
        return new(paper, PaperGuess.All.First(guess => guess.Kind == (paper.PaperKind ?? PaperKind.Natural)), photos);
    }

    /// <summary>Writes an instrument's figures down.</summary>
    public async Task<Outcome<Guid>> ByInstrumentAsync(Guid id, InstrumentFigures form, CancellationToken cancel)
    {
        if (await PaperAsync(id, cancel) is not { } paper)
            return NoPaper();
        var entered = new Entered();
        var d50 = TypedLab.IsD50(entered, nameof(form.Illuminant), form.Illuminant);
        var lab = TypedLab.Read(entered, nameof(form.Lab), form.Lab ?? "", d50);
        var u95 = entered.OptionalNumber(nameof(form.Uncertainty), form.Uncertainty, "ΔE00", 0.05, 20, "0.6") ?? 0.6;
        var today = DateOnly.FromDateTime(clock.GetLocalNow().DateTime);
        var day = entered.PastDay(nameof(form.MeasuredOn), form.MeasuredOn, today, today);
        if (!entered.Sound || lab is not { } colour)
            return Outcome.Refused<Guid>(entered.Problems);
        return await WriteAsync(paper, colour, u95, "instrument", day, cancel);
    }

    /// <summary>Writes down how black the maker's sheets come out on this paper.</summary>
    public async Task<Outcome<Guid>> ByPrintAsync(Guid id, Print form, CancellationToken cancel)
    {
        if (await PaperAsync(id, cancel) is not { } paper)
            return NoPaper();
        var entered = new Entered();
        var percent = entered.OptionalNumber(nameof(form.Black), form.Black, "%", PrintedBlack.LeastPercent, PrintedBlack.MostPercent, "6");
        if (!entered.Sound)
            return Outcome.Refused<Guid>(entered.Problems);
        (paper.PrintedBlackPercent, paper.PrintedBlackMethod) = (percent, percent is null ? null : "typed");
        await db.SaveChangesAsync(cancel);
        return Outcome.Of(id);
    }

    /// <summary>Keeps a picture of the paper, to be pointed to.</summary>
    /// <param name="id">The paper.</param>
    /// <param name="picture">The file as it came.</param>
    /// <param name="isScan">True for a flatbed scan.</param>
    /// <returns>The photo's key.</returns>
    public async Task<Outcome<Guid>> SendAsync(Guid id, byte[] picture, bool isScan, CancellationToken cancel)
    {
        if (await PaperAsync(id, cancel) is null)
            return NoPaper();
        if (picture.Length == 0)
            return Outcome.Refused<Guid>(
                "Picture",
                "No picture came.",
                isScan ? "Scan the bare paper." : "Photograph the bare paper with the card on it."
            );
        var opened = PhotoFile.Open("Picture", picture);
        if (!opened.TryGet(out var seen))
            return Outcome.Refused<Guid>(opened.Problems);
        using (seen)
        {
            var now = clock.GetUtcNow();
            var extension = PhotoNames.Extension(seen.Kind);
            var photo = new Photo
            {
                Id = Guid.CreateVersion7(now),
                WrittenAt = now,
                Sha256 = await shelf.KeepAsync(picture, extension, cancel),
                Extension = extension,
                SubjectId = id,
                TakenAt = now,
                Source = isScan ? ReadingSource.Scan : ReadingSource.Photo,
                WidthPx = seen.Width,
                HeightPx = seen.Height,
            };
            db.Add(photo);
            await db.SaveChangesAsync(cancel);
            return Outcome.Of(photo.Id);
        }
    }

    /// <summary>Measures the paper on a kept picture.</summary>
    /// <returns>The paper's key.</returns>
    public async Task<Outcome<Guid>> ByPictureAsync(Guid id, Guid photoId, Pointed form, CancellationToken cancel)
    {
        if (await PaperAsync(id, cancel) is not { } paper)
            return NoPaper();
        if (await db.Photos.AsNoTracking().SingleOrDefaultAsync(one => one.Id == photoId && one.SubjectId == id, cancel) is not { } photo)
            return Outcome.Refused<Guid>(nameof(form.Paper), "This picture is not in the notebook.", "Send it again.");
        var path = shelf.PathOf(photo.Sha256, photo.Extension);
        if (!File.Exists(path) || !PhotoFile.OpenFile("Paper", path).TryGet(out var picture))
            return Outcome.Refused<Guid>(
                nameof(form.Paper),
                "The picture is no longer on the shelf beside the notebook.",
                "Send it again."
            );
        using (picture)
        {
            var entered = new Entered();
            var at = Placing.Parse(form.Paper);
            if (at is not { Count: 1 })
                entered.Refuse(
                    nameof(form.Paper),
                    "It was not shown where the bare paper is.",
                    "Tap a clean place of it, or type two numbers."
                );
            var isScan = photo.Source == ReadingSource.Scan;
            var place = isScan ? null : CardPlaceOf(form, entered);
            var card = isScan ? [] : entered.Take(CardFile.Parse(nameof(form.Card), form.Card ?? "")) ?? [];
            if (!entered.Sound)
                return Outcome.Refused<Guid>(entered.Problems);
            var side = Math.Max(12, Math.Min(picture.Width, picture.Height) / 30.0);
            var (light, spread, clipped) = SampleCells.Patch(picture, Placing.Square(at![0], side), 1);
            if (light.G <= 0.02 || clipped > 0.1)
                return Outcome.Refused<Guid>(
                    nameof(form.Paper),
                    clipped > 0.1 ? "The paper is burnt out to white in this picture." : "There is no paper at this place of the picture.",
                    clipped > 0.1 ? "Make the picture darker with the camera's exposure slider." : "Tap bare, clean paper."
                );
            if (spread > 0.15)
                return Outcome.Refused<Guid>(
                    nameof(form.Paper),
                    "The place is not even: paint, print or an edge is on it.",
                    "Tap bare, clean paper."
                );
            var measured = isScan ? ByScan(picture, light) : ByCard(picture, light, place!, card);
            if (!measured.TryGet(out var result))
                return Outcome.Refused<Guid>(measured.Problems);
            return await WriteAsync(
                paper,
                result.Lab,
                result.U95,
                isScan ? "scan" : "card",
                DateOnly.FromDateTime(clock.GetLocalNow().DateTime),
                cancel
            );
        }
    }

    private sealed record Result(Lab Lab, double U95);

    private static Outcome<Result> ByScan(Imaging.OpenPhoto picture, FileRgb light) =>
        Outcome.Of(
            new Result(
                Lab.FromXyz(picture.Colour.ToXyz(light)),
                ReferenceEquals(picture.Colour, FileColour.Srgb) ? PlainScan : ProfiledScan
            )
        );

    private static Outcome<Result> ByCard(Imaging.OpenPhoto picture, FileRgb light, CardPlace place, IReadOnlyList<CardPatch> card)
    {
        var patches = FindCard.Patches(picture, place, card);
        var look = CameraLook.Estimate([], light, SampleCells.PictureMean(picture).G / light.G, scan: false);
        if (CardFit.Best(patches, picture.Colour, look) is not { } fit)
            return Outcome.Refused<Result>(
                nameof(Pointed.Card),
                "Too few patches of the card can be read.",
                "Keep the card flat, free of shine and not burnt out, and look whether the grid drawn lies on its patches."
            );
        if (fit.LeaveOneOutDe00 > 8)
            return Outcome.Refused<Result>(
                nameof(Pointed.Corner),
                FormattableString.Invariant(
                    $"The patches do not fit the card's file: each, foretold from the others, is ΔE00 {fit.LeaveOneOutDe00:0.0} off."
                ),
                "Look whether the first corner is at the patch that comes first, and the grid is right."
            );
        var seen = fit.Look.Undo(light);
        var lab = Lab.FromXyz(picture.Colour.ToXyz(fit.Map.Map(new(seen.R / fit.White.R, seen.G / fit.White.G, seen.B / fit.White.B))));
        return lab.L is > 40 and < 104
            ? Outcome.Of(
                new Result(lab, Uncertainty.TwoSided * Math.Sqrt((fit.LeaveOneOutDe00 * fit.LeaveOneOutDe00) + (LightBeside * LightBeside)))
            )
            : Outcome.Refused<Result>(
                nameof(Pointed.Paper),
                FormattableString.Invariant($"L* {lab.L:0} is no paper's lightness."),
                "Tap bare paper in the same light as the card."
            );
    }

    private static CardPlace? CardPlaceOf(Pointed form, Entered entered)
    {
        var corners = form.Corner.Select(Placing.Parse).ToList();
        var columns = entered.Whole(nameof(form.Columns), form.Columns, "Patches along the card's first side", 1, 60, 6);
        var rows = entered.Whole(nameof(form.Rows), form.Rows, "Patches along its second side", 1, 60, 4);
        if (corners.Count == 4 && corners.TrueForAll(corner => corner is { Count: 1 }))
            return new([.. corners.Select(corner => corner![0])], columns, rows);
        entered.Refuse(
            nameof(form.Corner),
            "Four corners of the card are needed, each with two numbers.",
            "Tap them, beginning with the patch that comes first."
        );
        return null;
    }

    private async Task<Outcome<Guid>> WriteAsync(
        Material paper,
        Lab colour,
        double u95,
        string method,
        DateOnly day,
        CancellationToken cancel
    )
    {
        (paper.BareColour, paper.BareUncertaintyDe00, paper.BareMethod, paper.BareMeasuredOn) = (colour.ToXyz(), u95, method, day);
        await db.SaveChangesAsync(cancel);
        return Outcome.Of(paper.Id);
    }

    private Task<Material?> PaperAsync(Guid id, CancellationToken cancel) =>
        db.Materials.SingleOrDefaultAsync(one => one.Id == id && one.Kind == MaterialKind.Paper, cancel);

    private static Outcome<Guid> NoPaper() =>
        Outcome.Refused<Guid>(nameof(InstrumentFigures.Lab), "This paper is not in the pantry.", "Go back to the pantry.");
}

/// <param name="Paper">The paper.</param>
/// <param name="Guess">What papers of its kind are like.</param>
/// <param name="Photos">Pictures sent for measuring it, newest first.</param>
public sealed record MeasurePaperAnswer(Material Paper, PaperGuess Guess, IReadOnlyList<Photo> Photos);

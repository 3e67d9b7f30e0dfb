using Dyewort.Quantities;
using Dyewort.Readings;
using Dyewort.Store;
using Dyewort.Workshop.Readings;
using Microsoft.EntityFrameworkCore;

namespace Dyewort.Workshop.Charts;

/// <summary>Lets a photo of a chart, beside which a strip of stable patches lies, say what that strip is: the house strip that later photos are brought back to.</summary>
public sealed class KeepStrip(NotebookDb db, PhotoShelf shelf, MadeShelf made, ReadPhoto reader, TimeProvider clock) : IUseCase
{
    public sealed record Form
    {
        public string? Name { get; init; }

        public string? Columns { get; init; }

        public string? Rows { get; init; }

        /// <summary>Its four corners, "x, y" each, clockwise from the patch that comes first.</summary>
        public IReadOnlyList<string> Corner { get; init; } = [];
    }

    /// <param name="Strip">The strip.</param>
    /// <param name="Patches">Its patches as the first photo had them, and the bare paper of that day last.</param>
    /// <param name="Used">How many photos were brought back to it.</param>
    public sealed record Line(Notebook.HouseStrip Strip, IReadOnlyList<CardPatch> Patches, int Used);

    /// <summary>Every strip, by name.</summary>
    public async Task<IReadOnlyList<Line>> ListAsync(CancellationToken cancel)
    {
        var strips = await db.HouseStrips.AsNoTracking().Where(strip => strip.WithdrawnAt == null).OrderBy(strip => strip.Name).ToListAsync(cancel);
        var used = (await db.Photos.AsNoTracking().Where(photo => photo.StripId != null && photo.WithdrawnAt == null).Select(photo => photo.StripId!.Value).ToListAsync(cancel)).ToLookup(id => id);
        return [.. strips.Select(strip => new Line(strip, CardFile.Parse("strip", strip.Patches).TryGet(out var patches) ? patches : [], used[strip.Id].Count()))];
    }

    /// <returns>The strip's key.</returns>
    public async Task<Outcome<Guid>> HandleAsync(int number, Guid photoId, Form form, CancellationToken cancel)
    {
        if (await ChartReader.FindAsync(db, number, photoId, cancel) is not var (photo, chart)) return Outcome.Refused<Guid>(nameof(form.Name), "This photo is not in the notebook.", "Go back to the chart.");
        var entered = new Entered();
        var name = entered.Words(nameof(form.Name), form.Name, "The strip’s name", 60);
        var columns = entered.Whole(nameof(form.Columns), form.Columns, "Patches along its first side", 1, 26, 6);
        var rows = entered.Whole(nameof(form.Rows), form.Rows, "Patches along its second side", 1, 26, 1);
        var corners = form.Corner.Select(Placing.Parse).ToList();
        if (corners.Count != 4 || corners.Exists(corner => corner is not { Count: 1 })) entered.Refuse(nameof(form.Corner), "Four corners of the strip are needed, each with two numbers.", "Tap them, beginning with the patch that comes first.");
        if (columns * rows < 3 && entered.Sound) entered.Refuse(nameof(form.Columns), "Fewer than three patches cannot tell one light from another.", "Take a strip with more, from light to dark and in several colours.");
        if (await db.HouseStrips.AnyAsync(strip => strip.Name == name && strip.WithdrawnAt == null, cancel)) entered.Refuse(nameof(form.Name), $"There is a strip “{name}” already.", "Give this one another name.");
        var path = shelf.PathOf(photo.Sha256, photo.Extension);
        if (!File.Exists(path)) entered.Refuse(nameof(form.Name), "The picture is no longer on the shelf beside the notebook.", "Send it again.");
        if (!entered.Sound) return Outcome.Refused<Guid>(entered.Problems);

        List<PointPx> quad = [.. corners.Select(corner => corner![0])];
        var outcome = await new ChartReader(db, made, reader, clock).ReadAsync(chart, photo, await File.ReadAllBytesAsync(path, cancel), cancel, new(quad, columns, rows));
        if (!outcome.TryGet(out var answer)) return Outcome.Refused<Guid>([.. outcome.Problems.Select(problem => problem with { Field = nameof(form.Corner) })]);
        using (answer)
        {
            if (answer.Strip is not { Count: > 0 } patches) return Outcome.Refused<Guid>(nameof(form.Corner), "No patch of the strip could be read.", "Look whether the grid drawn lies on it.");
            var now = clock.GetUtcNow();
            var strip = new Notebook.HouseStrip
            {
                Id = Guid.CreateVersion7(now),
                WrittenAt = now,
                Name = name,
                Columns = columns,
                Rows = rows,
                Patches = CardFile.Write(patches, $"house strip {name}"),
                PhotoId = photoId,
                CornersJson = Placing.PointsJson(quad),
            };
            db.Add(strip);
            await db.SaveChangesAsync(cancel);
            return Outcome.Of(strip.Id);
        }
    }
}

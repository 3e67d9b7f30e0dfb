using Dyewort.Quantities;
using Dyewort.Readings;
using Dyewort.Store;
using Dyewort.Workshop.Readings;
using Microsoft.EntityFrameworkCore;

namespace Dyewort.Workshop.Charts;

/// <summary>Keeps what lies beside charts: a strip of stable patches as a photo of it says they are, which later photos are brought back
/// to, or a card as its maker states it.</summary>
public sealed class KeepStrip(NotebookDb db, PhotoShelf shelf, MadeShelf made, ReadPhoto reader, TimeProvider clock) : IUseCase
{
    /// <summary>Every strip and card, by name.</summary>
    public async Task<IReadOnlyList<KeepStripLine>> ListAsync(CancellationToken cancel)
    {
        var strips = await db.HouseStrips.AsNoTracking().Counting().OrderBy(strip => strip.Name).ToListAsync(cancel);
        var used = (
            await db
                .Photos.AsNoTracking()
                .Counting()
                .Where(photo => photo.StripId != null)
                .Select(photo => photo.StripId!.Value)
                .ToListAsync(cancel)
        ).ToLookup(id => id);
        return
        [
            .. strips.Select(strip => new KeepStripLine(
                strip,
                CardFile.Parse("strip", strip.Patches).TryGet(out var patches) ? patches : [],
                used[strip.Id].Count()
            )),
        ];
    }

    /// <summary>Keeps a card.</summary>
    /// <returns>The card's key.</returns>
    public async Task<Outcome<Guid>> HandleAsync(KeepStripCard form, CancellationToken cancel)
    {
        var entered = new Entered();
        var (name, columns, rows) = await NamedAsync(form.Name, form.Columns, form.Rows, "card", 4, entered, cancel);
        var patches = string.IsNullOrWhiteSpace(form.File) ? null : entered.Take(CardFile.Parse(nameof(form.File), form.File));
        if (string.IsNullOrWhiteSpace(form.File))
            entered.Refuse(nameof(form.File), "The card’s colours are missing.", "Choose the file that its maker gives for it.");
        if (patches is not null && entered.Sound)
        {
            var places = CardFile.Places(patches, columns, rows);
            if (patches.Count > columns * rows)
                entered.Refuse(
                    nameof(form.Columns),
                    $"The file has {patches.Count} patches, a grid of {columns} × {rows} has {columns * rows}.",
                    "Count the patches along both sides."
                );
            else if (places.Count(place => place >= 0) < 3)
                entered.Refuse(
                    nameof(form.File),
                    "It cannot be told where the file’s patches lie on the card.",
                    "Number them along the rows, or give column and row, such as B3."
                );
        }

        if (!entered.Sound)
            return Outcome.Refused<Guid>(entered.Problems);
        return await KeptAsync(
            new()
            {
                Id = Guid.CreateVersion7(clock.GetUtcNow()),
                WrittenAt = clock.GetUtcNow(),
                Name = name,
                Columns = columns,
                Rows = rows,
                Patches = form.File!,
                IsCard = true,
            },
            cancel
        );
    }

    /// <summary>Keeps a strip that lies on a photo of a chart.</summary>
    /// <returns>The strip's key.</returns>
    public async Task<Outcome<Guid>> HandleAsync(int number, Guid photoId, KeepStripForm form, CancellationToken cancel)
    {
        if (await ChartReader.FindAsync(db, number, photoId, cancel) is not var (photo, chart))
            return Outcome.Refused<Guid>(nameof(form.Name), "This photo is not in the notebook.", "Go back to the chart.");
        var entered = new Entered();
        var corners = form.Corner.Select(Placing.Parse).ToList();
        if (corners.Count != 4 || corners.Exists(corner => corner is not { Count: 1 }))
            entered.Refuse(
                nameof(form.Corner),
                "Four corners of the strip are needed, each with two numbers.",
                "Tap them, beginning with the patch that comes first."
            );
        var (name, columns, rows) = await NamedAsync(form.Name, form.Columns, form.Rows, "strip", 1, entered, cancel);
        var path = shelf.PathOf(photo.Sha256, photo.Extension);
        if (!File.Exists(path))
            entered.Refuse(nameof(form.Name), "The picture is no longer on the shelf beside the notebook.", "Send it again.");
        if (!entered.Sound)
            return Outcome.Refused<Guid>(entered.Problems);

        List<PointPx> quad = [.. corners.Select(corner => corner![0])];
        var outcome = await new ChartReader(db, made, reader, clock).ReadAsync(
            chart,
            photo,
            await File.ReadAllBytesAsync(path, cancel),
            cancel,
            new(quad, columns, rows)
        );
        if (!outcome.TryGet(out var answer))
            return Outcome.Refused<Guid>([.. outcome.Problems.Select(problem => problem with { Field = nameof(form.Corner) })]);
        using (answer)
        {
            if (answer.Strip is not { Count: > 0 } patches)
                return Outcome.Refused<Guid>(
                    nameof(form.Corner),
                    "No patch of the strip could be read.",
                    "Look whether the grid drawn lies on it."
                );
            var now = clock.GetUtcNow();
            return await KeptAsync(
                new()
                {
                    Id = Guid.CreateVersion7(now),
                    WrittenAt = now,
                    Name = name,
                    Columns = columns,
                    Rows = rows,
                    Patches = CardFile.Write(patches, $"house strip {name}"),
                    PhotoId = photoId,
                    CornersJson = Placing.PointsJson(quad),
                },
                cancel
            );
        }
    }

    private async Task<(string Name, int Columns, int Rows)> NamedAsync(
        string? typedName,
        string? typedColumns,
        string? typedRows,
        string kind,
        int usualRows,
        Entered entered,
        CancellationToken cancel
    )
    {
        var name = await FreeNameAsync(db, nameof(KeepStripForm.Name), typedName, $"The {kind}’s name", null, entered, cancel);
        var columns = entered.Whole(nameof(KeepStripForm.Columns), typedColumns, "Patches along its first side", 1, 26, 6);
        var rows = entered.Whole(nameof(KeepStripForm.Rows), typedRows, "Patches along its second side", 1, 26, usualRows);
        if (columns * rows < 3 && entered.Sound)
            entered.Refuse(
                nameof(KeepStripForm.Columns),
                "Fewer than three patches cannot tell one light from another.",
                "Take one with more, from light to dark and in several colours."
            );
        return (name, columns, rows);
    }

    /// <summary>A name that no other strip or card bears.</summary>
    internal static async Task<string> FreeNameAsync(
        NotebookDb db,
        string field,
        string? typed,
        string what,
        Guid? self,
        Entered entered,
        CancellationToken cancel
    )
    {
        var name = entered.Words(field, typed, what, 60);
        if (await db.HouseStrips.Counting().AnyAsync(other => other.Id != self && other.Name == name, cancel))
            entered.Refuse(field, $"There is a strip or card “{name}” already.", "Give this one another name.");
        return name;
    }

    private async Task<Outcome<Guid>> KeptAsync(Notebook.HouseStrip strip, CancellationToken cancel)
    {
        db.Add(strip);
        await db.SaveChangesAsync(cancel);
        return Outcome.Of(strip.Id);
    }
}

/// <param name="Strip">The strip or card.</param>
/// <param name="Patches">Its patches: a strip's as the first photo had them, and the bare paper of that day last.</param>
/// <param name="Used">How many photos stand on it.</param>
public sealed record KeepStripLine(Notebook.HouseStrip Strip, IReadOnlyList<CardPatch> Patches, int Used);

/// <summary>A reference card: what it is called, its grid, and its CGATS.17 text.</summary>
public sealed record KeepStripCard(string? Name, string? Columns, string? Rows, string? File);

public sealed record KeepStripForm
{
    public string? Name { get; init; }

    public string? Columns { get; init; }

    public string? Rows { get; init; }

    /// <summary>Its four corners, "x, y" each, clockwise from the patch that comes first.</summary>
    public IReadOnlyList<string> Corner { get; init; } = [];
}

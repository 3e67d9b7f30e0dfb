using Dyewort.Making;
using Dyewort.Quantities;
using Dyewort.Store;
using Microsoft.EntityFrameworkCore;

namespace Dyewort.Workshop.Recipes;

/// <summary>Puts a recipe right, and takes it back where no batch was made of it.</summary>
public sealed class ChangeRecipe(NotebookDb db, TimeProvider clock) : EntryChange<Recipe, CorrectRecipeForm>(db, clock), IUseCase
{
    protected override Task<Recipe?> FindAsync(Thing thing, CancellationToken cancel) =>
        Db.Recipes.SingleOrDefaultAsync(one => one.Code == thing.Code, cancel);

    protected override async Task<Action> ReadAsync(Entered entered, Recipe entry, CorrectRecipeForm form, CancellationToken cancel)
    {
        var name = entered.Words(nameof(form.Name), form.Name, "The name", longest: 40);
        int? months = string.IsNullOrWhiteSpace(form.KeepMonths)
            ? null
            : entered.Whole(nameof(form.KeepMonths), form.KeepMonths, "How long it keeps", 1, 120, 12);
        var caution = entered.OptionalWords(nameof(form.Caution), form.Caution, 120);
        var note = entered.OptionalWords(nameof(form.Note), form.Note);
        if (await IsTakenAsync(name, entry, cancel))
            entered.Refuse(
                nameof(form.Name),
                $"There is a recipe called “{name}” already.",
                "Give this one another name, so that labels cannot be mixed up."
            );
        return () => (entry.Name, entry.KeepMonths, entry.Caution, entry.Note) = (name, months, caution, note);
    }

    protected override async Task<IReadOnlyList<InTheWay>> InTheWayAsync(Recipe entry, CancellationToken cancel) =>
        [
            .. (
                await Db
                    .Batches.AsNoTracking()
                    .Counting()
                    .Where(one => one.RecipeId == entry.Id)
                    .OrderBy(one => one.Number)
                    .ToListAsync(cancel)
            ).Select(batch => new InTheWay($"Batch {batch.Code} was made of it.", "Take the batch back first.", Thing.Batch(batch.Code))),
        ];

    protected override async Task<Problem?> NotBackAsync(Recipe entry, CancellationToken cancel)
    {
        if (await IsTakenAsync(entry.Name, entry, cancel))
            return new(nameof(WithdrawForm.Why), $"Another recipe is called “{entry.Name}” now.", "Rename that one first.");
        return entry.SampleId is not { } sample || await Db.Samples.Counting().AnyAsync(one => one.Id == sample, cancel)
            ? null
            : new(nameof(WithdrawForm.Why), "The jar it was kept from was taken back.", "Put the jar back first.");
    }

    private async Task<bool> IsTakenAsync(string name, Recipe entry, CancellationToken cancel) =>
        (await Db.Recipes.Counting().Where(one => one.Id != entry.Id).Select(one => one.Name).ToListAsync(cancel)).Contains(
            name,
            StringComparer.OrdinalIgnoreCase
        );
}

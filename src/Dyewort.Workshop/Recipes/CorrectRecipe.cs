using Dyewort.Making;
using Dyewort.Quantities;
using Dyewort.Store;
using Microsoft.EntityFrameworkCore;

namespace Dyewort.Workshop.Recipes;

/// <summary>Corrects what a recipe says, adds a line to it, or takes one out; what stood there before stays readable.</summary>
public sealed class CorrectRecipe(NotebookDb db, NotebookSettings settings, TimeProvider clock, ChangeRecipe change) : IUseCase
{
    /// <summary>Corrects name, keeping and words.</summary>
    public async Task<Outcome<string>> HandleAsync(string code, CorrectRecipeForm form, CancellationToken cancel)
    {
        var outcome = await change.CorrectAsync(Thing.Recipe(code), form, cancel);
        return outcome.TryGet(out var made) ? Outcome.Of(made.Code) : Outcome.Refused<string>(outcome.Problems);
    }

    public async Task<Outcome<string>> AddLineAsync(string code, CorrectRecipeLine form, CancellationToken cancel)
    {
        if (await FindAsync(code, cancel) is not { } recipe)
            return Missing(code, nameof(form.Material));
        var teaspoon = (await settings.ReadAsync(cancel)).Teaspoon;
        var entered = new Entered(teaspoon, form);
        var material = Guid.TryParse(form.Material, out var id)
            ? await db.Materials.AsNoTracking().Counting().SingleOrDefaultAsync(one => one.Id == id, cancel)
            : null;
        if (material is null)
            entered.Refuse(
                nameof(form.Material),
                "What goes in was not chosen.",
                "Choose a material; what is not there, write into the pantry first."
            );
        else
        {
            var ids = await db
                .RecipeSteps.Counting()
                .Where(step => step.RecipeId == recipe.Id)
                .Select(step => step.MaterialId)
                .ToListAsync(cancel);
            var there = await db.Materials.AsNoTracking().Where(one => ids.Contains(one.Id)).ToListAsync(cancel);
            if (Caution.WhyNot(material, there) is { } never)
                entered.Refuse(nameof(form.Material), $"That is no recipe. {never}", "Choose something else.");
        }

        var amount = entered.Take(Quantities.Amount.Parse(nameof(form.Amount), form.Amount));
        if (amount is { Number: <= 0 })
            entered.Refuse(nameof(form.Amount), "Nothing at all cannot go in.", "Type an amount above zero, such as 8 ml.");
        var forMl = string.IsNullOrWhiteSpace(form.For)
            ? recipe.BaseVolumeMl
            : entered.Take(Volume.Parse(nameof(form.For), form.For, teaspoon)).Millilitres;
        if (entered.Sound && forMl <= 0)
            entered.Refuse(nameof(form.For), "An amount for no liquor means nothing.", "Type a volume, such as 100 ml.");
        var factor = recipe.BaseVolumeMl / forMl;
        var weighed = entered.Sound ? KnownMaterials.Measured(material!).Weigh(amount!, teaspoon, factor: 1) : null;
        if (weighed?.Fits(factor) == false)
            entered.Refuse(nameof(form.Amount), "That is more than any pot holds.", "Check the amount and the volume it is for.");
        if (weighed is not null)
            entered.Doubt(KnownMaterials.Doubt(weighed, material, material!.Name, forMl));
        if (!entered.Sound)
            return Outcome.Refused<string>(entered.Problems);

        var now = clock.GetUtcNow();
        var last = await db.RecipeSteps.Where(step => step.RecipeId == recipe.Id).MaxAsync(step => (int?)step.Step, cancel) ?? 0;
        db.Add(
            new RecipeStep
            {
                Id = Guid.CreateVersion7(now),
                WrittenAt = now,
                RecipeId = recipe.Id,
                Step = last + 1,
                MaterialId = material!.Id,
                Name = material.Name,
                Amount = weighed!.Times(factor),
            }
        );
        await db.SaveChangesAsync(cancel);
        return Outcome.Of(recipe.Code);
    }

    public async Task<Outcome<string>> TakeOutAsync(string code, int step, CancellationToken cancel)
    {
        if (await FindAsync(code, cancel) is not { } recipe)
            return Missing(code, "Step");
        if (
            await db.RecipeSteps.Counting().SingleOrDefaultAsync(one => one.RecipeId == recipe.Id && one.Step == step, cancel)
            is not { } line
        )
            return Outcome.Refused<string>("Step", "That line is not in the recipe.", "Load the page again.");
        line.WithdrawnAt = clock.GetUtcNow();
        line.WithdrawnWhy = "taken out of the recipe";
        await db.SaveChangesAsync(cancel);
        return Outcome.Of(recipe.Code);
    }

    private static Outcome<string> Missing(string code, string field) =>
        Outcome.Refused<string>(field, $"There is no recipe {code} in this notebook.", "Go back to the recipes.");

    private async Task<Recipe?> FindAsync(string code, CancellationToken cancel) =>
        await db.Recipes.Counting().SingleOrDefaultAsync(one => one.Code == code, cancel);
}

public sealed record CorrectRecipeLine : IDoubtable
{
    public string? Material { get; init; }

    public string? Amount { get; init; }

    /// <summary>The liquor that the amount is for; the recipe's own volume when it is empty.</summary>
    public string? For { get; init; }

    /// <inheritdoc />
    public string? Meant { get; init; }
}

public sealed record CorrectRecipeForm
{
    public string? Name { get; init; }

    public string? KeepMonths { get; init; }

    public string? Caution { get; init; }

    public string? Note { get; init; }
}

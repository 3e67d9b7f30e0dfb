using Dyewort.Colour;
using Dyewort.Making;
using Dyewort.Notebook;
using Dyewort.Pots;
using Dyewort.Quantities;
using Dyewort.Store;
using Dyewort.Workshop.Find;
using Dyewort.Workshop.Recipes;
using Microsoft.EntityFrameworkCore;

namespace Dyewort.Workshop.Response;

/// <summary>How strong a pot is against the one a recipe of the notebook was made from.</summary>
public sealed class CompareHarvest(NotebookDb db, NotebookTrials notebook, LiquorLeft liquor) : IUseCase
{
    /// <returns>Null where there is no such pot.</returns>
    public async Task<CompareHarvestAnswer?> HandleAsync(string code, string? recipe, CancellationToken cancel)
    {
        if (await db.Pots.AsNoTracking().SingleOrDefaultAsync(one => one.Code == code, cancel) is not { } pot)
            return null;
        var plant = (await Origin.LoadAsync(db, [pot.Id], cancel))[0].Plant.Name;
        var left = await liquor.HandleAsync(pot.Id, cancel) is { } ml ? Math.Max(0, ml) : (double?)null;
        var trials = await notebook.HandleAsync(cancel);
        var all = await db
            .Recipes.AsNoTracking()
            .Counting()
            .Where(one => one.PotId != null && one.PotId != pot.Id && one.SampleId != null)
            .ToListAsync(cancel);
        var origins = (await Origin.LoadAsync(db, [.. all.Select(one => one.PotId!.Value).Distinct()], cancel)).ToDictionary(one =>
            one.Pot.Id
        );
        var recipes = all.FindAll(one => string.Equals(origins[one.PotId!.Value].Plant.Name, plant, StringComparison.OrdinalIgnoreCase));
        var chosen = recipes.Find(one => one.Code == recipe) ?? recipes.FirstOrDefault();
        CompareHarvestAnswer No(string what, string remedy, NotebookTrialsPainted? mine = null, NotebookTrialsPainted? theirs = null) =>
            new(pot, plant, left, recipes, chosen, null, mine, theirs, new("pot", what, remedy));
        if (chosen is null)
            return No($"No recipe was kept from another pot of {plant}.", "Keep a swatch of an earlier pot as a recipe first.");
        var from = origins[chosen.PotId!.Value].Pot;

        // The plain liquor of both, dry, on one paper.
        List<NotebookTrialsPainted> Plain(Pot which) =>
            [
                .. trials.Painted.Where(one =>
                    one.Pot.Id == which.Id && one.Row.Point.GramsPerLitre.Count == 0 && one.Row.Point.State == "dry"
                ),
            ];
        var (mine, theirs) = (Plain(pot), Plain(from));
        var paper = mine.Select(one => one.Row.Point.Paper)
            .FirstOrDefault(name => theirs.Exists(other => string.Equals(other.Row.Point.Paper, name, StringComparison.OrdinalIgnoreCase)));
        if (mine.Count == 0)
            return No(
                $"No plain swatch of {pot.Code} was read.",
                "Paint the liquor without anything in it, and a wash or two of it, and send a photo when they are dry."
            );
        if (theirs.Count == 0)
            return No($"No plain swatch of {from.Code} was read, so there is nothing to compare with.", "Paint what is left of it, plain.");
        if (paper is null)
            return No($"{pot.Code} and {from.Code} were never painted on the same paper.", "Paint both on one paper.");
        (mine, theirs) = (mine.FindAll(one => one.Row.Point.Paper == paper), theirs.FindAll(one => one.Row.Point.Paper == paper));
        var bare =
            await db
                .Materials.AsNoTracking()
                .Where(one => one.Name == paper && one.BareColour != null)
                .Select(one => one.BareColour)
                .FirstOrDefaultAsync(cancel)
            ?? Paper.DrawingPaperGuess.Colour;
        static List<Painted> Drops(List<NotebookTrialsPainted> painted) =>
            painted.ConvertAll(one => new Painted(
                one.Row.Point.Sample,
                UncertainColour.FromRadius(one.Reading.Colour, Math.Clamp(one.Reading.UncertaintyDe00, 0.05, 30)),
                one.Row.Point.Wash
            ));
        var compared = LiquorStrength.Compare(Drops(mine), Drops(theirs), bare);
        if (!compared.TryGet(out var ratio))
            return No(compared.Problems[0].What, compared.Problems[0].Remedy, mine[0], theirs[0]);
        if (await notebook.DosesAsync(await RecipeView.LoadAsync(db, chosen, cancel), cancel) is not { } doses)
            return No($"What {chosen.Name} holds was never weighed.", "Weigh a level spoon of what went in.", mine[0], theirs[0]);
        if (left is null)
            return No("The liquor was not measured.", "Strain it, measure it and write it into the log.", mine[0], theirs[0]);
        if (left is 0)
            return No(
                $"All of the liquor of {pot.Code} was drawn.",
                "Where there is more of it, measure it again and write it into the log.",
                mine[0],
                theirs[0]
            );
        return new(
            pot,
            plant,
            left,
            recipes,
            chosen,
            new()
            {
                Ratio = ratio,
                Volume = Volume.FromMillilitres(left.Value),
                GramsPerLitre = doses,
            },
            mine[0],
            theirs[0],
            null
        );
    }
}

/// <param name="Recipes">Recipes of other pots of this plant.</param>
/// <param name="Chosen">The recipe that is looked at.</param>
/// <param name="Carry">The recipe and the new liquor as <see cref="CarryRecipe"/> takes them; null where something is missing.</param>
/// <param name="Mine">The plain swatch of this pot, the strongest.</param>
/// <param name="Theirs">The plain swatch of the recipe's pot.</param>
public sealed record CompareHarvestAnswer(
    Pot Pot,
    string Plant,
    double? LeftMl,
    IReadOnlyList<Recipe> Recipes,
    Recipe? Chosen,
    CarryRecipeForm? Carry,
    NotebookTrialsPainted? Mine,
    NotebookTrialsPainted? Theirs,
    Problem? NotYet
);

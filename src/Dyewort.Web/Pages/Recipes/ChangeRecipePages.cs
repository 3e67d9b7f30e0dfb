using Dyewort.Making;
using Dyewort.Workshop;
using Dyewort.Workshop.Recipes;
using Microsoft.AspNetCore.Routing;

namespace Dyewort.Web.Pages.Recipes;

/// <summary>Recipes put right.</summary>
public sealed class ChangeRecipePages : IPages
{
    public void Map(IEndpointRouteBuilder app) =>
        ChangePages.Map<ChangeRecipe, Recipe, CorrectRecipeForm>(
            app,
            "/recipes/{code}",
            ThingKind.Recipe,
            (_, _, answer) => Task.FromResult(Show.Page<ChangeRecipePage>(new { Answer = answer }))
        );
}

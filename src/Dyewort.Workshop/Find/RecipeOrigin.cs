using Dyewort.Making;
using Dyewort.Notebook;

namespace Dyewort.Workshop.Find;

/// <summary>A recipe and where it came from.</summary>
/// <param name="Recipe">The recipe.</param>
/// <param name="Origin">The pot, its lot and plant; null for a recipe that was typed in.</param>
/// <param name="Sample">The sample it was kept from.</param>
/// <param name="Trial">That sample's trial.</param>
public sealed record RecipeOrigin(Recipe Recipe, Origin? Origin, Sample? Sample, Trial? Trial);

using System.Globalization;
using Dyewort.Colour;
using Dyewort.Making;
using Dyewort.Notebook;
using Dyewort.Store;
using Microsoft.EntityFrameworkCore;

namespace Dyewort.Workshop.Find;

/// <summary>Finds a plant, a code or a colour.</summary>
public sealed class FindAnything(NotebookDb db) : IUseCase
{
    // Beyond this, two colours are no longer the same colour to anybody (common practice, no source).
    private const double FarthestDe00 = 15;

    private const int Most = 40;

    /// <param name="Kind">What it is: "pot", "bottle" and so on.</param>
    /// <param name="Title">Its code or name.</param>
    /// <param name="Detail">A few words.</param>
    /// <param name="Thing">What was found.</param>
    /// <param name="Said">The maker's words that were found.</param>
    /// <param name="Colour">Its colour.</param>
    /// <param name="De00">Distance from the colour that was asked for, CIEDE2000.</param>
    public sealed record Hit(
        string Kind,
        string Title,
        string Detail,
        Thing Thing,
        string? Said = null,
        Xyz? Colour = null,
        double? De00 = null
    );

    public async Task<FindAnythingAnswer> HandleAsync(string? query, CancellationToken cancel)
    {
        var asked = (query ?? "").Trim();
        if (asked.Length is 0 or > 200)
            return new(null, [], null, []);
        if (await StraightAsync(asked, cancel) is { } straight)
            return new(straight, [], null, []);
        var words = await ByWordsAsync(asked, cancel);
        return ColourText.Parse("q", asked).TryGet(out var wanted)
            ? new(null, words, wanted, await ByColourAsync(Lab.FromXyz(wanted.Colour), cancel))
            : new(null, words, null, []);
    }

    private async Task<Thing?> StraightAsync(string asked, CancellationToken cancel)
    {
        if (BottleCode.Parse("q", asked).TryGet(out var read))
        {
            var code = BottleCode.ForBottle(read.Batch, read.Bottle);
            if (await db.Bottles.AnyAsync(bottle => bottle.Code == code, cancel))
                return Thing.Bottle(code);
        }

        var parts = asked.ToUpperInvariant().Split([' ', '/'], StringSplitOptions.RemoveEmptyEntries);
        if (parts.Length is 0 or > 2)
            return null;
        var first = parts[0];
        if (await db.Pots.Where(pot => pot.Code == first).Select(pot => (Guid?)pot.Id).SingleOrDefaultAsync(cancel) is { } potId)
        {
            if (parts.Length == 1)
                return Thing.Pot(first);
            var jar = parts[1];
            return await db.Samples.AnyAsync(sample => sample.PotId == potId && sample.Jar == jar, cancel) ? Thing.Jar(first, jar) : null;
        }

        if (
            first.Length > 1
            && first[0] == 'C'
            && int.TryParse(first[1..], NumberStyles.None, CultureInfo.InvariantCulture, out var number)
            && await db.Charts.AnyAsync(chart => chart.Number == number, cancel)
        )
            return Thing.Chart($"C{number.ToString(CultureInfo.InvariantCulture)}");
        if (parts.Length > 1)
            return null;
        if (await db.Recipes.AnyAsync(recipe => recipe.Code == first, cancel))
            return Thing.Recipe(first);
        return await db.Batches.AnyAsync(batch => batch.Code == first, cancel) ? Thing.Batch(first) : null;
    }

    private async Task<IReadOnlyList<Hit>> ByWordsAsync(string asked, CancellationToken cancel)
    {
        bool Has(string? text) => text?.Contains(asked, StringComparison.OrdinalIgnoreCase) == true;
        var hits = new List<Hit>();
        var materials = await db.Materials.AsNoTracking().Counting().ToListAsync(cancel);
        var lots = await db.PlantLots.AsNoTracking().ToDictionaryAsync(lot => lot.Id, cancel);
        var pots = await db.Pots.AsNoTracking().Counting().OrderByDescending(pot => pot.MadeOn).ToListAsync(cancel);
        var codes = pots.ToDictionary(pot => pot.Id, pot => pot.Code);
        var names = materials.ToDictionary(material => material.Id, material => material.Name);
        string Plant(Pot pot) => names.GetValueOrDefault(lots[pot.LotId].PlantId, "");
        hits.AddRange(
            pots.Where(pot => Has(Plant(pot)) || Has(pot.Code))
                .Select(pot => new Hit("pot", pot.Code, $"{Plant(pot)}, {Day(pot.MadeOn)}", Thing.Pot(pot.Code)))
        );
        hits.AddRange(pots.Where(pot => Has(pot.How)).Select(pot => new Hit("pot", pot.Code, Plant(pot), Thing.Pot(pot.Code), pot.How)));
        // By the name that a material has today, and by the one it had when the recipe was kept.
        var holding = (await db.RecipeSteps.AsNoTracking().Counting().ToListAsync(cancel))
            .Select(step =>
                (step.RecipeId, Then: step.Name, Now: step.MaterialId is { } id ? names.GetValueOrDefault(id, step.Name) : step.Name)
            )
            .Where(step => Has(step.Then) || Has(step.Now))
            .ToLookup(step => step.RecipeId, step => step.Now);
        hits.AddRange(
            (await db.Recipes.AsNoTracking().Counting().ToListAsync(cancel))
                .Where(recipe => Has(recipe.Name) || Has(recipe.Liquor) || holding.Contains(recipe.Id))
                .Select(recipe => new Hit(
                    "recipe",
                    recipe.Name,
                    holding.Contains(recipe.Id)
                        ? $"{recipe.Code}, {recipe.Liquor} with {string.Join(", ", holding[recipe.Id].Distinct())}"
                        : $"{recipe.Code}, {recipe.Liquor}",
                    Thing.Recipe(recipe.Code),
                    Colour: recipe.Colour
                ))
        );
        hits.AddRange(
            (await db.Trials.AsNoTracking().Counting().ToListAsync(cancel))
                .Where(trial => Has(trial.Title) && codes.ContainsKey(trial.PotId))
                .Select(trial => new Hit(
                    "trial",
                    trial.Title,
                    $"of pot {codes[trial.PotId]}",
                    Thing.Trial(codes[trial.PotId], trial.Letter)
                ))
        );
        hits.AddRange(
            (await db.Charts.AsNoTracking().Counting().ToListAsync(cancel))
                .Where(chart => Has(chart.Title))
                .Select(chart => new Hit("chart", chart.Code, chart.Title, Thing.Chart(chart.Code)))
        );
        hits.AddRange(
            (await db.Samples.AsNoTracking().Counting().Where(sample => sample.Said != null).ToListAsync(cancel))
                .Where(sample => Has(sample.Said) && codes.ContainsKey(sample.PotId))
                .Select(sample => new Hit(
                    "jar",
                    sample.Jar,
                    $"of pot {codes[sample.PotId]}",
                    Thing.Jar(codes[sample.PotId], sample.Jar),
                    sample.Said
                ))
        );
        hits.AddRange(
            (
                await (
                    from swatch in db.CountingSwatches().AsNoTracking()
                    join chart in db.Charts on swatch.ChartId equals chart.Id
                    where swatch.Said != null
                    select new { swatch, chart.Number }
                ).ToListAsync(cancel)
            )
                .Where(one => Has(one.swatch.Said))
                .Select(one => new Hit(
                    "swatch",
                    $"C{one.Number} {one.swatch.Cell}",
                    "on that chart",
                    Thing.Swatch($"C{one.Number}", one.swatch.Cell),
                    one.swatch.Said
                ))
        );
        hits.AddRange(
            (
                await db
                    .Bottles.AsNoTracking()
                    .Counting()
                    .Where(bottle => bottle.Place != null)
                    .OrderBy(bottle => bottle.Code)
                    .ToListAsync(cancel)
            )
                .Where(bottle => Has(bottle.Place))
                .Select(bottle => new Hit("bottle", bottle.Code, $"stands: {bottle.Place}", Thing.Bottle(bottle.Code)))
        );
        hits.AddRange(
            materials
                .Where(material => Has(material.Name))
                .Select(material => new Hit(
                    "pantry",
                    material.Name,
                    material.Kind.ToString().ToLowerInvariant(),
                    new(ThingKind.Material, material.Id.ToString())
                ))
        );
        return [.. hits.Take(Most)];
    }

    private async Task<IReadOnlyList<Hit>> ByColourAsync(Lab wanted, CancellationToken cancel)
    {
        // What was read wet only will be another colour tomorrow.
        var colours = (await db.Readings.AsNoTracking().ToListAsync(cancel))
            .GroupBy(reading => reading.SwatchId)
            .Select(group => StandingColour.ToKeep(group))
            .Where(reading => reading is not null and not { State: SwatchState.Wet })
            .ToDictionary(reading => reading!.SwatchId, reading => reading!.Colour);
        var swatches = await (
            from swatch in db.CountingSwatches().AsNoTracking()
            join chart in db.Charts on swatch.ChartId equals chart.Id
            join sample in db.Samples on swatch.SampleId equals sample.Id
            join pot in db.Pots on sample.PotId equals pot.Id
            select new
            {
                swatch,
                chart.Number,
                sample.Jar,
                pot.Code,
            }
        ).ToListAsync(cancel);
        var recipes = await db.Recipes.AsNoTracking().Counting().Where(recipe => recipe.Colour != null).ToListAsync(cancel);
        double Far(Xyz colour) => Difference.Ciede2000(wanted, Lab.FromXyz(colour));
        return
        [
            .. recipes
                .Select(recipe => new Hit(
                    "recipe",
                    recipe.Name,
                    recipe.Code,
                    Thing.Recipe(recipe.Code),
                    null,
                    recipe.Colour,
                    Far(recipe.Colour!.Value)
                ))
                .Concat(
                    swatches
                        .Where(one => colours.ContainsKey(one.swatch.Id))
                        .Select(one => new Hit(
                            "swatch",
                            $"C{one.Number} {one.swatch.Cell}",
                            $"jar {one.Jar} of pot {one.Code}",
                            Thing.Swatch($"C{one.Number}", one.swatch.Cell),
                            one.swatch.Said,
                            colours[one.swatch.Id],
                            Far(colours[one.swatch.Id])
                        ))
                )
                .Where(hit => hit.De00 <= FarthestDe00)
                .OrderBy(hit => hit.De00)
                .Take(12),
        ];
    }

    private static string Day(DateOnly day) => day.ToString("d MMM yyyy", CultureInfo.InvariantCulture);
}

/// <param name="Straight">The one thing that bears this code; null when the query is no code.</param>
/// <param name="ByWords">What was found by its words.</param>
/// <param name="Wanted">The colour that the query names; null when it names none.</param>
/// <param name="ByColour">Recipes and swatches near that colour, nearest first.</param>
public sealed record FindAnythingAnswer(
    Thing? Straight,
    IReadOnlyList<FindAnything.Hit> ByWords,
    ColourText? Wanted,
    IReadOnlyList<FindAnything.Hit> ByColour
);

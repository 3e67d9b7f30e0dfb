using System.Globalization;
using Dyewort.Chemistry;
using Dyewort.Colour;
using Dyewort.Notebook;
using Dyewort.Response;
using Dyewort.Store;
using Dyewort.Workshop.Recipes;
using Microsoft.EntityFrameworkCore;

namespace Dyewort.Workshop.Response;

/// <summary>The painted and read samples of the notebook as a table of trials: what a maker would have typed into a file.</summary>
public sealed class NotebookTrials : IUseCase, IPotLiquors
{
    /// <summary>The bare paper's own row in a table: nothing painted on it.</summary>
    public const string BarePaper = "bare paper";

    private readonly NotebookDb db;
    private readonly LiquorLeft left;
    private readonly NotebookSettings settings;
    private TrialSource? table;

    /// <param name="db">The notebook of one request.</param>
    /// <param name="left">What is left of each pot.</param>
    /// <param name="settings">Which teaspoon the notebook means.</param>
    public NotebookTrials(NotebookDb db, LiquorLeft left, NotebookSettings settings)
    {
        (this.db, this.left, this.settings) = (db, left, settings);

        // One request asks several times, and nothing changes in between but what it writes itself.
        db.SavedChanges += (_, _) => table = null;
    }

    /// <summary>The reading that speaks for a sample: dry before settled before wet, undiluted before washes.</summary>
    public static NotebookTrialsPainted Speaking(IEnumerable<NotebookTrialsPainted> ofSample) =>
        ofSample
            .OrderBy(one =>
                one.Row.Point.State switch
                {
                    "dry" => 0,
                    "settled" => 1,
                    _ => 2,
                }
            )
            .ThenByDescending(one => one.Row.Point.Wash)
            .First();

    /// <summary>A sample's code in tables: its pot and its jar, or the stage of its jar.</summary>
    private static string CodeOf(Pot pot, string jar) => $"{pot.Code} {jar}";

    /// <summary>The state's name in tables.</summary>
    public static string StateOf(SwatchState state) =>
        state switch
        {
            SwatchState.Wet => "wet",
            SwatchState.Dry => "dry",
            SwatchState.Aged => "settled",
            _ => "after light",
        };

    /// <inheritdoc/>
    public async Task<PhBook> OfPlantAsync(string plant, CancellationToken cancel)
    {
        var trials = (await HandleAsync(cancel)).Table;
        return PhBook.Of(plant, trials.PointsOf(plant), trials.Additions);
    }

    /// <summary>Everything that was painted and read; what was held to light is left out, since the hours are not part of the
    /// table.</summary>
    public async Task<TrialSource> HandleAsync(CancellationToken cancel) => table ??= await ReadAsync(cancel);

    private async Task<TrialSource> ReadAsync(CancellationToken cancel)
    {
        var samples = await db.Samples.AsNoTracking().ToDictionaryAsync(sample => sample.Id, cancel);
        var pots = await db.Pots.AsNoTracking().Counting().ToListAsync(cancel);
        var plants = await (
            from lot in db.PlantLots.AsNoTracking()
            join plant in db.Materials on lot.PlantId equals plant.Id
            select new { lot.Id, plant.Name }
        ).ToDictionaryAsync(one => one.Id, one => one.Name, cancel);
        var materials = await db.Materials.AsNoTracking().ToDictionaryAsync(material => material.Id, cancel);
        var additions = (await db.Additions.AsNoTracking().Counting().ToListAsync(cancel)).ToLookup(addition => addition.SampleId);
        var charts = await db.Charts.AsNoTracking().Counting().ToDictionaryAsync(chart => chart.Id, cancel);
        var swatches = await db.CountingSwatches().AsNoTracking().OrderBy(swatch => swatch.Id).ToListAsync(cancel);
        var readings = (await db.Readings.AsNoTracking().Counting().ToListAsync(cancel)).ToLookup(reading => reading.SwatchId);
        var potPh = (await db.PotLog.AsNoTracking().Counting().Where(line => line.Ph != null).ToListAsync(cancel)).ToLookup(line =>
            line.PotId
        );
        var there = await left.OfAllAsync(cancel);
        var liquor = pots.ToDictionary(pot => pot.Id, pot => there.GetValueOrDefault(pot.Id) is { } ml ? Math.Max(0, ml) : (double?)null);

        var potOf = pots.ToDictionary(pot => pot.Id);
        var stages = swatches
            .GroupBy(swatch => swatch.SampleId)
            .SelectMany(group => Stage.OfSquares(samples[group.Key], additions[group.Key], group))
            .ToDictionary(pair => pair.Key, pair => pair.Value);
        var names = new Names(materials);
        var warnings = new List<string>();
        var painted = new List<NotebookTrialsPainted>();
        foreach (var swatch in swatches)
        {
            var sample = samples[swatch.SampleId];
            var pot = potOf[sample.PotId];
            var standing = StandingColour.ToLearnFrom(readings[swatch.Id]);
            if (standing.Count == 0)
                continue;
            var chart = charts[swatch.ChartId];
            var (stage, jar) = stages[swatch.Id];
            var code = CodeOf(pot, jar);
            IEnumerable<Addition> InJar(Guid id) => id == sample.Id ? stage.Steps : additions[id];
            if (sample.MixedWithId is { } second && samples[second].PotId != pot.Id)
            {
                warnings.Add($"{code} is a mixture of two pots' inks: it is shown, but nothing is learned from it.");
                continue;
            }

            if (Compose(sample, samples, InJar, materials, names, warnings, code) is not { } made)
                continue;
            var paper = (swatch.PaperId ?? chart.PaperId) is { } paperId ? materials[paperId] : null;
            var point = new TrialPoint
            {
                Sample = code,
                Plant = plants[pot.LotId],
                Pot = pot.Code,
                GramsPerLitre = made.GramsPerLitre,
                Ph = PhOf(sample, samples, additions, InJar, [.. potPh[pot.Id]]),
                Wash = swatch.Wash * made.Wash,
                Coats = swatch.Coats,
                Paper = paper?.Name ?? "",
                LeftMillilitres = liquor[pot.Id],
            };
            painted.AddRange(
                standing.Select(reading => new NotebookTrialsPainted(
                    new(point with { State = StateOf(reading.State) }, Lab.FromXyz(reading.Colour), reading.UncertaintyDe00),
                    stage,
                    pot,
                    swatch,
                    chart,
                    reading
                ))
            );
        }

        var papers = materials
            .Values.Where(material => material is { Kind: MaterialKind.Paper, BareColour: not null })
            .ToDictionary(material => material.Name, StringComparer.OrdinalIgnoreCase);
        var bare = painted
            .Select(one => (one.Row.Point.Plant, one.Row.Point.Paper))
            .Distinct()
            .Where(pair => papers.ContainsKey(pair.Paper))
            .Select(pair => new TrialRow(
                new()
                {
                    Sample = BarePaper,
                    Plant = pair.Plant,
                    Paper = pair.Paper,
                    Wash = 0,
                },
                Lab.FromXyz(papers[pair.Paper].BareColour!.Value)
            ));

        // A pH says something of the liquor, whether or not its jar was painted.
        List<TrialPoint> Noted()
        {
            var noted = pots.Where(pot => potPh[pot.Id].Any())
                .Select(pot => new TrialPoint
                {
                    Sample = pot.Code,
                    Plant = plants[pot.LotId],
                    Pot = pot.Code,
                    Ph = potPh[pot.Id].MaxBy(line => line.At)!.Ph,
                })
                .ToList();
            foreach (var sample in samples.Values.Where(sample => sample.Counts).OrderBy(sample => sample.Id))
            {
                if (!potOf.TryGetValue(sample.PotId, out var pot) || (sample.MixedWithId is { } second && samples[second].PotId != pot.Id))
                    continue;
                foreach (var step in additions[sample.Id].Where(step => step.Ph is not null).OrderBy(step => step.Step))
                {
                    IEnumerable<Addition> ByThen(Guid id) =>
                        id == sample.Id ? additions[id].Where(one => one.Step <= step.Step) : additions[id];
                    if (Compose(sample, samples, ByThen, materials, names, [], CodeOf(pot, sample.Jar)) is { } made)
                        noted.Add(
                            new()
                            {
                                Sample = CodeOf(pot, sample.Jar),
                                Plant = plants[pot.LotId],
                                Pot = pot.Code,
                                GramsPerLitre = made.GramsPerLitre,
                                Ph = step.Ph,
                                Wash = made.Wash,
                            }
                        );
                }
            }

            return noted;
        }

        TrialRow[] rows = [.. painted.Select(one => one.Row), .. bare];
        string[] used =
        [
            .. names
                .Materials.Keys.Where(name => painted.Exists(one => one.Row.Point.Dose(name) > 0))
                .Order(StringComparer.OrdinalIgnoreCase),
        ];
        return new(
            TrialTable.Of(rows, used, [.. warnings.Distinct()], Noted()),
            names.Materials,
            (await settings.ReadAsync(cancel)).Teaspoon
        )
        {
            Painted = painted,
        };
    }

    /// <summary>What one sample of the notebook is made of, painted or not; null when it is not there or holds something that was never
    /// weighed.</summary>
    /// <param name="sampleId">The sample.</param>
    /// <param name="afterStep">The number of its last step that is meant; null for everything that is in it now.</param>
    public async Task<TrialPoint?> PointAsync(Guid sampleId, int? afterStep, CancellationToken cancel)
    {
        if (await db.Samples.AsNoTracking().SingleOrDefaultAsync(one => one.Id == sampleId, cancel) is not { } sample)
            return null;
        var pot = await db.Pots.AsNoTracking().SingleAsync(one => one.Id == sample.PotId, cancel);
        var samples = await db.Samples.AsNoTracking().Where(one => one.PotId == pot.Id).ToDictionaryAsync(one => one.Id, cancel);
        var ids = samples.Keys.ToList();
        var additions = (
            await db.Additions.AsNoTracking().Counting().Where(addition => ids.Contains(addition.SampleId)).ToListAsync(cancel)
        ).ToLookup(addition => addition.SampleId);
        var materials = await db.Materials.AsNoTracking().ToDictionaryAsync(material => material.Id, cancel);
        var plant = await (
            from lot in db.PlantLots
            join material in db.Materials on lot.PlantId equals material.Id
            where lot.Id == pot.LotId
            select material.Name
        ).SingleAsync(cancel);
        var log = await db.PotLog.AsNoTracking().Counting().Where(line => line.PotId == pot.Id && line.Ph != null).ToListAsync(cancel);
        var stage = Stage.Of(sample, afterStep, additions[sample.Id]);
        IEnumerable<Addition> InJar(Guid id) => id == sample.Id ? stage.Steps : additions[id];
        var code = CodeOf(pot, sample.Jar);
        if (Compose(sample, samples, InJar, materials, new Names(materials), [], code) is not { } made)
            return null;
        return new()
        {
            Sample = code,
            Plant = plant,
            Pot = pot.Code,
            GramsPerLitre = made.GramsPerLitre,
            Ph = PhOf(sample, samples, additions, InJar, log),
            Wash = made.Wash,
        };
    }

    /// <summary>What a recipe holds as it stands, grams per litre of its liquor; water is left out. Null when something in it was never
    /// weighed.</summary>
    public async Task<Doses?> DosesAsync(RecipeView recipe, CancellationToken cancel)
    {
        ArgumentNullException.ThrowIfNull(recipe);
        var names = new Names(await db.Materials.AsNoTracking().ToDictionaryAsync(material => material.Id, cancel));
        var doses = Doses.None;
        foreach (var (step, material) in recipe.Counting)
        {
            var known = material is null ? KnownMaterials.Of(step.Name) : KnownMaterials.Of(material);
            if (known?.Substance.Form == SubstanceForm.Water)
                continue;
            if (
                (step.Amount.Grams ?? (known is not null && step.Amount.Ml is { } ml ? ml * known.Substance.Density(known.Strength) : null))
                is not { } grams
            )
                return null;
            doses = doses.Plus(material is null ? step.Name : names.Of(material), 1000 * grams / recipe.Recipe.BaseVolumeMl);
        }

        return doses;
    }

    /// <summary>Grams per litre of liquor of everything that was stirred in; water stirred in is a wash.</summary>
    private static (Doses GramsPerLitre, double Wash)? Compose(
        Sample sample,
        Dictionary<Guid, Sample> samples,
        Func<Guid, IEnumerable<Addition>> inJar,
        Dictionary<Guid, Material> materials,
        Names names,
        List<string> warnings,
        string code
    )
    {
        var doses = Doses.None;
        var wash = 1.0;
        IReadOnlyList<Proportions.Part> parts;
        if (sample is { MixedWithId: { } secondId, ParentId: { } firstId, MixedMl: { } mixedMl })
        {
            // What went into the two before they were poured together, by the liquor that each brought along.
            var liquor = 0.0;
            foreach (var (part, ml) in new[] { (samples[firstId], sample.VolumeMl - mixedMl), (samples[secondId], mixedMl) })
            {
                if (
                    Compose(part, samples, id => inJar(id).Where(step => step.At <= sample.PouredAt), materials, names, warnings, code)
                    is not { } ink
                )
                    return null;
                liquor += ml * ink.Wash;
                doses += (ml * ink.Wash) * ink.GramsPerLitre;
            }

            doses = 1 / liquor * doses;
            wash = liquor / sample.VolumeMl;
            parts = [.. Stage.Now(sample, inJar(sample.Id)).Steps.Select(step => new Proportions.Part(step, liquor))];
        }
        else
        {
            parts = Proportions.Of(sample, samples, inJar, step => KeepRecipe.IsLiquid(step, materials[step.MaterialId]));
        }

        foreach (var (step, forMl) in parts)
        {
            var material = materials[step.MaterialId];
            var known = KnownMaterials.Of(material);
            if (known?.Substance.Form == SubstanceForm.Water && step.Amount.Ml is { } water)
            {
                wash *= forMl / (forMl + water);
                continue;
            }

            if (
                (step.Amount.Grams ?? (known is not null && step.Amount.Ml is { } ml ? ml * known.Substance.Density(known.Strength) : null))
                is not { } grams
            )
            {
                warnings.Add(
                    string.Create(
                        CultureInfo.InvariantCulture,
                        $"{code} was left out: nobody said what {step.Amount.Text} of {material.Name} weighs. Weigh a level "
                            + $"spoon of it and write that into the pantry."
                    )
                );
                return null;
            }

            doses = doses.Plus(names.Of(material), 1000 * grams / forMl);
        }

        return (doses, wash);
    }

    /// <summary>pH as it was tested when everything was in; of an untouched jar the pot's.</summary>
    private static double? PhOf(
        Sample sample,
        Dictionary<Guid, Sample> samples,
        ILookup<Guid, Addition> all,
        Func<Guid, IEnumerable<Addition>> inJar,
        List<PotLogEntry> log
    )
    {
        if (Stage.Now(sample, inJar(sample.Id)) is { Steps.Count: > 0 } own)
            return own.PhWithAllIn;
        if (sample.MixedWithId is not null)
            return null;
        if (sample.ParentId is { } parent && samples.TryGetValue(parent, out var before))
            return PhOf(before, samples, all, id => all[id].Where(step => step.At <= sample.PouredAt), log);
        return log.Where(line => line.At <= sample.PouredAt).OrderBy(line => line.At).LastOrDefault()?.Ph;
    }

    /// <summary>Names of additions that the chemistry understands: the pantry's own, else what the pantry says a powder is.</summary>
    private sealed class Names(Dictionary<Guid, Material> materials)
    {
        private readonly Dictionary<Guid, string> given = [];

        public Dictionary<string, Material> Materials { get; } = new(StringComparer.OrdinalIgnoreCase);

        public string Of(Material material)
        {
            if (given.TryGetValue(material.Id, out var known))
                return known;
            var name = Spelled(material);
            if (
                materials.Values.Any(other =>
                    other.Id != material.Id && string.Equals(other.Name, name, StringComparison.OrdinalIgnoreCase)
                )
            )
                name = material.Name;
            given[material.Id] = name;
            Materials.TryAdd(name, material);
            return name;
        }

        private static string Spelled(Material material)
        {
            if (KnownMaterials.Of(material) is not { } meant)
                return material.Name;
            if (
                KnownMaterials.Of(material.Name) is { } byName
                && byName.Strength?.Value == meant.Strength?.Value
                && byName.Strength?.Unit == meant.Strength?.Unit
                && (byName.IsStrengthStated || byName.Substance.Name == meant.Substance.Name)
            )
                return material.Name;
            return material.StrengthPercent is { } strength
                ? FormattableString.Invariant($"{material.Substance ?? material.Name} {strength} %")
                : material.Substance ?? material.Name;
        }
    }
}

/// <summary>One row of the table and where in the notebook it stands.</summary>
public sealed record NotebookTrialsPainted(TrialRow Row, Stage Stage, Pot Pot, Swatch Swatch, Chart Chart, Reading Reading)
{
    /// <summary>The sample that was painted.</summary>
    public Sample Sample => Stage.Sample;

    /// <summary>The swatch on its chart.</summary>
    public Thing OnChart => Thing.Swatch(Chart.Code, Swatch.Cell);

    /// <summary>Its jar.</summary>
    public Thing InJar => Thing.Jar(Pot.Code, Sample.Jar);
}

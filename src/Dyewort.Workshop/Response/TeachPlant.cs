using Dyewort.Notebook;
using Dyewort.Quantities;
using Dyewort.Response;

namespace Dyewort.Workshop.Response;

/// <summary>What the trials of one plant teach: how well they foretell each other, and what each addition does.</summary>
public sealed class TeachPlant(NotebookTrials notebook, ModelShelf shelf) : IUseCase
{
    private const int Rungs = 7;

    /// <summary>One addition along its tested range.</summary>
    /// <param name="Steps">Doses whose colours look evenly spaced, from none to the largest tested.</param>
    /// <param name="Move">What it does, in words.</param>
    /// <param name="Tested">How many samples hold it.</param>
    public sealed record Strip(Material Material, IReadOnlyList<LadderStep> Steps, string Move, int Tested);

    /// <summary>The plain liquor of one pot, on one paper, or in one state.</summary>
    public sealed record Level(string Name, Prediction Plain, int Readings);

    /// <summary>Every plant that something was painted from.</summary>
    public async Task<IReadOnlyList<TeachPlantLine>> ListAsync(CancellationToken cancel)
    {
        var trials = await notebook.HandleAsync(cancel);
        return
        [
            .. trials.Plants.Select(plant =>
            {
                var tested = trials.OnePerSample(plant);
                var readings = trials.Painted.Count(one => string.Equals(one.Row.Point.Plant, plant, StringComparison.OrdinalIgnoreCase));
                return new TeachPlantLine(plant, tested.Count, readings, readings >= ResponseModel.FewestSamples, tested);
            }),
        ];
    }

    /// <returns>Null where nothing of the plant was painted and read.</returns>
    public async Task<TeachPlantAnswer?> HandleAsync(string plant, CancellationToken cancel)
    {
        var trials = await notebook.HandleAsync(cancel);
        if (trials.Plants.FirstOrDefault(one => string.Equals(one, plant, StringComparison.OrdinalIgnoreCase)) is not { } known)
            return null;
        var tested = trials.OnePerSample(known);
        var readings = trials.Painted.Where(one => one.Row.Point.Plant == known).ToList();
        if (await shelf.AskAsync(trials.Table, known, cancel) is not { } fitted)
            return new(known, null, tested, readings.Count) { Warnings = trials.Table.Warnings, StillLearning = true };
        if (!fitted.TryGet(out var model))
            return new(known, fitted.Problems[0], tested, readings.Count) { Warnings = trials.Table.Warnings };

        var usual = model.UsualSetting() with { GramsPerLitre = [], Ph = null, Wash = 1 };
        IReadOnlyList<Level> Levels(Func<TrialPoint, string> pick, Func<string, TrialPoint> at) =>
            [
                .. readings
                    .GroupBy(one => pick(one.Row.Point))
                    .OrderByDescending(group => group.Count())
                    .Select(group => new Level(group.Key, model.Predict(at(group.Key)), group.Count())),
            ];
        return new(known, null, tested, readings.Count)
        {
            LeftOut = model.LeaveOneOut(),
            Strips =
            [
                .. model
                    .Additions.Where(name => model.Rows.Any(row => row.Point.Dose(name) > 0))
                    .Select(name =>
                    {
                        var steps = TrialPlan.Ladder(model, name, Rungs);
                        return new Strip(
                            trials.Materials[name],
                            steps,
                            ColourMove.Describe(steps[0].Expected, steps[^1].Expected),
                            tested.Count(one => one.Row.Point.Dose(name) > 0)
                        );
                    })
                    .OrderByDescending(strip => strip.Tested),
            ],
            Pots = Levels(point => point.Pot, pot => usual with { Pot = pot }),
            Papers = Levels(point => point.Paper, paper => usual with { Paper = paper }),
            States = Levels(point => point.State, state => usual with { State = state }),
            Reach = PotReach.Of(model),
            ScatterDe00 = model.ReadingScatterDe00,
            Warnings = trials.Table.Warnings,
        };
    }
}

/// <param name="Plant">A plant with something painted.</param>
/// <param name="Enough">Whether there are enough samples to learn from.</param>
public sealed record TeachPlantLine(string Plant, int Samples, int Readings, bool Enough, IReadOnlyList<NotebookTrialsPainted> Tested);

/// <param name="Plant">The plant.</param>
/// <param name="NotYet">Why nothing can be taught yet; null when it can.</param>
/// <param name="Tested">One painted reading per sample.</param>
/// <param name="Readings">How many readings there are.</param>
public sealed record TeachPlantAnswer(string Plant, Problem? NotYet, IReadOnlyList<NotebookTrialsPainted> Tested, int Readings)
{
    /// <summary>True where the trials are still being learned from: ask again in a moment.</summary>
    public bool StillLearning { get; init; }

    /// <summary>Every reading foretold from the other samples.</summary>
    public LeaveOneOut? LeftOut { get; init; }

    public IReadOnlyList<TeachPlant.Strip> Strips { get; init; } = [];

    /// <summary>The liquor of each pot.</summary>
    public IReadOnlyList<TeachPlant.Level> Pots { get; init; } = [];

    public IReadOnlyList<TeachPlant.Level> Papers { get; init; } = [];

    public IReadOnlyList<TeachPlant.Level> States { get; init; } = [];

    public PotReach? Reach { get; init; }

    /// <summary>Standard deviation of one reading, ΔE₀₀.</summary>
    public double ScatterDe00 { get; init; }

    /// <summary>What was left out of the table, a sentence each.</summary>
    public IReadOnlyList<string> Warnings { get; init; } = [];
}

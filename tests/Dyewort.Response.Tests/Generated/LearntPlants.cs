using System.Collections.Concurrent;

namespace Dyewort.Response.Tests.Generated;

/// <summary>Models of generated plants, each fitted once for all tests that ask for the same one.</summary>
internal static class LearntPlants
{
    private static readonly ConcurrentDictionary<(int Seed, int Samples), Lazy<(ResponseModel Model, TrialRow[] Rows)>> Models = new();

    /// <summary>A plant of its own for the test, as it is after its samples were painted and read; the model is shared.</summary>
    public static (ResponseModel Model, PlantMaker Plant, TrialRow[] Rows) Learn(int seed, int samples)
    {
        var plant = new PlantMaker(seed);
        var rows = Enumerable.Range(0, samples).Select(i => plant.Read(plant.Draw($"S{i}", plain: i == 0), 1)).ToArray();
        var model = Models.GetOrAdd(
            (seed, samples),
            _ =>
                new(() =>
                    ResponseModel.Fit(rows, plant.Used).TryGet(out var fitted)
                        ? (fitted, rows)
                        : throw new InvalidOperationException($"Plant {seed} cannot be learned.")
                )
        );
        return (model.Value.Model, plant, model.Value.Rows);
    }
}

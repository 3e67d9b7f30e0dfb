using System.Collections.Concurrent;
using System.Globalization;
using System.Security.Cryptography;
using System.Text;
using Dyewort.Colour;
using Dyewort.Quantities;
using Dyewort.Response;

namespace Dyewort.Workshop.Response;

/// <summary>Response models, fitted when first asked for and kept while the trials they learned from stay the same.</summary>
public sealed class ModelShelf
{
    private const int Most = 32;

    /// <summary>Any colour does to try a search on.</summary>
    private static readonly Lab Grey = new(50, 0, 0);

    /// <summary>One core is left for the pages that are asked for meanwhile.</summary>
    private static readonly SemaphoreSlim Cores = new(Math.Max(1, Environment.ProcessorCount - 1));
    private readonly ConcurrentDictionary<string, Kept> models = new();

    private sealed record Kept(Lazy<Outcome<ResponseModel>> Model, Lazy<Task> Tried);

    /// <summary>The model of a plant; an empty name means the table's only plant.</summary>
    /// <returns>Refused where the plant is not in the table, or has not enough trials yet.</returns>
    public Outcome<ResponseModel> Of(TrialTable trials, string plant)
    {
        ArgumentNullException.ThrowIfNull(trials);
        ArgumentNullException.ThrowIfNull(plant);
        if (plant.Length == 0 && Plants(trials) is [var only])
            plant = only;
        return KeptOf(trials, plant).Model.Value;
    }

    /// <summary>Learns every plant of a table, and searches each model once so that what it reckons on the way stands ready too.</summary>
    /// <returns>One task for one table, however often it is asked for; done at once where nothing is left to learn.</returns>
    public Task LearnAsync(TrialTable trials)
    {
        ArgumentNullException.ThrowIfNull(trials);
        return Task.WhenAll(Plants(trials).Select(plant => KeptOf(trials, plant).Tried.Value));
    }

    /// <summary>The models of all plants that have enough trials, and what stands in the way of the others.</summary>
    public (IReadOnlyList<ResponseModel> Models, IReadOnlyList<Problem> Refused) All(TrialTable trials)
    {
        ArgumentNullException.ThrowIfNull(trials);
        var found = new List<ResponseModel>();
        var refused = new List<Problem>();
        foreach (var fitted in Plants(trials).AsParallel().AsOrdered().Select(plant => Of(trials, plant)))
        {
            if (fitted.TryGet(out var model))
                found.Add(model);
            else
                refused.AddRange(fitted.Problems);
        }

        return (found, refused);
    }

    private Kept KeptOf(TrialTable trials, string plant)
    {
        var key = KeyOf(trials, plant);
        if (!models.ContainsKey(key) && models.Count >= Most)
            models.Clear();
        return models.GetOrAdd(
            key,
            _ =>
            {
                var model = new Lazy<Outcome<ResponseModel>>(() => new PlantModels(trials).Of(plant));
                return new(
                    model,
                    new(() =>
                        Task.Run(async () =>
                        {
                            await Cores.WaitAsync();
                            try
                            {
                                if (!model.Value.TryGet(out var learned))
                                    return;
                                Match.Find(Grey, [learned]);
                                PotReach.Of(learned);
                            }
                            finally
                            {
                                Cores.Release();
                            }
                        })
                    )
                );
            }
        );
    }

    private static IReadOnlyList<string> Plants(TrialTable trials) => new PlantModels(trials).Plants;

    /// <summary>A mark of everything that a model learns from.</summary>
    private static string KeyOf(TrialTable trials, string plant)
    {
        var text = new StringBuilder(plant.ToLowerInvariant());
        foreach (var addition in trials.Additions)
            text.Append('|').Append(addition);
        foreach (var row in trials.Rows.Where(row => string.Equals(row.Point.Plant, plant, StringComparison.OrdinalIgnoreCase)))
        {
            var point = row.Point;
            text.Append('\n')
                .Append(
                    CultureInfo.InvariantCulture,
                    $"{point.Sample}|{point.Pot}|{point.Ph:R}|{point.Wash:R}|{point.Coats:R}|{point.Paper}|{point.State}|{row.Colour.L:R}|{row.Colour.A:R}|{row.Colour.B:R}|{row.UncertaintyDe00:R}"
                );
            foreach (var (name, dose) in point.GramsPerLitre.OrderBy(dose => dose.Name, StringComparer.Ordinal))
                text.Append(CultureInfo.InvariantCulture, $"|{name}={dose:R}");
        }

        return Convert.ToHexString(SHA256.HashData(Encoding.UTF8.GetBytes(text.ToString())));
    }
}

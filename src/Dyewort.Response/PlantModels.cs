using Dyewort.Quantities;

namespace Dyewort.Response;

/// <summary>One response model per plant of a table, fitted when first asked for.</summary>
public sealed class PlantModels
{
    private readonly TrialTable trials;
    private readonly Dictionary<string, Outcome<ResponseModel>> models = new(StringComparer.OrdinalIgnoreCase);

    /// <summary>Models from a table of trials.</summary>
    public PlantModels(TrialTable trials)
    {
        this.trials = trials;
        Plants = [.. trials.Rows.Select(row => row.Point.Plant).Distinct(StringComparer.OrdinalIgnoreCase)];
    }

    /// <summary>The plants that have at least one reading.</summary>
    public IReadOnlyList<string> Plants { get; }

    /// <summary>The model of a plant; an empty name means the table's only plant.</summary>
    /// <returns>Refused where the plant is not in the table, or has not enough trials yet.</returns>
    public Outcome<ResponseModel> Of(string plant)
    {
        if (plant.Length == 0 && Plants.Count == 1)
            plant = Plants[0];
        if (!Plants.Contains(plant, StringComparer.OrdinalIgnoreCase))
        {
            return Outcome.Refused<ResponseModel>(
                "plant",
                plant.Length == 0 ? "The plant is not named, and the trials hold several." : $"Not enough trials yet: none of “{plant}”.",
                Plants.Count == 0 ? "Paint and read some samples first." : $"The trials hold {string.Join(", ", Plants.Take(8))}."
            );
        }

        if (!models.TryGetValue(plant, out var model))
        {
            model = ResponseModel.Fit(
                [.. trials.Rows.Where(row => string.Equals(row.Point.Plant, plant, StringComparison.OrdinalIgnoreCase))],
                trials.Additions,
                trials.PointsOf(plant)
            );
            models.Add(plant, model);
        }

        return model;
    }
}

using Dyewort.Quantities;
using Dyewort.Response;

namespace Dyewort.Workshop.Response;

/// <summary>Says what samples would look like that nobody has painted yet.</summary>
public sealed class Predict : IUseCase
{
    public sealed record Answer(IReadOnlyList<Prediction> Predictions, IReadOnlyList<string> Warnings);

    public async Task<Outcome<Answer>> HandleAsync(string? trialsPath, string? pointsPath, CancellationToken cancel)
    {
        var trialsRead = await TrialFile.ReadAsync("--trials", trialsPath, needColours: true, cancel);
        var pointsRead = await TrialFile.ReadAsync("--at", pointsPath, needColours: false, cancel);
        if (!trialsRead.TryGet(out var trials) || !pointsRead.TryGet(out var points))
            return Outcome.Refused<Answer>([.. trialsRead.Problems, .. pointsRead.Problems]);

        var models = new PlantModels(trials);
        var predictions = new List<Prediction>();
        foreach (var point in points.Points)
        {
            var fitted = models.Of(point.Plant);
            if (!fitted.TryGet(out var model)) return Outcome.Refused<Answer>(fitted.Problems);
            predictions.Add(model.Predict(point));
        }

        return Outcome.Of(new Answer(predictions, [.. trials.Warnings, .. points.Warnings]));
    }
}

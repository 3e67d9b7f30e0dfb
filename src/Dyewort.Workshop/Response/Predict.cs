using Dyewort.Quantities;
using Dyewort.Response;

namespace Dyewort.Workshop.Response;

/// <summary>Says what samples would look like that nobody has painted yet.</summary>
public sealed class Predict(ModelShelf shelf) : IUseCase
{
    public sealed record Answer(IReadOnlyList<Prediction> Predictions, IReadOnlyList<string> Warnings);

    /// <param name="trials">What was painted, from a file or from the notebook.</param>
    /// <param name="pointsPath">The file of samples to foretell.</param>
    public async Task<Outcome<Answer>> HandleAsync(TrialTable trials, string? pointsPath, CancellationToken cancel)
    {
        ArgumentNullException.ThrowIfNull(trials);
        var pointsRead = await TrialFile.ReadAsync("--at", pointsPath, needColours: false, cancel);
        if (!pointsRead.TryGet(out var points)) return Outcome.Refused<Answer>(pointsRead.Problems);

        var predictions = new List<Prediction>();
        foreach (var point in points.Points)
        {
            var fitted = shelf.Of(trials, point.Plant);
            if (!fitted.TryGet(out var model)) return Outcome.Refused<Answer>(fitted.Problems);
            predictions.Add(model.Predict(point));
        }

        return Outcome.Of(new Answer(predictions, [.. trials.Warnings, .. points.Warnings]));
    }
}

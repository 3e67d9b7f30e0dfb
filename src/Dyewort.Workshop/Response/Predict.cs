using Dyewort.Quantities;
using Dyewort.Response;

namespace Dyewort.Workshop.Response;

/// <summary>Says what samples would look like that nobody has painted yet.</summary>
public sealed class Predict(ModelShelf shelf) : IUseCase
{
    /// <param name="trials">What was painted, from a file or from the notebook.</param>
    /// <param name="points">Samples to foretell.</param>
    public Outcome<PredictAnswer> Handle(TrialTable trials, TrialTable points)
    {
        ArgumentNullException.ThrowIfNull(trials);
        ArgumentNullException.ThrowIfNull(points);
        var predictions = new List<Prediction>();
        var guessed = new HashSet<string>();
        foreach (var point in points.Points)
        {
            var fitted = shelf.Of(trials, point.Plant);
            if (!fitted.TryGet(out var model))
                return Outcome.Refused<PredictAnswer>(fitted.Problems);

            // Who leaves a column empty means the usual; a paper or state of no name would be one that nobody tested.
            var usual = model.UsualSetting();
            var asked = point;
            if (point.Paper.Length == 0 && !model.Rows.Any(row => row.Point.Paper.Length == 0))
            {
                asked = asked with { Paper = usual.Paper };
                guessed.Add($"No paper is named: foretold on {usual.Paper}.");
            }

            if (point.State.Length == 0 && !model.Rows.Any(row => row.Point.State.Length == 0))
            {
                asked = asked with { State = usual.State };
                guessed.Add($"No state is named: foretold as {usual.State}.");
            }

            predictions.Add(model.Predict(asked, trials.Rows));
        }

        return Outcome.Of(new PredictAnswer(predictions, [.. trials.Warnings, .. points.Warnings, .. guessed]));
    }
}

public sealed record PredictAnswer(IReadOnlyList<Prediction> Predictions, IReadOnlyList<string> Warnings);

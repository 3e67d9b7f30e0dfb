using Dyewort.Quantities;
using Dyewort.Response;

namespace Dyewort.Workshop.Response;

/// <summary>Plans a dose ladder whose steps look even.</summary>
public sealed class PlanLadder(ModelShelf shelf) : IUseCase
{
    public Outcome<PlanLadderAnswer> Handle(string? addition, TrialTable trials, string plant, int steps)
    {
        ArgumentNullException.ThrowIfNull(trials);
        if (steps is < 2 or > 24)
            return Outcome.Refused<PlanLadderAnswer>("--steps", $"A ladder of {steps} samples cannot be planned.", "Ask for 2 to 24.");
        var fitted = shelf.Of(trials, plant);
        if (!fitted.TryGet(out var model))
            return Outcome.Refused<PlanLadderAnswer>(fitted.Problems);
        string[] tested = [.. trials.Additions.Where(name => model.Rows.Any(row => row.Point.Dose(name) > 0))];
        var known = tested.FirstOrDefault(name => string.Equals(name, addition?.Trim(), StringComparison.OrdinalIgnoreCase));
        if (known is null)
        {
            return Outcome.Refused<PlanLadderAnswer>(
                "--ladder",
                $"“{addition}” was never tested on this plant.",
                tested.Length > 0 ? $"Name one of {string.Join(", ", tested)}." : "Paint a sample with it first."
            );
        }

        return Outcome.Of(
            new PlanLadderAnswer(model.Plant, known, TrialPlan.Ladder(model, known, steps), Caution.Lines([known]), trials.Warnings)
        );
    }
}

public sealed record PlanLadderAnswer(
    string Plant,
    string Addition,
    IReadOnlyList<LadderStep> Steps,
    IReadOnlyList<string> Cautions,
    IReadOnlyList<string> Warnings
);

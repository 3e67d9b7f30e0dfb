using Dyewort.Notebook;
using Dyewort.Quantities;
using Dyewort.Response;
using Dyewort.Workshop.Response;
using Dyewort.Workshop.Trials;

namespace Dyewort.Web.Pages.Trials;

/// <summary>One more measure of a material for a jar, as its page asks for it and shows it.</summary>
/// <param name="Material">What may go in next.</param>
/// <param name="Step">How much of it, as people say it.</param>
/// <param name="Plant">The plant, for the page of what its trials teach.</param>
/// <param name="Outcome">What is expected; null while the trials are still being learned from.</param>
public sealed record StepAsked(Material Material, string Step, string Plant, Outcome<ForetellStepAnswer>? Outcome)
{
    private const string Usual = "¼ tsp";

    /// <summary>Spoons whose effect is foretold on them, the usual one in the middle.</summary>
    public static IReadOnlyList<string> Foretold { get; } = ["1 pinch", "⅛ tsp", Usual, "½ tsp", "1 tsp"];

    /// <summary>What is expected; null where nothing can be said yet.</summary>
    public ForetellStepAnswer? Answer => Outcome?.TryGet(out var answer) == true ? answer : null;

    /// <summary>Why nothing can be said.</summary>
    public Problem? Problem => Outcome?.FirstProblem;

    /// <summary>True where the trials are still being learned from: ask again in a moment.</summary>
    public bool StillLearning => Outcome is null;

    /// <summary>What every offered step is expected to do, by its words; none while nothing can be said.</summary>
    public IReadOnlyDictionary<string, NextStep> Steps { get; init; } = new Dictionary<string, NextStep>();

    /// <summary>What one step is expected to do; null where nothing can be said of it.</summary>
    public NextStep? For(string step) => Steps.GetValueOrDefault(step);

    /// <summary>Asks for a jar of the notebook.</summary>
    /// <param name="answer">The jar.</param>
    /// <param name="material">What may go in next.</param>
    /// <param name="step">How much of it, as it was typed; ¼ teaspoon when empty.</param>
    /// <returns>Null where the jar's own contents cannot be told.</returns>
    public static async Task<StepAsked?> AskAsync(
        ShowJarAnswer answer,
        Material material,
        string? step,
        ForetellStep foretell,
        NotebookTrials notebook,
        CancellationToken cancel
    )
    {
        ArgumentNullException.ThrowIfNull(answer);
        ArgumentNullException.ThrowIfNull(material);
        ArgumentNullException.ThrowIfNull(foretell);
        ArgumentNullException.ThrowIfNull(notebook);
        if (await notebook.PointAsync(answer.Jar.Sample.Id, null, cancel) is not { } point)
            return null;
        var trials = await notebook.HandleAsync(cancel);
        async Task<Outcome<ForetellStepAnswer>?> Tell(string said) =>
            Amount.Parse("step", said) is var amount && amount.TryGet(out var measure)
                ? await foretell.HandleAsync(
                    new()
                    {
                        Jar = point,
                        Volume = Volume.FromMillilitres(Math.Max(0, answer.Jar.Sample.VolumeMl)),
                        Material = material,
                        Amount = measure,
                        Holds = answer.Chemistry?.Contents,
                    },
                    trials,
                    cancel
                )
                : Quantities.Outcome.Refused<ForetellStepAnswer>(amount.Problems);
        var text = string.IsNullOrWhiteSpace(step) ? Usual : step.Trim();
        var usual = await Tell(text);
        var steps = new Dictionary<string, NextStep>();
        foreach (var spoon in usual?.TryGet(out _) == true ? Foretold : [])
        {
            if ((spoon == text ? usual : await Tell(spoon))?.TryGet(out var told) == true)
                steps[spoon] = told.Step;
        }

        return new(material, text, point.Plant, usual) { Steps = steps };
    }
}

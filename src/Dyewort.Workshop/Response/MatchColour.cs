using Dyewort.Chemistry;
using Dyewort.Colour;
using Dyewort.Quantities;
using Dyewort.Response;

namespace Dyewort.Workshop.Response;

/// <summary>Proposes ways to make a wanted colour out of what the trials teach.</summary>
public sealed class MatchColour : IUseCase
{
    public sealed record Form
    {
        public string? Wanted { get; init; }

        public string? Trials { get; init; }

        /// <summary>The paper to paint on; empty for the one the trials used most.</summary>
        public string Paper { get; init; } = "";
    }

    /// <param name="Wanted">What was asked for, CIELAB D65.</param>
    /// <param name="Cautions">One sentence per hazardous addition in the proposals.</param>
    public sealed record Answer(Lab Wanted, string ReadAs, MatchResult Result, IReadOnlyList<string> Cautions, IReadOnlyList<string> Warnings);

    public async Task<Outcome<Answer>> HandleAsync(Form form, CancellationToken cancel)
    {
        ArgumentNullException.ThrowIfNull(form);
        var colour = ColourText.Parse("COLOUR", form.Wanted);
        var read = await TrialFile.ReadAsync("--trials", form.Trials, needColours: true, cancel);
        if (!colour.TryGet(out var wanted) || !read.TryGet(out var trials)) return Outcome.Refused<Answer>([.. colour.Problems, .. read.Problems]);

        var warnings = trials.Warnings.ToList();
        var all = new PlantModels(trials);
        var models = new List<ResponseModel>();
        var refused = new List<Problem>();
        foreach (var plant in all.Plants)
        {
            var fitted = all.Of(plant);
            if (fitted.TryGet(out var model)) models.Add(model);
            else refused.AddRange(fitted.Problems);
        }

        if (models.Count == 0)
            return refused.Count > 0 ? Outcome.Refused<Answer>(refused) : Outcome.Refused<Answer>("--trials", "Not enough trials yet: the table has no painted sample.", $"Paint and read at least {ResponseModel.FewestSamples}.");
        warnings.AddRange(refused.Select(problem => problem.ToString()));
        var lab = Lab.FromXyz(wanted.Colour);
        var result = Match.Find(lab, models, form.Paper);
        return Outcome.Of(new Answer(lab, wanted.ReadAs, result, Cautions(result.Proposals.SelectMany(one => one.Point.GramsPerLitre.Keys)), warnings));
    }

    internal static IReadOnlyList<string> Cautions(IEnumerable<string> additions)
    {
        var words = new List<string>();
        foreach (var name in additions.Distinct(StringComparer.OrdinalIgnoreCase))
        {
            if (SubstanceCatalogue.Standard.Find("addition", name).TryGet(out var found) && found.Substance.Hazard is { Caution.Length: > 0 } hazard) words.Add($"{name}: {hazard.Caution}");
        }

        if (words.Count > 0) words.Add(Hazard.GoesFirst);
        return words;
    }
}

using Dyewort.Pots;
using Dyewort.Quantities;
using Dyewort.Response;

namespace Dyewort.Workshop.Response;

/// <summary>Carries a recipe from the liquor it was made from to another harvest's: how far to boil it down, or other doses.</summary>
public sealed class CarryRecipe : IUseCase
{
    /// <summary>What a dose is measured out for, so that it can be compared: 100 ml.</summary>
    private const double ForMl = 100;

    /// <param name="form">The two liquors and the recipe.</param>
    /// <param name="trials">What the maker's pantry says of the additions.</param>
    public Outcome<CarryRecipeAnswer> Handle(CarryRecipeForm form, TrialSource trials)
    {
        ArgumentNullException.ThrowIfNull(form);
        ArgumentNullException.ThrowIfNull(trials);
        if (form.Volume.Millilitres <= 0)
            return Outcome.Refused<CarryRecipeAnswer>(
                nameof(form.Volume),
                "The new liquor's volume is missing.",
                "Give it, such as 800 ml."
            );
        if (Caution.WhyNever(form.GramsPerLitre.Names.Select(trials.MaterialOf)) is { } never)
            return Outcome.Refused<CarryRecipeAnswer>(
                nameof(form.GramsPerLitre),
                $"That is not carried to another harvest. {never}",
                "Choose another recipe."
            );
        var carried = Harvest.Carry(form.Ratio, form.Volume.Millilitres, form.GramsPerLitre);
        return carried.TryGet(out var advice)
            ? Outcome.Of(
                new CarryRecipeAnswer(
                    advice,
                    [
                        .. advice.Doses.Select(dose =>
                            MeasuredDose.Of(trials.MaterialOf(dose.Name), dose.AsItIsGramsPerLitre, ForMl, trials.TeaspoonMl)
                        ),
                    ]
                )
            )
            : Outcome.Refused<CarryRecipeAnswer>(carried.Problems);
    }
}

public sealed record CarryRecipeForm
{
    /// <summary>The new liquor's strength against that of the one the recipe was made from.</summary>
    public required StrengthRatio Ratio { get; init; }

    /// <summary>How much there is of the new one.</summary>
    public required Volume Volume { get; init; }

    /// <summary>The recipe's doses.</summary>
    public Doses GramsPerLitre { get; init; } = Doses.None;
}

/// <param name="Advice">What to do.</param>
/// <param name="Doses">The advice's doses for the liquor as it is, in 100 ml, in the same order.</param>
public sealed record CarryRecipeAnswer(HarvestAdvice Advice, IReadOnlyList<MeasuredDose> Doses);

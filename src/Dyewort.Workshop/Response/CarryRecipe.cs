using Dyewort.Pots;
using Dyewort.Quantities;
using Dyewort.Response;
using Dyewort.Workshop.Pots;

namespace Dyewort.Workshop.Response;

/// <summary>Carries a recipe from the liquor it was made from to another harvest's.</summary>
public sealed class CarryRecipe : IUseCase
{
    /// <param name="compared">Two liquors: the one the recipe was made from first, the new one second.</param>
    /// <param name="volume">Volume of the new one, as typed.</param>
    /// <param name="doses">The recipe's doses in g/L, such as "alum=10".</param>
    public Outcome<HarvestAdvice> Handle(CompareStrengthAnswer compared, string? volume, IReadOnlyList<string> doses)
    {
        ArgumentNullException.ThrowIfNull(compared);
        ArgumentNullException.ThrowIfNull(doses);
        var entered = new Entered();
        var millilitres = entered.Millilitres("--carry", volume);
        if (millilitres is not > 0 && entered.Sound)
            entered.Refuse("--carry", "The new liquor's volume is missing.", "Add --carry 800ml.");
        if (compared.Liquors.Count != 2)
            entered.Refuse(
                "drops",
                $"The table holds {compared.Liquors.Count} liquors.",
                "Give two: the one the recipe was made from first, the new one second."
            );
        var recipe = entered.Doses("--dose", doses, null, "alum=10");
        if (!entered.Sound)
            return Outcome.Refused<HarvestAdvice>(entered.Problems);
        var line = compared.Liquors[1];
        return Harvest.Carry(
            new StrengthRatio(line.RatioToFirst, line.RatioUncertainty, line.Strength, compared.Liquors[0].Strength, []),
            millilitres!.Value,
            recipe
        );
    }
}

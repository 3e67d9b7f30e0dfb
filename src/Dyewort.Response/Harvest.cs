using System.Globalization;
using Dyewort.Pots;
using Dyewort.Quantities;

namespace Dyewort.Response;

/// <summary>How one dose of a recipe follows to a liquor of another strength.</summary>
/// <param name="Name">The addition.</param>
/// <param name="RecipeGramsPerLitre">The recipe's dose, for a liquor of the old strength.</param>
/// <param name="AsItIsGramsPerLitre">The dose for the new liquor used as it is.</param>
/// <param name="FollowsDye">True where it binds the dye and scales with it; false for an acid or base, whose dose is a first guess
/// only.</param>
/// <param name="Words">One sentence.</param>
public sealed record HarvestDose(string Name, double RecipeGramsPerLitre, double AsItIsGramsPerLitre, bool FollowsDye, string Words);

/// <summary>What to do with a new pot so that an old recipe holds.</summary>
public sealed record HarvestAdvice
{
    /// <summary>Strength of the new pot over the old one.</summary>
    public required double Ratio { get; init; }

    /// <summary>19 times of 20 it lies above this …</summary>
    public required double RatioLow { get; init; }

    /// <summary>… and below this.</summary>
    public required double RatioHigh { get; init; }

    /// <summary>True where the two cannot be told apart.</summary>
    public required bool MayBeTheSame { get; init; }

    /// <summary>The volume to which the new liquor is boiled down or thinned, ml.</summary>
    public required double BringToMillilitres { get; init; }

    /// <summary>Water to boil off (below 0) or to add, ml.</summary>
    public required double WaterMillilitres { get; init; }

    /// <summary>How the doses follow.</summary>
    public required IReadOnlyList<HarvestDose> Doses { get; init; }

    /// <summary>All of it, sentence by sentence.</summary>
    public required IReadOnlyList<string> Words { get; init; }
}

/// <summary>Carries a recipe to another harvest.</summary>
/// <remarks>Strength times volume stays the same when water is boiled off or added; what heat destroys on the way is not counted here.
/// Metal salts and tannins bind dye, so their doses follow the dye; acids and bases work against the liquor's own acids, which the strength
/// of the colour does not tell (common practice, no source).</remarks>
public static class Harvest
{
    /// <summary>What to do with a new liquor.</summary>
    /// <param name="strength">The new liquor compared with the old, from drops or washes of both on one paper.</param>
    /// <param name="millilitres">Volume of the new liquor, ml, above 0.</param>
    /// <param name="recipe">The recipe's additions in g/L, for a liquor of the old strength.</param>
    public static Outcome<HarvestAdvice> Carry(StrengthRatio strength, double millilitres, Doses recipe)
    {
        ArgumentNullException.ThrowIfNull(strength);
        ArgumentNullException.ThrowIfNull(recipe);
        if (!(millilitres is > 0 and <= 1e6))
            return Outcome.Refused<HarvestAdvice>("volume", "The new liquor's volume is missing.", "Give more than 0 ml.");
        var spread = 1.96 * strength.Uncertainty / strength.Ratio;
        var (low, high) = (strength.Ratio * Math.Exp(-spread), strength.Ratio * Math.Exp(spread));
        var same = low <= 1 && high >= 1;
        var goal = millilitres * strength.Ratio;
        HarvestDose[] doses =
        [
            .. recipe.Select(written =>
            {
                var follows = !Agents.ActsThroughPhOnly(written.Name);
                var dose = written.Amount * strength.Ratio;
                return new HarvestDose(
                    written.Name,
                    written.Amount,
                    dose,
                    follows,
                    follows
                        ? string.Create(
                            CultureInfo.InvariantCulture,
                            $"{written.Name}: {dose:0.##} g/L in the liquor as it is, for it binds the dye and follows its strength."
                        )
                        : string.Create(
                            CultureInfo.InvariantCulture,
                            $"{written.Name}: about {dose:0.##} g/L in the liquor as it is, as a first guess: it answers the "
                                + $"liquor's own acids, so go by the recipe's pH and stop there."
                        )
                );
            }),
        ];
        var words = new List<string>
        {
            string.Create(
                CultureInfo.InvariantCulture,
                $"The new liquor is {strength.Ratio:0.00} times as strong (between {low:0.00} and {high:0.00})."
            ),
        };
        if (same)
            words.Add("That may well be the same strength: take more drops of both before boiling or thinning.");
        words.Add(
            strength.Ratio < 1
                ? string.Create(
                    CultureInfo.InvariantCulture,
                    $"Boil {millilitres:0} ml down to {goal:0} ml (between {millilitres * low:0} and "
                        + $"{millilitres * Math.Min(high, 1):0}) and the recipe's doses per litre hold; its own acids and "
                        + $"salts grow stronger with it."
                )
                : string.Create(
                    CultureInfo.InvariantCulture,
                    $"Thin {millilitres:0} ml with {goal - millilitres:0} ml of water to {goal:0} ml (between "
                        + $"{millilitres * Math.Max(low, 1):0} and {millilitres * high:0}) and the recipe's doses per litre hold."
                )
        );
        if (doses.Length > 0)
            words.Add("Or use it as it is and let the doses follow:");
        words.AddRange(doses.Select(dose => dose.Words));
        return Outcome.Of(
            new HarvestAdvice
            {
                Ratio = strength.Ratio,
                RatioLow = low,
                RatioHigh = high,
                MayBeTheSame = same,
                BringToMillilitres = goal,
                WaterMillilitres = goal - millilitres,
                Doses = doses,
                Words = [.. words, .. strength.Remarks],
            }
        );
    }
}

using Dyewort.Quantities;

namespace Dyewort.Workshop;

/// <summary>What the measures of a kitchen hold, in words.</summary>
public static class KitchenWords
{
    /// <summary>"A teaspoon is 5 ml, a tablespoon 15 ml, …"</summary>
    public static string Of(Teaspoon kitchen)
    {
        string Say(AmountUnit unit) => Volume.FromMillilitres(KitchenMeasures.Millilitres(unit, kitchen)!.Value).ToString();
        return $"A teaspoon is {Say(AmountUnit.Teaspoon)}, a tablespoon {Say(AmountUnit.Tablespoon)}, a fluid ounce "
            + $"{Say(AmountUnit.FluidOunce)}, a cup {Say(AmountUnit.Cup)}, a pint {Say(AmountUnit.Pint)}, a quart {Say(AmountUnit.Quart)}, "
            + $"a gallon {Say(AmountUnit.Gallon)}. What was written before stays what it was.";
    }
}

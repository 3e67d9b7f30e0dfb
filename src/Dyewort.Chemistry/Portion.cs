using Dyewort.Quantities;

namespace Dyewort.Chemistry;

/// <summary>One addition, measured: so many grams or millilitres of one substance, and how far that may be off.</summary>
public sealed record Portion
{
    private Portion(NamedSubstance named, double grams, double millilitres, double lowFactor, double highFactor) =>
        (Named, Grams, Millilitres, LowFactor, HighFactor) = (named, grams, millilitres, lowFactor, highFactor);

    /// <summary>What it is, with its strength.</summary>
    public NamedSubstance Named { get; }

    /// <summary>The substance.</summary>
    public Substance Substance => Named.Substance;

    /// <summary>Weight as it went in, g; for a liquid the whole liquid.</summary>
    public double Grams { get; }

    /// <summary>Volume it adds to the jar, ml: a liquid's own, 0 for a powder.</summary>
    public double Millilitres { get; }

    /// <summary>Lower end of what it may have been, as a share of <see cref="Grams"/>, from spoon, strength and purity together.</summary>
    public double LowFactor { get; }

    /// <summary>Upper end.</summary>
    public double HighFactor { get; }

    /// <summary>Grams of the substance itself, without the water it came in.</summary>
    public double PureGrams =>
        Substance.Form switch
        {
            SubstanceForm.Liquid or SubstanceForm.Spirit => ActiveGramsPerMillilitre(Substance, Named.Strength)
                * Grams
                / Substance.Density(Named.Strength),
            SubstanceForm.Water => 0,
            _ => Grams,
        };

    /// <summary>Moles of the substance; 0 where a mixture has no formula.</summary>
    public double Moles => Substance.MolarMass > 1.5 ? PureGrams / Substance.MolarMass : 0;

    /// <summary>Grams of plain water it brings, crystal water apart.</summary>
    internal double WaterGrams =>
        Substance.Form switch
        {
            SubstanceForm.Liquid or SubstanceForm.Spirit => Math.Max(0, Grams - PureGrams),
            SubstanceForm.Water => Grams,
            _ => 0,
        };

    /// <summary>Weighed out.</summary>
    /// <param name="named">What.</param>
    /// <param name="grams">How much, 0 or more.</param>
    public static Portion OfGrams(NamedSubstance named, double grams)
    {
        ArgumentNullException.ThrowIfNull(named);
        Check(grams, nameof(grams));
        var substance = named.Substance;
        var isLiquid = IsLiquid(substance);
        // A kitchen scale is good to about a fiftieth of what is put on it.
        return Make(named, grams, isLiquid ? grams / substance.Density(named.Strength) : 0, 0.02, 0.02);
    }

    /// <summary>Measured by volume: a liquid's own volume, or a powder levelled in a measure.</summary>
    public static Portion OfMillilitres(NamedSubstance named, double millilitres)
    {
        ArgumentNullException.ThrowIfNull(named);
        Check(millilitres, nameof(millilitres));
        var substance = named.Substance;
        if (IsLiquid(substance))
            return Make(named, millilitres * substance.Density(named.Strength), millilitres, 0.04, 0.04);
        return Spooned(named, millilitres / (substance.WeighedWithMillilitres ?? Substance.TableTeaspoonMillilitres));
    }

    /// <summary>Measured with level spoons.</summary>
    /// <param name="named">What.</param>
    /// <param name="teaspoons">How many level teaspoons, 0 or more.</param>
    /// <param name="teaspoonMillilitres">The maker's teaspoon, ml: 5, 4.929 or 5.919.</param>
    public static Portion OfTeaspoons(NamedSubstance named, double teaspoons, double teaspoonMillilitres = 5)
    {
        ArgumentNullException.ThrowIfNull(named);
        Check(teaspoons, nameof(teaspoons));
        var substance = named.Substance;
        if (IsLiquid(substance))
            return Make(
                named,
                teaspoons * teaspoonMillilitres * substance.Density(named.Strength),
                teaspoons * teaspoonMillilitres,
                0.06,
                0.06
            );
        return Spooned(named, teaspoons * substance.Spoonfuls(teaspoonMillilitres));
    }

    /// <summary>Counted in drops of a liquid.</summary>
    /// <param name="named">What.</param>
    /// <param name="drops">How many.</param>
    /// <param name="dropper">What they fell from; null for an ordinary pipette.</param>
    public static Portion OfDrops(NamedSubstance named, double drops, Dropper? dropper = null)
    {
        ArgumentNullException.ThrowIfNull(named);
        Check(drops, nameof(drops));
        var each = (dropper ?? Dropper.Ordinary).MillilitresPerDrop(named);
        var millilitres = drops * each;
        // A powder has no drops: such a drop is taken as that volume of it, levelled.
        return IsLiquid(named.Substance)
            ? Make(named, millilitres * named.Substance.Density(named.Strength), millilitres, 0.15, 0.15)
            : OfMillilitres(named, millilitres);
    }

    /// <summary>Measured the way a person says it: "1/4 tsp", "2.5 g", "3 drops", "1 pinch", "4 cloves".</summary>
    /// <param name="field">The field or option the amount was typed in.</param>
    /// <param name="named">What.</param>
    /// <param name="amount">How much.</param>
    /// <param name="spoon">The notebook's teaspoon; what the amount itself names goes before it.</param>
    /// <param name="dropper">What drops fall from; null for an ordinary pipette.</param>
    public static Outcome<Portion> Measured(string field, NamedSubstance named, Amount amount, Teaspoon spoon, Dropper? dropper = null)
    {
        ArgumentNullException.ThrowIfNull(named);
        ArgumentNullException.ThrowIfNull(amount);
        var kind = amount.KindIn(spoon);
        var each = KitchenMeasures.TeaspoonMillilitres(kind);
        if (KitchenMeasures.Grams(amount.Unit) is { } grams)
            return Fit(amount.Number * grams, value => OfGrams(named, value));
        if (amount.Unit != AmountUnit.Piece && named.Substance.GramsPerTeaspoon is null && !IsLiquid(named.Substance))
            return Outcome.Refused<Portion>(
                field,
                $"What a spoonful of {named.Substance.Name} weighs is not known.",
                "Weigh ten level spoons of it once, or give grams."
            );
        switch (amount.Unit)
        {
            case AmountUnit.Teaspoon or AmountUnit.Tablespoon:
                var spoons = amount.Unit == AmountUnit.Teaspoon ? amount.Number : 3 * amount.Number;
                return Fit(spoons, value => OfTeaspoons(named, value, each));
            case AmountUnit.Pinch or AmountUnit.Dash:
                // What two fingers take up is half or double what was meant.
                return Fit(
                    amount.Number * KitchenMeasures.Millilitres(amount.Unit, kind)!.Value / each,
                    value => OfTeaspoons(named, value, each).Within(0.5, 0.8)
                );
            case AmountUnit.Drop:
                return Fit(amount.Number, value => OfDrops(named, value, dropper));
            case AmountUnit.Piece:
                if (named.Substance.GramsPerPiece is not { } piece)
                    return Outcome.Refused<Portion>(
                        field,
                        $"“{amount.Text}” of {named.Substance.Name} cannot be turned into grams.",
                        "Weigh it, or measure it with a level spoon."
                    );
                // Three or four cloves: the fewest of the lightest to the most of the heaviest.
                var fewest = amount is { Least: { } least, Number: > 0 } ? least / amount.Number : 1;
                var most = amount is { Most: { } up, Number: > 0 } ? up / amount.Number : 1;
                return Fit(amount.Number * piece, value => OfGrams(named, value).Within(1 - (0.7 * fewest), (1.3 * most) - 1));
            default:
                return Fit(amount.Number * KitchenMeasures.Millilitres(amount.Unit, kind)!.Value, value => OfMillilitres(named, value));
        }

        Outcome<Portion> Fit(double value, Func<double, Portion> make) =>
            value <= 1e5
                ? Outcome.Of(make(value))
                : Outcome.Refused<Portion>(field, $"“{amount.Text}” is more than any jar holds.", "Check the number and its unit.");
    }

    /// <summary>The same addition, all amounts times a factor.</summary>
    public Portion Times(double factor)
    {
        Check(factor, nameof(factor));
        return new(Named, Grams * factor, Millilitres * factor, LowFactor, HighFactor);
    }

    /// <summary>The same grams of a liquid that holds so many times as much; of anything else so many times the grams.</summary>
    /// <remarks>What a bottle's strength may be off by changes what a jar of nothing else reads, which more of the same would
    /// not.</remarks>
    internal Portion Stronger(double factor) =>
        Substance.Form == SubstanceForm.Liquid && Named.Strength is { } strength
            ? new(Named with { Strength = strength with { Value = strength.Value * factor } }, Grams, Millilitres, LowFactor, HighFactor)
            : Times(factor);

    /// <summary>The same addition with a wider or narrower measuring error, each as a share (0.5 for a pinch).</summary>
    public Portion Within(double below, double above) => Make(Named, Grams, Millilitres, below, above);

    /// <summary>The same addition with the range that was found when it was measured, as shares of its grams.</summary>
    public Portion Between(double lowFactor, double highFactor) => new(Named, Grams, Millilitres, lowFactor, highFactor);

    internal static double ActiveGramsPerMillilitre(Substance substance, Strength? strength) =>
        strength is not { } given
            ? substance.Density(null)
            : given.Unit switch
            {
                StrengthUnit.PercentWeightPerVolume => given.Value / 100,
                StrengthUnit.PercentByWeight => given.Value / 100 * substance.Density(given),
                StrengthUnit.PercentByVolume => given.Value / 100 * Substance.EthanolDensity,
                _ => given.Value / 1000 * substance.MolarMass,
            };

    internal static bool IsLiquid(Substance substance) =>
        substance.Form is SubstanceForm.Liquid or SubstanceForm.Spirit or SubstanceForm.Water
        || substance.Key.EndsWith("-oil", StringComparison.Ordinal);

    private static Portion Spooned(NamedSubstance named, double teaspoons)
    {
        var spoon =
            named.Substance.GramsPerTeaspoon
            ?? throw new ArgumentException($"What a spoonful of {named.Substance.Name} weighs is not known.", nameof(named));
        return Make(named, teaspoons * spoon.Typical, 0, 1 - (spoon.Low / spoon.Typical), (spoon.High / spoon.Typical) - 1);
    }

    private static Portion Make(NamedSubstance named, double grams, double millilitres, double below, double above)
    {
        var (strengthBelow, strengthAbove) = named.Strength is { } strength
            ? (1 - (strength.Low / strength.Value), (strength.High / strength.Value) - 1)
            : (0, 0);
        var impurity = 1 - named.Substance.LeastPurity;
        var low = 1 - Math.Sqrt((below * below) + (strengthBelow * strengthBelow) + (impurity * impurity));
        var high = 1 + Math.Sqrt((above * above) + (strengthAbove * strengthAbove));
        return new(named, grams, millilitres, Math.Max(low, 0.05), high);
    }

    private static void Check(double value, string name)
    {
        if (!(value is >= 0 and <= 1e6))
            throw new ArgumentOutOfRangeException(name, value, "An amount is 0 to a million.");
    }
}

/// <summary>What drops fall from.</summary>
/// <param name="Name">In words.</param>
/// <param name="WaterDropMillilitres">A drop of water, ml.</param>
/// <param name="Source">Where that comes from.</param>
public sealed record Dropper(string Name, double WaterDropMillilitres, string Source)
{
    /// <summary>Twenty drops of water to the millilitre (common practice).</summary>
    public static Dropper Ordinary { get; } = new("pipette", 0.05, "20 drops per ml, from memory");

    /// <summary>A dropper the maker counted: so many drops of water to fill so many millilitres.</summary>
    public static Dropper Counted(double millilitres, int drops) =>
        millilitres > 0 && drops > 0
            ? new("your dropper", millilitres / drops, "counted by the maker")
            : throw new ArgumentOutOfRangeException(nameof(drops), drops, "Count at least one drop into more than 0 ml.");

    /// <summary>Alcohol and oils make smaller drops: about half of water's (40 per ml, from memory).</summary>
    public double MillilitresPerDrop(NamedSubstance named)
    {
        ArgumentNullException.ThrowIfNull(named);
        var isSmall =
            named.Substance.Form == SubstanceForm.Spirit
                ? (named.Strength?.Value ?? 100) > 60
                : named.Substance.Key.EndsWith("-oil", StringComparison.Ordinal);
        return isSmall ? WaterDropMillilitres / 2 : WaterDropMillilitres;
    }
}

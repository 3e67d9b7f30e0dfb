namespace Dyewort.Quantities;

/// <summary>How much one level measure of each kind holds.</summary>
/// <remarks>
/// US customary and imperial sizes are the factors of NIST SP 811, Appendix B.8 [SP811], as printed, to seven figures.
/// That table has no imperial teaspoon or cup: the teaspoon here is 1/768 of the imperial gallon (5.919 ml), as the US one is of the US
/// gallon, and the cup half an imperial pint; both are common practice, no source.
/// The metric spoons of 5 and 15 ml and the fluid ounce of 30 ml, two tablespoons, are those of NIST's kitchen equivalents
/// [NistKitchen]. The cup of 250 ml is the one that metric measuring cups hold, and pint, quart and gallon are 2, 4 and 16 of it (500 ml,
/// 1 L and 4 L), so that a metric kitchen agrees with itself: common practice, no source. A pinch is taken as 1/16 and a dash as 1/8
/// teaspoon, a drop of watery liquid as 0.05 ml: rough, common practice, no source.
/// </remarks>
public static class KitchenMeasures
{
    internal const double MillilitresPerUsTeaspoon = 4.928922;
    internal const double MillilitresPerUsTablespoon = 14.78676;
    internal const double MillilitresPerUsCup = 236.5882;
    internal const double MillilitresPerUsFluidOunce = 29.57353;
    internal const double MillilitresPerUsPint = 473.1765;
    internal const double MillilitresPerUsQuart = 946.3529;
    internal const double MillilitresPerUsGallon = 3785.412;
    internal const double MillilitresPerImperialGallon = 4546.09;
    internal const double MillilitresPerImperialFluidOunce = 28.41306;
    internal const double MillilitresPerMetricCup = 250;
    internal const double MillilitresPerMetricFluidOunce = 30;
    internal const double GramsPerOunce = 28.34952;
    internal const double GramsPerPound = 453.5924;
    internal const double MillilitresPerDrop = 0.05;
    internal const double TeaspoonsPerPinch = 1.0 / 16;
    internal const double TeaspoonsPerDash = 1.0 / 8;

    /// <summary>Millilitres in one level teaspoon.</summary>
    public static double TeaspoonMillilitres(Teaspoon kind) =>
        kind switch
        {
            Teaspoon.UsCustomary => MillilitresPerUsTeaspoon,
            Teaspoon.Imperial => MillilitresPerImperialGallon / 768,
            _ => 5,
        };

    /// <summary>Millilitres in one level tablespoon.</summary>
    public static double TablespoonMillilitres(Teaspoon kind) =>
        kind switch
        {
            Teaspoon.UsCustomary => MillilitresPerUsTablespoon,
            Teaspoon.Imperial => 3 * TeaspoonMillilitres(kind),
            _ => 15,
        };

    /// <summary>Millilitres of one measure by volume; null for units of mass and for things that are counted.</summary>
    /// <param name="unit">The unit.</param>
    /// <param name="kind">Which teaspoon, and with it which cup, fluid ounce and pint.</param>
    public static double? Millilitres(AmountUnit unit, Teaspoon kind) =>
        unit switch
        {
            AmountUnit.Millilitre => 1,
            AmountUnit.Litre => 1000,
            AmountUnit.Teaspoon => TeaspoonMillilitres(kind),
            AmountUnit.Tablespoon => TablespoonMillilitres(kind),
            AmountUnit.Pinch => TeaspoonMillilitres(kind) * TeaspoonsPerPinch,
            AmountUnit.Dash => TeaspoonMillilitres(kind) * TeaspoonsPerDash,
            AmountUnit.Drop => MillilitresPerDrop,
            AmountUnit.Cup => kind switch
            {
                Teaspoon.UsCustomary => MillilitresPerUsCup,
                Teaspoon.Imperial => MillilitresPerImperialGallon / 16,
                _ => MillilitresPerMetricCup,
            },
            AmountUnit.FluidOunce => kind switch
            {
                Teaspoon.UsCustomary => MillilitresPerUsFluidOunce,
                Teaspoon.Imperial => MillilitresPerImperialFluidOunce,
                _ => MillilitresPerMetricFluidOunce,
            },
            AmountUnit.Pint => kind switch
            {
                Teaspoon.UsCustomary => MillilitresPerUsPint,
                Teaspoon.Imperial => MillilitresPerImperialGallon / 8,
                _ => 2 * MillilitresPerMetricCup,
            },
            AmountUnit.Quart => kind switch
            {
                Teaspoon.UsCustomary => MillilitresPerUsQuart,
                Teaspoon.Imperial => MillilitresPerImperialGallon / 4,
                _ => 4 * MillilitresPerMetricCup,
            },
            AmountUnit.Gallon => kind switch
            {
                Teaspoon.UsCustomary => MillilitresPerUsGallon,
                Teaspoon.Imperial => MillilitresPerImperialGallon,
                _ => 16 * MillilitresPerMetricCup,
            },
            _ => null,
        };

    /// <summary>True where a measure holds another amount in another kitchen: spoons, cups, pints, no grams and millilitres.</summary>
    public static bool DependsOnKitchen(AmountUnit unit) => Millilitres(unit, Teaspoon.Metric) != Millilitres(unit, Teaspoon.Imperial);

    /// <summary>Grams of one measure by mass; null for every other unit.</summary>
    public static double? Grams(AmountUnit unit) =>
        unit switch
        {
            AmountUnit.Gram => 1,
            AmountUnit.Kilogram => 1000,
            AmountUnit.Milligram => 0.001,
            AmountUnit.Ounce => GramsPerOunce,
            AmountUnit.Pound => GramsPerPound,
            _ => null,
        };
}

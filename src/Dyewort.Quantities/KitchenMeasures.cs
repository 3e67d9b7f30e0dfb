namespace Dyewort.Quantities;

/// <summary>How much one level measure of each kind holds.</summary>
/// <remarks>
/// US customary and imperial sizes are the factors of NIST SP 811, Appendix B.8 [SP811], as printed, to seven figures.
/// That table has no imperial teaspoon or cup: the teaspoon here is 1/768 of the imperial gallon (5.919 ml), as the US one is of the US
/// gallon, and the cup half an imperial pint; both are common practice, no source.
/// The metric spoons of 5 and 15 ml and the cup of 250 ml are common practice too. A pinch is taken as 1/16 and a dash as 1/8 teaspoon,
/// a drop of watery liquid as 0.05 ml: rough, common practice, no source.
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
                _ => 250,
            },
            AmountUnit.FluidOunce => kind is Teaspoon.Imperial ? MillilitresPerImperialFluidOunce : MillilitresPerUsFluidOunce,
            AmountUnit.Pint => kind is Teaspoon.Imperial ? MillilitresPerImperialGallon / 8 : MillilitresPerUsPint,
            AmountUnit.Quart => kind is Teaspoon.Imperial ? MillilitresPerImperialGallon / 4 : MillilitresPerUsQuart,
            AmountUnit.Gallon => kind is Teaspoon.Imperial ? MillilitresPerImperialGallon : MillilitresPerUsGallon,
            _ => null,
        };

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

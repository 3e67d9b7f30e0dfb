using System.Globalization;
using Dyewort.Quantities;

namespace Dyewort.Chemistry;

/// <summary>How small amounts are measured out.</summary>
public enum StockTool
{
    /// <summary>A syringe or pipette read to 0.1 ml.</summary>
    Syringe = 0,

    /// <summary>Whole drops of 0.05 ml.</summary>
    Drops,
}

/// <summary>One dose from the stock bottle.</summary>
/// <param name="WantedGrams">What the trial asks for.</param>
/// <param name="Millilitres">What to measure.</param>
/// <param name="Drops">The same in drops, when counted so; else 0.</param>
/// <param name="Error">What rounding does to it, as a share.</param>
public sealed record StockDose(double WantedGrams, double Millilitres, int Drops, double Error);

/// <summary>A stock solution for doses too small to weigh: which strength makes every dose of a trial a readable number.</summary>
public sealed record StockSolution
{
    private static readonly double[] Strengths = [20, 10, 5, 2.5, 2, 1, 0.5, 0.25, 0.2, 0.1, 0.05, 0.02, 0.01];
    private static readonly double[] Bottles = [10, 20, 25, 50, 100, 200, 250, 500, 1000];

    /// <summary>What is dissolved.</summary>
    public required NamedSubstance Named { get; init; }

    /// <summary>Grams per 100 ml.</summary>
    public required double PercentWeightPerVolume { get; init; }

    /// <summary>Size to make up, ml.</summary>
    public required double BottleMillilitres { get; init; }

    /// <summary>What to weigh for it, g.</summary>
    public required double Grams { get; init; }

    /// <summary>Each dose.</summary>
    public required IReadOnlyList<StockDose> Doses { get; init; }

    /// <summary>How long it keeps and what spoils it.</summary>
    public required string Keeps { get; init; }

    /// <summary>How to make it.</summary>
    public required string Words { get; init; }

    /// <summary>Plans a stock bottle.</summary>
    /// <param name="named">A substance that dissolves.</param>
    /// <param name="doses">Grams of each dose of the trial, all above 0.</param>
    /// <param name="tool">What the doses are measured with.</param>
    /// <param name="largestDoseMillilitres">Most liquid a dose may add, ml: more would thin the sample.</param>
    public static Outcome<StockSolution> Plan(
        NamedSubstance named,
        IReadOnlyList<double> doses,
        StockTool tool = StockTool.Syringe,
        double largestDoseMillilitres = 10
    )
    {
        ArgumentNullException.ThrowIfNull(named);
        ArgumentNullException.ThrowIfNull(doses);
        if (doses.Count == 0 || doses.Any(dose => !(dose is > 0 and <= 1000)))
            return Outcome.Refused<StockSolution>("doses", "There is no dose to plan for.", "Give each dose in grams, above 0.");
        if (
            named.Substance.Form != SubstanceForm.Powder
            && named.Substance.Key is not ("tannic-acid" or "thymol" or "sugar" or "gum-arabic")
        )
            return Outcome.Refused<StockSolution>(
                "substance",
                $"{named.Name} is not dissolved into a stock solution.",
                named.Substance.Form == SubstanceForm.Suspension
                    ? "It only stays in suspension: weigh a larger amount and divide it."
                    : "Let it down with water instead."
            );
        // A tenth of a month in a cool room must not crystallise it: four fifths of what dissolves at 10 °C.
        var ceiling = named.Substance.SolubilityGramsPer100Grams(10) is { } solubility ? 0.8 * solubility : 20;
        StockSolution? best = null;
        foreach (var strength in Strengths)
        {
            if (strength > ceiling)
                continue;
            var planned = doses.Select(dose => Dose(dose, strength, tool)).ToList();
            if (
                planned.Any(dose =>
                    dose.Millilitres > largestDoseMillilitres
                    || dose.Millilitres < LeastReadable(tool) - 1e-9
                    || Math.Abs(dose.Error) > 0.05
                )
            )
                continue;
            var total = 1.2 * planned.Sum(dose => dose.Millilitres);
            var bottle = Bottles.FirstOrDefault(size => size >= total && strength / 100 * size >= 0.5, Bottles[^1]);
            var grams = strength / 100 * bottle;
            best = new()
            {
                Named = named,
                PercentWeightPerVolume = strength,
                BottleMillilitres = bottle,
                Grams = grams,
                Doses = planned,
                Keeps = Keeping(named.Substance.Key),
                Words = string.Create(
                    CultureInfo.InvariantCulture,
                    $"Dissolve {grams:0.##} g of {named.Name} in some water and make up to {bottle:0} ml: {strength:0.##} % (1 ml "
                        + $"holds {strength * 10:0.##} mg). Label it with strength, date and caution."
                ),
            };
            break;
        }

        return best is not null
            ? Outcome.Of(best)
            : Outcome.Refused<StockSolution>(
                "doses",
                string.Create(
                    CultureInfo.InvariantCulture,
                    $"No one strength makes doses from {doses.Min():0.####} to {doses.Max():0.####} g readable within 5 %."
                ),
                "Split the ladder between two bottles, or allow larger doses."
            );
    }

    /// <summary>Three drops, or two marks of a syringe: fewer are off by too much themselves.</summary>
    private static double LeastReadable(StockTool tool) => tool == StockTool.Drops ? 0.15 : 0.2;

    private static StockDose Dose(double grams, double strength, StockTool tool)
    {
        var exact = grams / (strength / 100);
        var step = tool == StockTool.Drops ? 0.05 : 0.1;
        var steps = Math.Round(exact / step);
        var measured = steps * step;
        return new(grams, measured, tool == StockTool.Drops ? (int)steps : 0, (measured / exact) - 1);
    }

    /// <summary>Common practice, no source.</summary>
    private static string Keeping(string key) =>
        key switch
        {
            "iron-sulfate" or "iron-sulfate-dried" or "iron-sulfate-anhydrous" or "iron-acetate" =>
                "Air turns it brown within days: make it fresh, keep the bottle full; a few grains of vitamin C hold it for a week or two.",
            "tannic-acid" or "gallic-acid" or "gallic-acid-anhydrous" => "Moulds and browns: a week or two in the cold.",
            "citric-acid" or "citric-acid-monohydrate" or "tartaric-acid" or "cream-of-tartar" =>
                "Weak fruit-acid solutions mould: a month in the cold.",
            "baking-soda" or "potassium-bicarbonate" => "Slowly loses carbon dioxide and grows more alkaline: a month, well closed.",
            "slaked-lime" or "caustic-soda" or "caustic-potash" => "Air turns it to carbonate: keep it closed, in plastic; a month.",
            "ascorbic-acid" => "Spoils within a day or two: make it fresh.",
            "sugar" or "gum-arabic" => "Feeds moulds: a week in the cold.",
            "copper-sulfate" or "copper-sulfate-anhydrous" or "copper-acetate" => "Keeps for years; poisonous: lock it away.",
            _ => "Keeps for a year, closed and labelled.",
        };
}

using System.Globalization;
using Dyewort.Quantities;

namespace Dyewort.Chemistry;

/// <summary>The sums of a lake: an aluminium salt made to fall out by an alkali, taking the colour with it.</summary>
/// <remarks>Derived from molar masses, so exact for pure materials: Al needs three equivalents of alkali. A carbonate gives two where its
/// CO2 leaves and one where it stays as bicarbonate; a bicarbonate gives one where its CO2 leaves.</remarks>
public sealed record Lake
{
    private const double AluminiumHydroxideMolarMass = 78.004;
    private const double GypsumMolarMass = 172.17;

    /// <summary>What water holds of gypsum at 20 °C, g/L (handbook, from memory).</summary>
    private const double GypsumGramsPerLitre = 2.4;
    private const double GasMillilitresPerMoleAt20 = 24_055;

    /// <summary>Aluminium salt used, g.</summary>
    public required double SaltGrams { get; init; }

    /// <summary>Least alkali that lets everything fall out, g: all its gas leaves.</summary>
    public required double LeastAlkaliGrams { get; init; }

    /// <summary>Most that can be taken up before the liquid turns alkaline, g: all its gas stays as bicarbonate.</summary>
    public required double MostAlkaliGrams { get; init; }

    /// <summary>CO2 if all of it leaves, ml at 20 °C and 1 atm.</summary>
    public required double MostGasMillilitres { get; init; }

    /// <summary>White body: dry aluminium hydroxide, g, before colour and water.</summary>
    public required double WhiteBodyGrams { get; init; }

    /// <summary>Gypsum that falls out with it where chalk or lime meets the salt's sulfate, g of CaSO4·2H2O: what the liquor holds
    /// dissolved
    /// is taken off. 0 with other alkalis.</summary>
    public required double GypsumGrams { get; init; }

    /// <summary>All that falls out before colour and water, g dry.</summary>
    public double BodyGrams => WhiteBodyGrams + GypsumGrams;

    /// <summary>Bucket to do it in, ml: four times the liquor where it foams, else half as much again (common practice).</summary>
    public required double BucketMillilitres { get; init; }

    /// <summary>The plan as a sentence.</summary>
    public required string Words { get; init; }

    /// <summary>Plans a lake.</summary>
    /// <param name="salt">Alum, ammonium alum, aluminium sulfate or acetate.</param>
    /// <param name="saltGrams">How much of it, > 0.</param>
    /// <param name="alkali">Soda ash, washing soda, bicarbonate, chalk, lime, ammonia, lye.</param>
    /// <param name="liquorMillilitres">Dye liquor it is in, ml.</param>
    public static Outcome<Lake> Plan(NamedSubstance salt, double saltGrams, NamedSubstance alkali, double liquorMillilitres)
    {
        ArgumentNullException.ThrowIfNull(salt);
        ArgumentNullException.ThrowIfNull(alkali);
        if (!salt.Substance.Gives("Al+3"))
            return Outcome.Refused<Lake>("salt", $"{salt.Name} holds no aluminium.", "Use alum or another aluminium salt.");
        if (!(saltGrams is > 0 and <= 1e5))
            return Outcome.Refused<Lake>("salt", $"{saltGrams:0.##} g of {salt.Name} cannot be planned with.", "Give more than 0 g.");
        var moles = Portion.OfGrams(salt, saltGrams).Moles;
        var aluminium = moles * salt.Substance.Ions.Moles["Al+3"];
        // A basic salt has part of its alkali already.
        var needed = (3 * aluminium) + (moles * Math.Min(0, salt.Substance.Ions.Moles.GetValueOrDefault("H+")));
        var ions = alkali.Substance.Ions.Moles;
        var carbon = ions.GetValueOrDefault("CO3-2");
        var protons = ions.GetValueOrDefault("H+");
        var bestEquivalents = (2 * carbon) - protons;
        if (bestEquivalents <= 0)
            return Outcome.Refused<Lake>(
                "alkali",
                $"{alkali.Name} is no alkali.",
                "Use soda ash, washing soda, chalk or bicarbonate of soda."
            );
        var leastEquivalents = carbon - protons;
        var perGram = Portion.OfGrams(alkali, 1).Moles;
        var least = needed / bestEquivalents / perGram;
        // A bicarbonate whose gas stays gives nothing at all: twice the least is as far as practice goes.
        var most = leastEquivalents > 0 ? needed / leastEquivalents / perGram : 2 * least;
        var gas = needed / bestEquivalents * carbon * GasMillilitresPerMoleAt20;
        var body = aluminium * AluminiumHydroxideMolarMass;
        var sulfate = moles * salt.Substance.Ions.Moles.GetValueOrDefault("SO4-2");
        var calcium = needed / bestEquivalents * ions.GetValueOrDefault("Ca+2");
        var gypsum = Math.Max(0, (Math.Min(sulfate, calcium) * GypsumMolarMass) - (GypsumGramsPerLitre * liquorMillilitres / 1000));
        var bucket = carbon > 0 ? Math.Max(4 * liquorMillilitres, liquorMillilitres + gas) : 1.5 * liquorMillilitres;
        if (carbon > 0)
            bucket = Math.Min(bucket, 6 * liquorMillilitres);
        var amount =
            most > 1.01 * least
                ? string.Create(
                    CultureInfo.InvariantCulture,
                    $"between {least:0.#} g (hot, all gas driven off) and {most:0.#} g (cold, all gas held)"
                )
                : string.Create(CultureInfo.InvariantCulture, $"{least:0.#} g");
        var foam =
            carbon > 0
                ? string.Create(
                    CultureInfo.InvariantCulture,
                    $" Up to {gas / 1000:0.0#} litres of gas foam up: add it a spoon at a time in a vessel of {bucket / 1000:0.#} litres."
                )
                : "";
        var chalky =
            gypsum > 0
                ? string.Create(
                    CultureInfo.InvariantCulture,
                    $", and with it {gypsum:0.00} g of gypsum, which washing hardly takes away: {body + gypsum:0.00} g in all, "
                        + $"paler for it. Soda leaves none."
                )
                : ".";
        return Outcome.Of(
            new Lake
            {
                SaltGrams = saltGrams,
                LeastAlkaliGrams = least,
                MostAlkaliGrams = most,
                MostGasMillilitres = gas,
                WhiteBodyGrams = body,
                GypsumGrams = gypsum,
                BucketMillilitres = bucket,
                Words = string.Create(
                    CultureInfo.InvariantCulture,
                    $"{saltGrams:0.#} g of {salt.Name} takes {amount} of {alkali.Name}; stop at pH 6.5 to 7.5, when the water on "
                        + $"top is clear.{foam} White body: {body:0.00} g dry{chalky}"
                ),
            }
        );
    }

    private string Body => GypsumGrams > 0 ? "the white body and its gypsum" : "the white body";

    /// <summary>What a dry yield means.</summary>
    /// <param name="dryGrams">Weighed after washing and drying.</param>
    public string Judge(double dryGrams)
    {
        if (!(dryGrams > 0))
            return "Nothing was weighed yet.";
        var share = dryGrams / BodyGrams;
        return share switch
        {
            < 0.85 => string.Create(
                CultureInfo.InvariantCulture,
                $"{100 * share:0} % of {Body}: not all fell out (too little or far too much alkali), or some went through " + $"the filter."
            ),
            < 1.2 => string.Create(CultureInfo.InvariantCulture, $"{100 * share:0} % of {Body}: hardly any colour was taken up."),
            < 2 => string.Create(
                CultureInfo.InvariantCulture,
                $"{100 * share:0} % of {Body}: the rest is colour and bound water, as it should be."
            ),
            _ => string.Create(
                CultureInfo.InvariantCulture,
                $"{100 * share:0} % of {Body}: still wet, or the salts were not washed out; wash until the rinse water "
                    + $"reads on a strip what the clean water reads, and dry again."
            ),
        };
    }
}

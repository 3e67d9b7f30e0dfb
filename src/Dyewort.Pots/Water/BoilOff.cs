using Dyewort.Quantities;

namespace Dyewort.Pots;

/// <summary>One boil that was measured: how much went off, in which pot on which ring, how hot, for how long.</summary>
/// <param name="Pot">The pot's name, such as S4.</param>
/// <param name="Ring">The ring's or hob's name; pots on one ring share what is learned only through the starting guess.</param>
/// <param name="LidOn">Whether the lid lay on.</param>
/// <param name="Celsius">Mean temperature of the liquor, 0 to 100 °C.</param>
/// <param name="Hours">Hours at that temperature.</param>
/// <param name="Millilitres">What went off.</param>
/// <param name="Kilowatts">What reached the liquor, above 0 kW, where that was written down.</param>
public sealed record BoilOffRecord(
    string Pot,
    string Ring,
    bool LidOn,
    double Celsius,
    double Hours,
    double Millilitres,
    double? Kilowatts = null
);

/// <summary>How fast a pot loses water, and how sure that is.</summary>
/// <param name="LitresPerHour">Median of the prediction.</param>
/// <param name="LowLitresPerHour">Lower end of the 90 % band for the next boil.</param>
/// <param name="HighLitresPerHour">Upper end; never above what the heat can drive off.</param>
/// <param name="Records">How many boils of this pot, ring and lid it rests on; 0 means common practice only.</param>
public sealed record BoilOffRate(double LitresPerHour, double LowLitresPerHour, double HighLitresPerHour, int Records);

/// <summary>Learns the boil-off rate of a pot on a ring from its own records.</summary>
/// <remarks>Log-normal with unknown mean and spread (normal–inverse-gamma), so that one record already helps and ten replace the guess.
/// The starting guess is an open simmer of 0.42 l/h from a 24 cm pot, 0.3 to 0.6 l/h usual (common practice, no source), in proportion
/// to the surface; a lid keeps about four fifths back (common practice, no source). Below the boil the rate follows the vapour pressure
/// above that of room air; at the boil a heat that is known drives off what its latent heat allows, less what the pot gives to the room:
/// about
/// a tenth of a kilowatt from a pot of 24 cm, 10 W/m² K over its sides and bottom (estimate), until its own log says otherwise.</remarks>
public static class BoilOff
{
    private const double SimmerCelsius = 96;
    private const double SimmerLitresPerHour = 0.42;
    private const double UsualDiameterCentimetres = 24;
    private const double LidShare = 0.2;

    // Vapour in room air at 20 °C and 50 % humidity.
    private const double RoomKilopascals = 1.17;

    /// <summary>From here on the heat decides how much goes off, below it the vapour pressure.</summary>
    private const double BoilsFromCelsius = 95;

    // From the pot's sides and bottom into the room, kW for a pot of the usual width.
    private const double RoomKilowatts = 0.1;

    // The guess counts as this many boils.
    private const double GuessWeight = 0.5;

    /// <summary>Predicts the rate of a boil to come.</summary>
    /// <param name="records">Boils of the past; those of other pots, rings or lids are left out.</param>
    /// <param name="pot">The pot's name.</param>
    /// <param name="ring">The ring's name.</param>
    /// <param name="lidOn">Whether the lid will lie on.</param>
    /// <param name="celsius">How hot the liquor will be, 0 to 100 °C.</param>
    /// <param name="diameterCentimetres">The liquor's surface, 5 to 100 cm across; null takes 24 cm.</param>
    /// <param name="kilowattsReachingLiquor">What reaches the liquor, where it is known: at the boil it sets the rate by its latent heat,
    /// and no
    /// rate goes above that.</param>
    public static Outcome<BoilOffRate> Predict(
        IReadOnlyList<BoilOffRecord> records,
        string pot,
        string ring,
        bool lidOn,
        double celsius,
        double? diameterCentimetres = null,
        double? kilowattsReachingLiquor = null
    )
    {
        var problems = new List<Problem>();
        if (celsius is not (>= 0 and <= 100))
            problems.Add(Sentence.Bad("temperature", $"{celsius:0.#} °C is outside 0 to 100 °C.", "Give the liquor's temperature in °C."));
        if (diameterCentimetres is { } wide && wide is not (>= 5 and <= 100))
            problems.Add(
                Sentence.Bad("diameter", $"A pot {wide:0.#} cm across is outside 5 to 100 cm.", "Give the liquor's surface in centimetres.")
            );
        if (kilowattsReachingLiquor is { } power && power is not (> 0 and <= 50))
            problems.Add(
                Sentence.Bad(
                    "heat",
                    $"{power:0.##} kW is outside 0 to 50 kW.",
                    "Give what reaches the liquor, about half of a gas ring's rating."
                )
            );
        var own = records.Where(record => record.Pot == pot && record.Ring == ring && record.LidOn == lidOn).ToList();
        foreach (var record in own)
        {
            if (!(record.Hours > 0 && record.Millilitres > 0 && record.Celsius is >= 0 and <= 100))
                problems.Add(
                    Sentence.Bad(
                        "records",
                        $"A boil of {record.Millilitres:0.#} ml in {record.Hours:0.##} h at {record.Celsius:0.#} °C teaches nothing.",
                        "Leave out boils without a loss or a time."
                    )
                );
        }

        if (problems.Count > 0)
            return Outcome.Refused<BoilOffRate>(problems);

        var across = (diameterCentimetres ?? UsualDiameterCentimetres) / UsualDiameterCentimetres;
        if (kilowattsReachingLiquor is { } known && celsius >= BoilsFromCelsius && own.TrueForAll(record => record.Kilowatts is > 0))
            return Outcome.Of(ByHeat(own, known, celsius, across, lidOn));
        var guess = Math.Log(SimmerLitresPerHour * across * across * (lidOn ? LidShare : 1));
        var logs = own.Select(record => Math.Log(record.Millilitres / 1000 / record.Hours / Drive(record.Celsius))).ToList();
        var next = new LogNormalLearner(logs, guess, GuessWeight, 0.25);
        var drive = Drive(celsius);
        var ceiling = kilowattsReachingLiquor is { } heat ? Steam.CeilingLitresPerHour(heat, celsius) : double.PositiveInfinity;
        double Rate(double chance) => Math.Min(ceiling, drive * next.Quantile(chance));
        return Outcome.Of(new BoilOffRate(Rate(0.5), Rate(0.05), Rate(0.95), logs.Count));
    }

    /// <summary>What latent heat allows, times the share of the heat that this pot turns into vapour.</summary>
    private static BoilOffRate ByHeat(List<BoilOffRecord> own, double kilowatts, double celsius, double across, bool lidOn)
    {
        // A pot with much less heat than it loses does not boil; a twentieth of the heat is as little as is believed to go off.
        var share = Math.Max(0.05, 1 - (RoomKilowatts * across * across / kilowatts)) * (lidOn ? LidShare : 1);
        var logs = own.Select(record =>
                Math.Log(record.Millilitres / 1000 / record.Hours / Steam.CeilingLitresPerHour(record.Kilowatts!.Value, record.Celsius))
            )
            .ToList();
        var next = new LogNormalLearner(logs, Math.Log(share), GuessWeight, 0.25);
        var ceiling = Steam.CeilingLitresPerHour(kilowatts, celsius);
        double Rate(double chance) => ceiling * Math.Min(1, next.Quantile(chance));
        return new(Rate(0.5), Rate(0.05), Rate(0.95), logs.Count);
    }

    /// <summary>Rate at a temperature as a share of the simmer's, 0 to about 1.2.</summary>
    internal static double Drive(double celsius) =>
        Math.Max(
            0.01,
            (Steam.VapourPressureKilopascals(celsius) - RoomKilopascals)
                / (Steam.VapourPressureKilopascals(SimmerCelsius) - RoomKilopascals)
        );
}

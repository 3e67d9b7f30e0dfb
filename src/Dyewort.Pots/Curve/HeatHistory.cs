using Dyewort.Quantities;

namespace Dyewort.Pots;

/// <summary>How hot the pot was, minute by minute: readings joined by straight lines, the first and last held on.</summary>
public sealed class HeatHistory
{
    private readonly double[] minutes;
    private readonly double[] celsius;

    private HeatHistory(double[] minutes, double[] celsius) => (this.minutes, this.celsius) = (minutes, celsius);

    /// <summary>Whether all readings agree.</summary>
    public bool IsSteady => celsius.All(one => Math.Abs(one - celsius[0]) < 1e-9);

    /// <summary>A pot held at one temperature.</summary>
    /// <param name="celsius">−5 to 120 °C.</param>
    /// <exception cref="ArgumentOutOfRangeException">Outside that, or NaN.</exception>
    public static HeatHistory Steady(double celsius) =>
        celsius is >= -5 and <= 120
            ? new([0], [celsius])
            : throw new ArgumentOutOfRangeException(nameof(celsius), celsius, "Allowed: −5 to 120 °C.");

    /// <summary>A pot with thermometer readings.</summary>
    /// <param name="readings">Minutes since the start and °C, in any order; at least one.</param>
    public static Outcome<HeatHistory> FromReadings(IReadOnlyList<(double Minute, double Celsius)> readings)
    {
        if (readings.Count == 0)
            return Outcome.Refused<HeatHistory>("temperature", "There is no thermometer reading.", "Write down at least one temperature.");
        if (
            readings.FirstOrDefault(one => one.Celsius is not (>= -5 and <= 120) || one.Minute is not (>= -1e5 and <= 1e6)) is var bad
            && bad != default
        )
            return Outcome.Refused<HeatHistory>([
                Sentence.Bad(
                    "temperature",
                    $"{bad.Celsius:0.#} °C at minute {bad.Minute:0.#} is not a pot's temperature.",
                    "Give °C from −5 to 120."
                ),
            ]);
        var ordered = readings.GroupBy(one => one.Minute).OrderBy(group => group.Key).ToList();
        return Outcome.Of(
            new HeatHistory([.. ordered.Select(group => group.Key)], [.. ordered.Select(group => group.Average(one => one.Celsius))])
        );
    }

    /// <summary>Temperature at a minute, °C.</summary>
    public double At(double minute)
    {
        if (minute <= minutes[0])
            return celsius[0];
        if (minute >= minutes[^1])
            return celsius[^1];
        var after = Array.FindIndex(minutes, one => one > minute);
        var share = (minute - minutes[after - 1]) / (minutes[after] - minutes[after - 1]);
        return celsius[after - 1] + (share * (celsius[after] - celsius[after - 1]));
    }

    /// <summary>Degree-minutes above a temperature from the start to a minute: how much heat the pot has seen.</summary>
    public double DegreeMinutes(double untilMinute, double aboveCelsius = 0)
    {
        var steps = Math.Max(1, (int)Math.Ceiling(untilMinute));
        var width = untilMinute / steps;
        return Enumerable.Range(0, steps).Sum(step => width * Math.Max(0, At((step + 0.5) * width) - aboveCelsius));
    }

    /// <summary>Mean temperature from the start to a minute, °C.</summary>
    public double Mean(double untilMinute)
    {
        if (IsSteady || untilMinute <= 0)
            return celsius[0];
        const int steps = 60;
        return Enumerable.Range(0, steps).Average(step => At((step + 0.5) * untilMinute / steps));
    }

    /// <summary>Minutes at a reference temperature that do as much as the time so far did.</summary>
    internal double Equivalent(double untilMinute, double kilojoulesPerMole, double referenceCelsius) =>
        untilMinute <= 0 ? 0 : Between([untilMinute], referenceCelsius)[0].Equivalent(kilojoulesPerMole);

    /// <summary>The heat from the start to the first minute, from there to the second, and so on.</summary>
    internal Stretch[] Between(double[] ascendingMinutes, double referenceCelsius)
    {
        var answer = new Stretch[ascendingMinutes.Length];
        var from = 0.0;
        for (var place = 0; place < ascendingMinutes.Length; place++)
        {
            var span = ascendingMinutes[place] - from;
            var steps = IsSteady ? 1 : Math.Clamp((int)Math.Ceiling(span / 2), 4, 60);
            var start = from;
            answer[place] = new(
                span / steps,
                [
                    .. Enumerable
                        .Range(0, steps)
                        .Select(step => Arrhenius.Exponent(referenceCelsius, At(start + ((step + 0.5) * span / steps)))),
                ]
            );
            from = ascendingMinutes[place];
        }

        return answer;
    }

    /// <summary>A stretch of time cut into even steps.</summary>
    /// <param name="Width">Minutes a step.</param>
    /// <param name="Exponents">For each step what an activation energy of 1 kJ/mol adds to the logarithm of a rate.</param>
    internal readonly record struct Stretch(double Width, double[] Exponents)
    {
        internal double Equivalent(double kilojoulesPerMole)
        {
            var sum = 0.0;
            foreach (var exponent in Exponents)
                sum += Math.Exp(kilojoulesPerMole * exponent);
            return sum * Width;
        }
    }
}

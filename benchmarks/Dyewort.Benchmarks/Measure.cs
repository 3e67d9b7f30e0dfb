using System.Diagnostics;
using System.Globalization;

namespace Dyewort.Benchmarks;

/// <summary>Times work that is repeated until it lasts long enough to be timed, on one thread.</summary>
internal static class Measure
{
    /// <summary>Items per second: the median of five rounds of at least 0.3 s, after one to warm up.</summary>
    /// <param name="items">Items one call works through.</param>
    /// <param name="work">The work.</param>
    public static double PerSecond(double items, Action work)
    {
        var rounds = new double[6];
        for (var round = 0; round < rounds.Length; round++)
        {
            var calls = 0;
            var start = Stopwatch.GetTimestamp();
            do
            {
                work();
                calls++;
            } while (Stopwatch.GetElapsedTime(start) < TimeSpan.FromSeconds(0.3));
            rounds[round] = calls * items / Stopwatch.GetElapsedTime(start).TotalSeconds;
        }

        return rounds.Skip(1).Order().ElementAt(2);
    }

    public static void Row(string what, double perSecond, double? floor, string floorName) =>
        Console.WriteLine(
            string.Create(
                CultureInfo.InvariantCulture,
                $"| {what} | {perSecond:#,0} | {(floor is { } one ? $"{perSecond / one:0.#} × {floorName}" : floorName)} |"
            )
        );
}

using System.Globalization;
using Dyewort.Colour;
using Dyewort.Response.Tests.Generated;

namespace Dyewort.Response.Accuracy;

/// <summary>Held-out compositions of made-up plants, beside the nearest square and squares weighed by distance.</summary>
internal static class PredictCheck
{
    /// <summary>Scatter of readings of very different care.</summary>
    private static readonly double[] Uneven = [0.5, 1, 3];

    public static void Run(
        Func<int, IPlant> grow,
        int plants,
        int[] sizes,
        double scatter,
        string phMode,
        int first,
        bool bins,
        bool kinds,
        string stated
    )
    {
        Console.WriteLine(
            "samples,plants,mean,median,p95,coverage,coverageOfReading,meanRadius,"
                + "nearest,weighted,belowNearest%,belowWeighted%,secondsPerPlant"
        );
        foreach (var n in sizes)
        {
            var all =
                new List<(
                    double Error,
                    double Read,
                    double Radius,
                    double Nearest,
                    double Weighted,
                    double Ph,
                    double PhZ,
                    string Kind,
                    string Law,
                    double Leaning
                )>();
            var tested = new List<(double Error, double Radius)>();
            var computed = new List<(double Error, double Radius)>();
            var scatters = new List<double>();
            var clock = System.Diagnostics.Stopwatch.StartNew();
            for (var p = 0; p < plants; p++)
            {
                var plant = grow(first + p);
                var noise = scatter < 0 ? 0.5 + (p % 3 * 0.5) : scatter;
                var rows = Enumerable
                    .Range(0, n)
                    .Select(i => plant.Read(plant.Draw($"S{i}", plain: i == 0), stated.Length == 0 ? noise : Uneven[i % Uneven.Length]))
                    .ToArray();
                if (stated == "yes")
                    rows = [.. rows.Select((row, i) => row with { UncertaintyDe00 = 2.8 * 0.63 * Uneven[i % Uneven.Length] })];
                var held = Enumerable.Range(0, 40).Select(i => plant.Draw($"H{i}")).ToArray();
                rows =
                [
                    .. rows.Select(
                        (row, i) =>
                            phMode == "none" || (phMode == "half" && i % 2 == 1) ? row with { Point = row.Point with { Ph = null } } : row
                    ),
                ];
                if (!ResponseModel.Fit(rows, [.. plant.Used]).TryGet(out var model))
                    throw new InvalidOperationException();
                scatters.Add(model.ReadingScatterDe00 / (0.63 * noise));
                foreach (var row in rows)
                {
                    var again = model.Predict(row.Point);
                    tested.Add((Difference.Ciede2000(plant.ColourOf(row.Point), again.Colour), again.UncertaintyDe00));
                }

                foreach (var point in held)
                {
                    var blind = point with { Ph = null };
                    var asked = phMode == "given" ? point : blind;
                    var truth = plant.ColourOf(point);
                    var prediction = model.Predict(asked);
                    var ph = model.Ph.Of(blind);
                    var unmeasured = phMode == "given" ? model.Predict(blind) : prediction;
                    computed.Add((Difference.Ciede2000(truth, unmeasured.Colour), unmeasured.UncertaintyDe00));
                    var off = Math.Abs(ph.Ph - point.Ph!.Value);
                    all.Add(
                        (
                            Difference.Ciede2000(truth, prediction.Colour),
                            Difference.Ciede2000(plant.Read(point, noise).Colour, prediction.Colour),
                            prediction.UncertaintyDe00,
                            Difference.Ciede2000(truth, Baselines.Nearest(rows, asked, plant.Used)),
                            Difference.Ciede2000(truth, Baselines.Weighted(rows, asked, plant.Used)),
                            off,
                            off / ph.Uncertainty,
                            plant.Kind,
                            plant.Law,
                            prediction.PriorWeight
                        )
                    );
                }

                if (kinds)
                    Console.WriteLine(
                        string.Create(
                            CultureInfo.InvariantCulture,
                            $"  {first + p} {plant.Kind}, {plant.Law}, noise {noise}, {string.Join(" ", plant.Used)}: "
                                + $"{all.TakeLast(40).Average(one => one.Error):0.00} radius "
                                + $"{all.TakeLast(40).Average(one => one.Radius):0.00} nearest "
                                + $"{all.TakeLast(40).Average(one => one.Nearest):0.00} covered "
                                + $"{all.TakeLast(40).Count(one => one.Error <= one.Radius)}/40: {model.Describe()}"
                        )
                    );
            }

            double At(IEnumerable<double> values, double share) => values.Order().ElementAt((int)(share * all.Count));
            var (mean, nearest, weighted) = (
                all.Average(one => one.Error),
                all.Average(one => one.Nearest),
                all.Average(one => one.Weighted)
            );
            Console.WriteLine(
                string.Create(
                    CultureInfo.InvariantCulture,
                    $"{n},{plants},{mean:0.00},{At(all.Select(one => one.Error), 0.5):0.00},{At(all.Select(one => one.Error), 0.95):0.00},"
                        + $"{100.0 * all.Count(one => one.Error <= one.Radius) / all.Count:0.0},"
                        + $"{100.0 * all.Count(one => one.Read <= one.Radius) / all.Count:0.0},"
                        + $"{all.Average(one => one.Radius):0.00},{nearest:0.00},{weighted:0.00},{100 * (1 - (mean / nearest)):0.0},"
                        + $"{100 * (1 - (mean / weighted)):0.0},{clock.Elapsed.TotalSeconds / plants:0.0}"
                )
            );
            Console.WriteLine(
                string.Create(
                    CultureInfo.InvariantCulture,
                    $"  computed pH: error {all.Average(one => one.Ph):0.00}, 95th percentile {At(all.Select(one => one.Ph), 0.95):0.00}, "
                        + $"in standard deviations 68 % {At(all.Select(one => one.PhZ), 0.68):0.0} 95 % "
                        + $"{At(all.Select(one => one.PhZ), 0.95):0.0}"
                )
            );
            foreach (var (what, list) in new[] { ("pH not given", computed), ("tested squares", tested) })
            {
                var factors = list.Select(one => one.Error / one.Radius).Order().ToArray();
                Console.WriteLine(
                    string.Create(
                        CultureInfo.InvariantCulture,
                        $"  {what}: mean error {list.Average(one => one.Error):0.00}, radius {list.Average(one => one.Radius):0.00}, "
                            + $"inside {100.0 * list.Count(one => one.Error <= one.Radius) / list.Count:0.0} %, error over radius 50 % "
                            + $"{factors[factors.Length / 2]:0.00}, 95 % {factors[(int)(0.95 * factors.Length)]:0.00}"
                    )
                );
            }

            Console.WriteLine(
                string.Create(
                    CultureInfo.InvariantCulture,
                    $"  scatter learned over true: mean {scatters.Average():0.00}, "
                        + $"{string.Join(' ', scatters.Order().Select(one => one.ToString("0.0")))}"
                )
            );
            if (bins)
            {
                foreach (var (low, high) in new[] { (0.0, 1.0), (1.0, 1.5), (1.5, 2.0), (2.0, 3.0), (3.0, 5.0), (5.0, 10.0), (10.0, 99.0) })
                {
                    var pick = all.Where(one => one.Radius >= low && one.Radius < high).ToArray();
                    if (pick.Length < 6)
                        continue;
                    var factors = pick.Select(one => one.Error / one.Radius).Order().ToArray();
                    Console.WriteLine(
                        string.Create(
                            CultureInfo.InvariantCulture,
                            $"  radius {low}-{high}: {pick.Length}, mean error {pick.Average(one => one.Error):0.00}, coverage "
                                + $"{100.0 * pick.Count(one => one.Error <= one.Radius) / pick.Length:0.0}, factor for 95 % "
                                + $"{factors[(int)(0.95 * factors.Length)]:0.00}"
                        )
                    );
                }
            }

            foreach (
                var by in new Func<
                    (
                        double Error,
                        double Read,
                        double Radius,
                        double Nearest,
                        double Weighted,
                        double Ph,
                        double PhZ,
                        string Kind,
                        string Law,
                        double Leaning
                    ),
                    string
                >[]
                {
                    one => one.Kind,
                    one => one.Law,
                }
            )
            {
                Console.WriteLine(
                    "  "
                        + string.Join(
                            "; ",
                            all.GroupBy(by)
                                .OrderBy(group => group.Key)
                                .Select(group =>
                                    string.Create(
                                        CultureInfo.InvariantCulture,
                                        $"{group.Key} {group.Average(one => one.Error):0.00} ({group.Average(one => one.Nearest):0.0}) "
                                            + $"{100.0 * group.Count(one => one.Error <= one.Radius) / group.Count():0} %"
                                    )
                                )
                        )
                );
            }
        }
    }
}

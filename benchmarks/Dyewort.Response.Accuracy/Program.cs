using System.Globalization;
using Dyewort.Colour;
using Dyewort.Response;
using Dyewort.Response.Tests.Generated;

CultureInfo.CurrentCulture = CultureInfo.InvariantCulture;
if (args is ["match", ..])
{
    var n = args.Length > 1 ? int.Parse(args[1]) : 24;
    Dyewort.Response.Accuracy.MatchCheck.Run(n, 16, 1, false);
    if (args.Length < 3) Dyewort.Response.Accuracy.MatchCheck.Run(n, 16, 1, true);
    return;
}

if (args is ["wash"]) { Dyewort.Response.Accuracy.WashCheck.Run(60); return; }
var plants = args.Length > 0 ? int.Parse(args[0]) : 24;
var sizes = args.Length > 1 ? args[1].Split(',').Select(int.Parse).ToArray() : [8, 16, 30];
var scatter = args.Length > 2 ? double.Parse(args[2]) : 1.0;
var first = args.Length > 3 ? int.Parse(args[3]) : 1;
Console.WriteLine("samples,plants,mean,median,p95,coverage,coverageOfReading,meanRadius,nearest,weighted,belowNearest%,belowWeighted%,seconds");
foreach (var n in sizes)
{
    var errors = new List<double>();
    var radii = new List<double>();
    var phErrors = new List<double>(); var phZ = new List<double>();
    var readErrors = new List<double>();
    var nearest = new List<double>();
    var weighted = new List<double>();
    var perKind = new Dictionary<string, List<double>>();
    var clock = System.Diagnostics.Stopwatch.StartNew();
    for (var p = 0; p < plants; p++)
    {
        var plant = new PlantMaker(first + p);
        var rows = Enumerable.Range(0, n).Select(i => plant.Read(plant.Draw($"S{i}", plain: i == 0), scatter)).ToArray();
        var held = Enumerable.Range(0, 40).Select(i => plant.Draw($"H{i}")).ToArray();
        var phMode = Environment.GetEnvironmentVariable("PH") ?? "given";
        if (phMode == "none") rows = [.. rows.Select(r => r with { Point = r.Point with { Ph = null } })];
        if (!ResponseModel.Fit(rows, [.. plant.Used]).TryGet(out var model)) throw new InvalidOperationException();
        if (Environment.GetEnvironmentVariable("VERBOSE") is not null) Console.WriteLine($"{plant.Kind} {string.Join(" ", plant.Used)}: {model.Describe()}");
        foreach (var point in held)
        {
            var truth = plant.ColourOf(point);
            var prediction = model.Predict(phMode == "given" ? point : point with { Ph = null });
            phErrors.Add(Math.Abs(model.Ph.Of(point with { Ph = null }).Ph - point.Ph!.Value)); phZ.Add(phErrors[^1] / model.Ph.Of(point with { Ph = null }).Uncertainty);
            var e = Difference.Ciede2000(truth, prediction.Colour);
            errors.Add(e);
            readErrors.Add(Difference.Ciede2000(plant.Read(point, scatter).Colour, prediction.Colour));
            if (!perKind.TryGetValue(plant.Kind, out var kindList)) perKind[plant.Kind] = kindList = [];
            kindList.Add(e);
            if (!perKind.TryGetValue(plant.Law, out kindList)) perKind[plant.Law] = kindList = [];
            kindList.Add(e);
            radii.Add(prediction.UncertaintyDe00);
            nearest.Add(Difference.Ciede2000(truth, Baselines.Nearest(rows, point, plant.Used)));
            weighted.Add(Difference.Ciede2000(truth, Baselines.Weighted(rows, point, plant.Used)));
        }
    }

    var sorted = errors.Order().ToArray();
    double Cover(List<double> e) => 100.0 * e.Zip(radii).Count(pair => pair.First <= pair.Second) / e.Count;
    Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{n},{plants},{errors.Average():0.00},{sorted[sorted.Length / 2]:0.00},{sorted[(int)(0.95 * sorted.Length)]:0.00},{Cover(errors):0.0},{Cover(readErrors):0.0},{radii.Average():0.00},{nearest.Average():0.00},{weighted.Average():0.00},{100 * (1 - (errors.Average() / nearest.Average())):0.0},{100 * (1 - (errors.Average() / weighted.Average())):0.0},{clock.Elapsed.TotalSeconds:0.0}"));
    if (Environment.GetEnvironmentVariable("BINS") is not null)
    foreach (var (lo, hi) in new[] { (0.0, 1.0), (1.0, 1.5), (1.5, 2.0), (2.0, 3.0), (3.0, 5.0), (5.0, 10.0), (10.0, 99.0) })
    {
        var pick = errors.Zip(radii).Where(z => z.Second >= lo && z.Second < hi).ToArray();
        if (pick.Length > 5) { var q = pick.Select(z => z.First / z.Second).Order().ToArray(); Console.WriteLine($"  radius {lo}-{hi}: {pick.Length}, mean error {pick.Average(z => z.First):0.00}, mean radius {pick.Average(z => z.Second):0.00}, cover {100.0 * pick.Count(z => z.First <= z.Second) / pick.Length:0.0}, factor for 95% {q[(int)(0.95 * q.Length)]:0.00}"); }
    }

    Console.WriteLine($"  pH error {phErrors.Average():0.00} p95 {phErrors.Order().ElementAt((int)(.95 * phErrors.Count)):0.00} z p95 {phZ.Order().ElementAt((int)(.95 * phZ.Count)):0.0}");
    Console.WriteLine("  " + string.Join("  ", perKind.Select(kind => $"{kind.Key} {kind.Value.Average():0.00}")));
}

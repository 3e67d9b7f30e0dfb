using System.Collections.Concurrent;
using System.Numerics.Tensors;
using Dyewort.Numerics;

namespace Dyewort.Response;

/// <summary>A pH as far as it is known.</summary>
/// <param name="Ph">The expected pH.</param>
/// <param name="Uncertainty">Standard deviation.</param>
/// <param name="Computed">False where it was measured on this very sample.</param>
public readonly record struct PhEstimate(double Ph, double Uncertainty, bool Computed);

/// <summary>The pH a plant's liquor takes with given additions: chemistry, corrected by every pH in the table.</summary>
/// <remarks>The chemistry starts from what is believed of the pot's liquor (<see cref="PotLiquor"/>); a small Gaussian process over the
/// logarithms of the doses carries what the measured samples say beyond it [RasmussenWilliams2006].</remarks>
public sealed class PhBook
{
    private const double LeastScatter = 0.05;

    /// <summary>Relative doubt of what a dose does to the pH, and, while nothing was measured, of how far additions move it (found on
    /// generated plants, docs/accuracy.md).</summary>
    private const double DoseDoubt = 0.15;
    private const double MoveDoubt = 0.25;
    private readonly string plant;
    private readonly string[] additions;
    private readonly double[] halfDose;
    private readonly TrialPoint[] measured;
    private readonly Lazy<Learned> learned;
    private readonly ConcurrentDictionary<string, Lazy<PotLiquor>> liquors = new(StringComparer.OrdinalIgnoreCase);

    private sealed record Learned(double[][] Features, double[] Factor, double[] Alpha, double Variance, double Length, double Scatter);

    private PhBook(string plant, string[] additions, TrialPoint[] measured)
    {
        (this.plant, this.additions, this.measured) = (plant, additions, measured);
        halfDose =
        [
            .. additions.Select(name =>
            {
                var doses = measured.Select(point => point.Dose(name)).Where(dose => dose > 0).Order().ToArray();
                return doses.Length == 0 ? 1 : doses[doses.Length / 2] / 3;
            }),
        ];
        learned = new(Learn);
    }

    private Learned Learn()
    {
        var residual = measured.Select(point => point.Ph!.Value - PhSurface.Of(Chemistry(point), 0).At(0, 0)).ToArray();
        double[][] features = [.. measured.Select(Features)];
        var best = double.NegativeInfinity;
        var found = new Learned(features, [], [], 0.3, 1.6, 0.5);
        foreach (var tryVariance in measured.Length == 0 ? [] : new[] { 0.03, 0.1, 0.4, 1.5 })
        {
            foreach (var tryLength in new[] { 0.8, 1.6, 3.2 })
            {
                foreach (var tryScatter in new[] { LeastScatter, 0.15, 0.4, 1 })
                {
                    var value = Evidence(features, residual, tryVariance, tryLength, tryScatter, out var tryFactor, out var tryAlpha);
                    if (value <= best)
                        continue;
                    best = value;
                    found = new(features, tryFactor, tryAlpha, tryVariance, tryLength, tryScatter);
                }
            }
        }

        return found;
    }

    /// <summary>How many samples have a measured pH.</summary>
    public int Measured => measured.Length;

    /// <summary>True where the additions do not explain the pH in the table: the pH was set in a way the doses do not show.</summary>
    public bool IsFree => Measured >= 4 && learned.Value.Scatter >= 0.4;

    /// <summary>Learns a plant's pH from its samples. The plain liquor of a pot counts once, in however many jars it stands.</summary>
    /// <param name="plant">The plant's name.</param>
    /// <param name="points">Samples, with or without pH.</param>
    /// <param name="additions">Every addition of the table; one that the chemistry does not know is taken not to change the pH by
    /// itself.</param>
    public static PhBook Of(string plant, IEnumerable<TrialPoint> points, IReadOnlyList<string> additions) =>
        new(
            plant,
            [.. additions],
            [
                .. points
                    .Where(point => point.Ph is not null && point.Wash > 0)
                    .DistinctBy(point => (point.Pot, point.GramsPerLitre.Count > 0 ? point.Sample : "", point.Ph)),
            ]
        );

    /// <summary>What is believed of a pot's liquor: by every pH noted of that pot, and where none was, of the plant's other pots.</summary>
    /// <param name="pot">The pot's code; empty where the plant has one pot only.</param>
    public PotLiquor LiquorOf(string pot)
    {
        ArgumentNullException.ThrowIfNull(pot);
        var key = Of(pot).Length > 0 ? pot : "";
        return liquors.GetOrAdd(key, known => new(() => PotLiquor.Of(plant, Notes(known.Length > 0 ? Of(known) : measured)))).Value;
    }

    /// <summary>The same with what pot and water gave to the liquor kept apart from it.</summary>
    /// <param name="pot">The pot's code.</param>
    /// <param name="unasked">What they gave, g/L.</param>
    public PotLiquor LiquorOf(string pot, Doses unasked)
    {
        ArgumentNullException.ThrowIfNull(pot);
        ArgumentNullException.ThrowIfNull(unasked);
        return unasked.Count == 0 ? LiquorOf(pot) : PotLiquor.Of(plant, Notes(Of(pot) is { Length: > 0 } own ? own : measured), unasked);
    }

    /// <summary>The same with a pH that was read in one more jar of the pot.</summary>
    public PotLiquor LiquorOf(TrialPoint jar)
    {
        ArgumentNullException.ThrowIfNull(jar);
        var notes = Of(jar.Pot) is { Length: > 0 } own ? own : measured;
        return jar.Ph is { } ph && !Array.Exists(notes, known => known.Ph == ph && known.GramsPerLitre.Equals(jar.GramsPerLitre))
            ? PotLiquor.Of(plant, [.. Notes(notes), new(jar.GramsPerLitre, ph) { Uncertainty = jar.PhUncertainty }])
            : LiquorOf(jar.Pot);
    }

    /// <summary>The pH of a composition; a pH that the point carries is taken as it is.</summary>
    public PhEstimate Of(TrialPoint point)
    {
        if (point.Ph is { } known)
            return new(known, LeastScatter, Computed: false);
        var (correction, left) = Corrected(point);
        var surface = PhSurface.Of(Chemistry(point), correction);
        var believed = LiquorOf(point.Pot);

        // Where the pH climbs steeply with the dose, a spoon that is a little fuller, or a salt a little purer, is seen.
        var steep = DoseDoubt * (surface.At(0, 0.5) - surface.At(0, -0.5)) / believed.LogAcidUncertainty;
        var moved = Measured == 0 ? MoveDoubt * (surface.At(0, 0) - believed.Ph) : 0;
        var (mean, liquor) = (surface.At(0, 0), 0.0);
        foreach (var (a, b) in new[] { (1, 0), (0, 1) })
        {
            var half = (surface.At(a, b) - surface.At(-a, -b)) / 2;
            liquor += half * half;
        }

        return new(mean, Math.Sqrt(liquor + (left * left) + (steep * steep) + (moved * moved)), Computed: true);
    }

    /// <summary>The pH of a composition over the liquors it may be made with, and the standard deviation of what no liquor
    /// explains.</summary>
    internal (PhSurface Surface, double Scatter) Surface(TrialPoint point)
    {
        if (point.Ph is { } given)
            return (PhSurface.Constant(given), 0);
        var (correction, left) = Corrected(point);
        return (PhSurface.Of(Chemistry(point), correction), left);
    }

    /// <summary>What the measured samples say beyond chemistry, and the standard deviation that leaves.</summary>
    private (double Correction, double Left) Corrected(TrialPoint point)
    {
        var known = learned.Value;
        var doubt = PotLiquor.ScatterOf(point.GramsPerLitre);
        if (known.Alpha.Length == 0)
            return (0, doubt);
        var own = Features(point);
        var k = new double[known.Features.Length];
        var mean = 0.0;
        for (var i = 0; i < k.Length; i++)
        {
            k[i] = Kernel(own, known.Features[i], known.Variance, known.Length);
            mean += k[i] * known.Alpha[i];
        }

        Cholesky.Forward(known.Factor, k.Length, k);
        var prior = Kernel(own, own, known.Variance, known.Length);
        var left = Math.Max(prior - TensorPrimitives.Dot<double>(k, k), 0);
        return (mean, Math.Sqrt(left + (left / prior * doubt * doubt) + (LeastScatter * LeastScatter)));
    }

    /// <summary>pH at the nodes of <see cref="PhSurface"/>.</summary>
    private double[] Chemistry(TrialPoint point) => LiquorOf(point.Pot).PhAt(point.GramsPerLitre);

    private TrialPoint[] Of(string pot) =>
        pot.Length == 0 ? [] : Array.FindAll(measured, point => string.Equals(point.Pot, pot, StringComparison.OrdinalIgnoreCase));

    private static LiquorNote[] Notes(TrialPoint[] points) =>
        Array.ConvertAll(points, point => new LiquorNote(point.GramsPerLitre, point.Ph!.Value) { Uncertainty = point.PhUncertainty });

    private double[] Features(TrialPoint point) => [.. additions.Select((name, m) => Math.Log(1 + (point.Dose(name) / halfDose[m])))];

    private static double Kernel(double[] one, double[] two, double variance, double length)
    {
        var squared = 0.0;
        for (var m = 0; m < one.Length; m++)
            squared += (one[m] - two[m]) * (one[m] - two[m]);
        return variance * (0.3 + Math.Exp(-0.5 * squared / (length * length)));
    }

    private static double Evidence(
        double[][] features,
        double[] residual,
        double tryVariance,
        double tryLength,
        double tryScatter,
        out double[] tryFactor,
        out double[] tryAlpha
    )
    {
        var n = residual.Length;
        tryFactor = new double[n * n];
        for (var i = 0; i < n; i++)
        {
            for (var j = 0; j <= i; j++)
                tryFactor[(i * n) + j] = Kernel(features[i], features[j], tryVariance, tryLength) + (i == j ? tryScatter * tryScatter : 0);
        }

        tryAlpha = (double[])residual.Clone();
        if (!Cholesky.TryFactor(tryFactor, n))
            return double.NegativeInfinity;
        Cholesky.Forward(tryFactor, n, tryAlpha);
        var value = -0.5 * TensorPrimitives.Dot<double>(tryAlpha, tryAlpha);
        for (var i = 0; i < n; i++)
            value -= Math.Log(tryFactor[(i * n) + i]);
        Cholesky.Backward(tryFactor, n, tryAlpha);
        return value;
    }
}

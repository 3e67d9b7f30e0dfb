using System.Numerics.Tensors;
using Dyewort.Chemistry;

namespace Dyewort.Response;

/// <summary>A pH as far as it is known.</summary>
/// <param name="Ph">The expected pH.</param>
/// <param name="Uncertainty">Standard deviation.</param>
/// <param name="Computed">False where it was measured on this very sample.</param>
public readonly record struct PhEstimate(double Ph, double Uncertainty, bool Computed);

/// <summary>The pH a plant's liquor takes with given additions: chemistry, corrected by every pH in the table.</summary>
/// <remarks>The chemistry starts from what is believed of this kind of plant, sharpened by the plain samples' pH; a small Gaussian process over the
/// logarithms of the doses carries what the measured samples say beyond it.</remarks>
public sealed class PhBook
{
    private const double LeastScatter = 0.05;
    private readonly Liquor liquor;
    private readonly Dictionary<string, NamedSubstance> substances;
    private readonly string[] additions;
    private readonly double[] halfDose;
    private readonly double[][] features;
    private readonly double[] factor;
    private readonly double[] alpha;
    private readonly double variance;
    private readonly double length;
    private readonly double scatter;
    private readonly double typicalPh;
    private readonly System.Collections.Concurrent.ConcurrentDictionary<string, double> cache = new();

    private PhBook(Liquor liquor, Dictionary<string, NamedSubstance> substances, string[] additions, TrialPoint[] measured, double typicalPh)
    {
        (this.liquor, this.substances, this.additions, this.typicalPh) = (liquor, substances, additions, typicalPh);
        halfDose = [.. additions.Select(name =>
        {
            var doses = measured.Select(point => point.Dose(name)).Where(dose => dose > 0).Order().ToArray();
            return doses.Length == 0 ? 1 : doses[doses.Length / 2] / 3;
        })];
        features = [.. measured.Select(Features)];
        var residual = measured.Select(point => point.Ph!.Value - Chemistry(point)).ToArray();
        var best = double.NegativeInfinity;
        (factor, alpha) = ([], []);
        scatter = 0.5;
        foreach (var tryVariance in measured.Length == 0 ? [] : new[] { 0.1, 0.4, 1.5 })
        {
            foreach (var tryLength in new[] { 0.8, 1.6, 3.2 })
            {
                foreach (var tryScatter in new[] { LeastScatter, 0.15, 0.4, 1 })
                {
                    var value = Evidence(residual, tryVariance, tryLength, tryScatter, out var tryFactor, out var tryAlpha);
                    if (value <= best) continue;
                    best = value;
                    (variance, length, scatter, factor, alpha) = (tryVariance, tryLength, tryScatter, tryFactor, tryAlpha);
                }
            }
        }

        // Without any measured pH the chemistry stands alone.
        if (measured.Length == 0) (variance, length) = (0.3, 1.6);
        Measured = measured.Length;
    }

    /// <summary>How many samples have a measured pH.</summary>
    public int Measured { get; }

    /// <summary>True where the additions do not explain the pH in the table: the pH was set in a way the doses do not show.</summary>
    public bool IsFree => Measured >= 4 && scatter >= 0.4;

    /// <summary>Additions that the chemistry does not know; they are taken not to change the pH by themselves.</summary>
    public IReadOnlyList<string> Unknown { get; private init; } = [];

    /// <summary>Learns a plant's pH from its samples.</summary>
    /// <param name="plant">The plant's name.</param>
    /// <param name="points">Samples, with or without pH.</param>
    /// <param name="additions">Every addition of the table.</param>
    public static PhBook Of(string plant, IEnumerable<TrialPoint> points, IReadOnlyList<string> additions)
    {
        var measured = points.Where(point => point.Ph is not null && point.Wash > 0)
            .DistinctBy(point => (point.Pot, point.Sample, point.Ph)).ToArray();
        var buffer = ExtractBuffer.Find("plant", plant).TryGet(out var known) ? known : ExtractBuffer.Prior(ExtractBuffer.Kinds.First(kind => kind.Name == "any plant"));
        foreach (var plain in measured.Where(point => point.GramsPerLitre.Count == 0).Take(3)) buffer = buffer.Learn(new PhNote(Math.Clamp(plain.Ph!.Value, 0, 14), 0.15));
        var found = new Dictionary<string, NamedSubstance>(StringComparer.OrdinalIgnoreCase);
        foreach (var name in additions)
        {
            if (SubstanceCatalogue.Standard.Find("addition", name).TryGet(out var substance)) found[name] = substance;
        }

        return new(Liquor.Of(buffer), found, [.. additions], measured, buffer.Ph) { Unknown = [.. additions.Where(name => !found.ContainsKey(name))] };
    }

    /// <summary>The pH of a composition; a pH that the point carries is taken as it is.</summary>
    public PhEstimate Of(TrialPoint point)
    {
        if (point.Ph is { } measured) return new(measured, LeastScatter, Computed: false);
        var mean = Chemistry(point);
        var own = Features(point);
        var k = new double[features.Length];
        for (var i = 0; i < k.Length; i++)
        {
            k[i] = Kernel(own, features[i], variance, length);
            mean += k[i] * alpha[i];
        }

        if (k.Length > 0) Matrix.Forward(factor, k.Length, k);
        var left = Kernel(own, own, variance, length) - TensorPrimitives.Dot<double>(k, k);
        return new(Math.Clamp(mean, 0, 14), Math.Sqrt(Math.Max(left, 0) + (LeastScatter * LeastScatter)), Computed: true);
    }

    private double Chemistry(TrialPoint point)
    {
        var key = string.Join('|', additions.Select(name => point.Dose(name).ToString("R", System.Globalization.CultureInfo.InvariantCulture)));
        if (cache.TryGetValue(key, out var ph)) return ph;
        var portions = additions.Where(name => point.Dose(name) > 0 && substances.ContainsKey(name)).Select(name => KeyValuePair.Create(substances[name], point.Dose(name)));
        ph = Jar.PhOf(liquor, portions).TryGet(out var computed) ? computed : typicalPh;
        cache[key] = ph;
        return ph;
    }

    private double[] Features(TrialPoint point) => [.. additions.Select((name, m) => Math.Log(1 + (point.Dose(name) / halfDose[m])))];

    private static double Kernel(double[] one, double[] two, double variance, double length)
    {
        var squared = 0.0;
        for (var m = 0; m < one.Length; m++) squared += (one[m] - two[m]) * (one[m] - two[m]);
        return variance * (0.3 + Math.Exp(-0.5 * squared / (length * length)));
    }

    private double Evidence(double[] residual, double tryVariance, double tryLength, double tryScatter, out double[] tryFactor, out double[] tryAlpha)
    {
        var n = residual.Length;
        tryFactor = new double[n * n];
        for (var i = 0; i < n; i++)
        {
            for (var j = 0; j <= i; j++) tryFactor[(i * n) + j] = Kernel(features[i], features[j], tryVariance, tryLength) + (i == j ? tryScatter * tryScatter : 0);
        }

        tryAlpha = (double[])residual.Clone();
        if (!Matrix.Cholesky(tryFactor, n)) return double.NegativeInfinity;
        Matrix.Forward(tryFactor, n, tryAlpha);
        var value = -0.5 * TensorPrimitives.Dot<double>(tryAlpha, tryAlpha);
        for (var i = 0; i < n; i++) value -= Math.Log(tryFactor[(i * n) + i]);
        Matrix.Backward(tryFactor, n, tryAlpha);
        return value;
    }
}

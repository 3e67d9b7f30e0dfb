using System.Numerics.Tensors;
using Dyewort.Chemistry;
using Dyewort.Numerics;

namespace Dyewort.Response;

/// <summary>A pH as far as it is known.</summary>
/// <param name="Ph">The expected pH.</param>
/// <param name="Uncertainty">Standard deviation.</param>
/// <param name="Computed">False where it was measured on this very sample.</param>
public readonly record struct PhEstimate(double Ph, double Uncertainty, bool Computed);

/// <summary>The pH a plant's liquor takes with given additions: chemistry, corrected by every pH in the table.</summary>
/// <remarks>The chemistry starts from what is believed of this kind of plant's pH and weak acids, sharpened by every measured pH; a small
/// Gaussian process over the
/// logarithms of the doses carries what the measured samples say beyond it [RasmussenWilliams2006].</remarks>
public sealed class PhBook
{
    private const double LeastScatter = 0.05;

    /// <summary>What the chemistry of a sample may be off by where nothing is measured near it: a fifth of a unit for acids and soda;
    /// metal salts
    /// hydrolyse and throw down, and chalk loses its gas for days, half a unit more (found on generated plants,
    /// docs/accuracy.md).</summary>
    private const double ChemistryScatter = 0.2;
    private const double SlowScatter = 0.5;

    /// <summary>Relative doubt of what a dose does to the pH, and, while nothing was measured, of how far additions move it
    /// (likewise).</summary>
    private const double DoseDoubt = 0.15;
    private const double MoveDoubt = 0.25;
    private const int Fine = 41;
    private readonly Dictionary<string, NamedSubstance> substances;
    private readonly string[] additions;
    private readonly double[] halfDose;
    private readonly bool[] slow;
    private readonly TrialPoint[] measured;
    private readonly Lazy<Learned> learned;
    private readonly System.Collections.Concurrent.ConcurrentDictionary<string, double[]> cache = new();
    private readonly ExtractKind kind;
    private Belief belief;

    /// <summary>What is believed of the liquor: means and standard deviations of its pH and of the logarithm of its weak acids in
    /// mol/L.</summary>
    private readonly record struct Belief(double Ph, double PhSpread, double LogAcid, double LogAcidSpread);

    private sealed record Learned(double[][] Features, double[] Factor, double[] Alpha, double Variance, double Length, double Scatter);

    private PhBook(ExtractKind kind, Dictionary<string, NamedSubstance> substances, string[] additions, TrialPoint[] measured)
    {
        (this.kind, this.substances, this.additions, this.measured) = (kind, substances, additions, measured);
        halfDose =
        [
            .. additions.Select(name =>
            {
                var doses = measured.Select(point => point.Dose(name)).Where(dose => dose > 0).Order().ToArray();
                return doses.Length == 0 ? 1 : doses[doses.Length / 2] / 3;
            }),
        ];
        slow = [.. additions.Select(name => Agents.Of(name) == Action.Binds || name.Contains("chalk", StringComparison.OrdinalIgnoreCase))];
        belief = new(kind.Ph, kind.PhSpread, Math.Log(kind.AcidMillimolesPerLitre / 1000), Math.Log(kind.AcidFactor));
        learned = new(Learn);
    }

    private Learned Learn()
    {
        // Twice: the first look is coarse, the second lays its nodes where the first says the liquor is.
        for (var look = 0; look < 2 && measured.Length > 0; look++)
            Narrow();
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

    /// <summary>Weighs every liquor on a fine grid by the measured pH and takes over mean and spread.</summary>
    private void Narrow()
    {
        var surfaces = measured.Select(point => PhSurface.Of(Chemistry(point), 0)).ToArray();
        var weights = new double[Fine * Fine];
        for (var i = 0; i < Fine; i++)
        {
            for (var j = 0; j < Fine; j++)
            {
                var (a, b) = (Place(i), Place(j));
                var ph = (belief.Ph + (a * belief.PhSpread) - kind.Ph) / kind.PhSpread;
                var acid =
                    (belief.LogAcid + (b * belief.LogAcidSpread) - Math.Log(kind.AcidMillimolesPerLitre / 1000))
                    / Math.Log(kind.AcidFactor);
                var log = -0.5 * ((ph * ph) + (acid * acid));
                for (var r = 0; r < surfaces.Length; r++)
                {
                    // Tails of a Student t with four degrees of freedom [Lange1989]: a sample whose chemistry is another than ours must
                    // not say all.
                    var off = (measured[r].Ph!.Value - surfaces[r].At(a, b)) / Doubt(measured[r]);
                    log -= 2.5 * Math.Log(1 + (off * off / 4));
                }

                weights[(i * Fine) + j] = log;
            }
        }

        var most = weights.Max();
        double sum = 0,
            phMean = 0,
            acidMean = 0,
            phSquare = 0,
            acidSquare = 0;
        for (var i = 0; i < Fine; i++)
        {
            for (var j = 0; j < Fine; j++)
            {
                var weight = Math.Exp(weights[(i * Fine) + j] - most);
                var (a, b) = (Place(i), Place(j));
                (sum, phMean, acidMean, phSquare, acidSquare) = (
                    sum + weight,
                    phMean + (weight * a),
                    acidMean + (weight * b),
                    phSquare + (weight * a * a),
                    acidSquare + (weight * b * b)
                );
            }
        }

        (phMean, acidMean) = (phMean / sum, acidMean / sum);
        belief = new(
            belief.Ph + (phMean * belief.PhSpread),
            belief.PhSpread * Math.Sqrt(Math.Max((phSquare / sum) - (phMean * phMean), 0.0025)),
            belief.LogAcid + (acidMean * belief.LogAcidSpread),
            belief.LogAcidSpread * Math.Sqrt(Math.Max((acidSquare / sum) - (acidMean * acidMean), 0.0025))
        );
        cache.Clear();

        static double Place(int node) => PhSurface.Reach * ((2.0 * node / (Fine - 1)) - 1);
    }

    /// <summary>How many samples have a measured pH.</summary>
    public int Measured => measured.Length;

    /// <summary>True where the additions do not explain the pH in the table: the pH was set in a way the doses do not show.</summary>
    public bool IsFree => Measured >= 4 && learned.Value.Scatter >= 0.4;

    /// <summary>Additions that the chemistry does not know; they are taken not to change the pH by themselves.</summary>
    public IReadOnlyList<string> Unknown { get; private init; } = [];

    /// <summary>Learns a plant's pH from its samples.</summary>
    /// <param name="plant">The plant's name.</param>
    /// <param name="points">Samples, with or without pH.</param>
    /// <param name="additions">Every addition of the table.</param>
    public static PhBook Of(string plant, IEnumerable<TrialPoint> points, IReadOnlyList<string> additions)
    {
        var noted = points
            .Where(point => point.Ph is not null && point.Wash > 0)
            .DistinctBy(point => (point.Pot, point.Sample, point.Ph))
            .ToArray();
        var buffer = ExtractBuffer.Find("plant", plant).TryGet(out var known)
            ? known
            : ExtractBuffer.Prior(ExtractBuffer.Kinds.First(kind => kind.Name == "any plant"));
        var found = new Dictionary<string, NamedSubstance>(StringComparer.OrdinalIgnoreCase);
        foreach (var name in additions)
        {
            if (SubstanceCatalogue.Standard.Find("addition", name).TryGet(out var substance))
                found[name] = substance;
        }

        return new(buffer.Kind, found, [.. additions], noted) { Unknown = [.. additions.Where(name => !found.ContainsKey(name))] };
    }

    /// <summary>The pH of a composition; a pH that the point carries is taken as it is.</summary>
    public PhEstimate Of(TrialPoint point)
    {
        if (point.Ph is { } measured)
            return new(measured, LeastScatter, Computed: false);
        var (correction, left) = Corrected(point);
        var surface = PhSurface.Of(Chemistry(point), correction);

        // Where the pH climbs steeply with the dose, a spoon that is a little fuller, or a salt a little purer, is seen.
        var steep = DoseDoubt * (surface.At(0, 0.5) - surface.At(0, -0.5)) / belief.LogAcidSpread;
        var moved = Measured == 0 ? MoveDoubt * (surface.At(0, 0) - belief.Ph) : 0;
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
        if (known.Alpha.Length == 0)
            return (0, Doubt(point));
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
        var doubt = Doubt(point);
        return (mean, Math.Sqrt(left + (left / prior * doubt * doubt) + (LeastScatter * LeastScatter)));
    }

    /// <summary>pH at the nodes of <see cref="PhSurface"/>.</summary>
    private double[] Chemistry(TrialPoint point)
    {
        var key = string.Join(
            '|',
            additions.Select(name => point.Dose(name).ToString("R", System.Globalization.CultureInfo.InvariantCulture))
        );
        if (cache.TryGetValue(key, out var nodes))
            return nodes;
        var portions = additions
            .Where(name => point.Dose(name) > 0 && substances.ContainsKey(name))
            .Select(name => KeyValuePair.Create(substances[name], point.Dose(name)))
            .ToArray();
        nodes = new double[PhSurface.Nodes * PhSurface.Nodes];
        for (var i = 0; i < PhSurface.Nodes; i++)
        {
            var ph = Math.Clamp(belief.Ph + (PhSurface.Place(i) * belief.PhSpread), 1, 12);
            for (var j = 0; j < PhSurface.Nodes; j++)
            {
                var liquor = Liquor.Known(ph, Math.Exp(Math.Clamp(belief.LogAcid + (PhSurface.Place(j) * belief.LogAcidSpread), -12, 2)));
                nodes[(i * PhSurface.Nodes) + j] =
                    portions.Length > 0 && Jar.PhOf(liquor, portions).TryGet(out var computed) ? computed : ph;
            }
        }

        cache[key] = nodes;
        return nodes;
    }

    private double Doubt(TrialPoint point)
    {
        var square = ChemistryScatter * ChemistryScatter;
        for (var m = 0; m < additions.Length; m++)
        {
            if (slow[m] && point.Dose(additions[m]) > 0)
                square += SlowScatter * SlowScatter;
        }

        return Math.Sqrt(square);
    }

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

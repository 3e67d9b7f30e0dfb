namespace Dyewort.Colour;

/// <summary>Opaque paint or a thick layer of pigment: the ratio of absorption to scattering over the spectrum (Kubelka–Munk).</summary>
/// <remarks>Single-constant theory: K/S = (1 − R)² / 2R of a layer that hides what is under it; K/S of a mixture is the average by
/// share, taken as if all pigments scattered alike. Source: Kubelka and Munk 1931 [KubelkaMunk1931], Duncan 1940 for mixtures
/// [Duncan1940].</remarks>
public sealed class OpaquePaint
{
    private readonly double[] ratios;

    private OpaquePaint(double[] ratios) => this.ratios = ratios;

    /// <summary>K/S, 81 values ≥ 0.</summary>
    public Spectrum Ratio => Spectrum.Of(ratios);

    /// <summary>The reflectance of a hiding layer, between 0 and 1.</summary>
    public Spectrum Reflectance => Spectrum.Wrap(Array.ConvertAll(ratios, q => 1 / (1 + q + Math.Sqrt((q * q) + (2 * q)))));

    /// <summary>The paint whose hiding layer has this reflectance.</summary>
    /// <exception cref="ArgumentException">A value is not above 0 and at most 1.</exception>
    public static OpaquePaint FromReflectance(Spectrum reflectance)
    {
        ArgumentNullException.ThrowIfNull(reflectance);
        var ratio = new double[Spectrum.Count];
        for (var i = 0; i < ratio.Length; i++)
        {
            var r = reflectance.Values[i];
            if (r is not (> 0 and <= 1))
                throw new ArgumentException("A reflectance lies above 0 and at most at 1.", nameof(reflectance));
            ratio[i] = (1 - r) * (1 - r) / (2 * r);
        }

        return new(ratio);
    }

    /// <summary>Paints mixed by parts.</summary>
    /// <param name="paints">Paints and their parts, each above 0.</param>
    /// <exception cref="ArgumentException">No paint, or a part that is not above 0.</exception>
    public static OpaquePaint Mix(IReadOnlyList<(OpaquePaint Paint, double Parts)> paints)
    {
        ArgumentNullException.ThrowIfNull(paints);
        if (paints.Count == 0 || paints.Any(pair => !(pair.Parts > 0) || !double.IsFinite(pair.Parts)))
            throw new ArgumentException("A mixture needs paints, each with parts above 0.", nameof(paints));
        var total = paints.Sum(pair => pair.Parts);
        var ratio = new double[Spectrum.Count];
        foreach (var (paint, parts) in paints)
        {
            for (var i = 0; i < ratio.Length; i++)
                ratio[i] += parts / total * paint.ratios[i];
        }

        return new(ratio);
    }
}

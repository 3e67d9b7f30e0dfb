using Dyewort.Numerics;

namespace Dyewort.Colour;

/// <summary>What the absorption of a plant colorant may look like: some thousand made-up spectra of bands and tails.</summary>
/// <remarks>Three numbers do not fix a spectrum; this prior fills in the rest. Its members are our own, drawn with a fixed seed from
/// what solution spectra of natural dyes have in common: one main band 40 to 230 nm wide anywhere from the near ultraviolet to the
/// red, steeper on its long-wave side, often with a shoulder or a second band; a tail falling from the ultraviolet; brown and grey
/// companions; sometimes two colorants together. No measured spectrum and no named colorant is in it.</remarks>
internal static class ColorantPrior
{
    /// <summary>Number of members.</summary>
    public const int Count = 6000;

    /// <summary>Share of the paper's light that returns without passing the ink: front surface and gaps between fibres.</summary>
    /// <remarks>Matt paint films on paper bottom out at a luminance factor near 1 % (common practice, no source).</remarks>
    public const double Floor = 0.012;

    private static readonly Lazy<double[]> Densities = new(Make);
    private static readonly Lazy<double[]> Transmittances = new(() =>
        Array.ConvertAll(Densities.Value, density => Floor + ((1 - Floor) * Math.Exp(-Math.Log(10) * density)))
    );

    /// <summary>Double-pass optical density of a member, 81 values.</summary>
    public static ReadOnlySpan<double> Density(int member) => Densities.Value.AsSpan(member * Spectrum.Count, Spectrum.Count);

    public static Lab[] ColoursOn(Paper paper)
    {
        var all = Transmittances.Value;
        var labs = new Lab[Count];
        for (var member = 0; member < Count; member++)
        {
            var values = all.AsSpan(member * Spectrum.Count, Spectrum.Count);
            labs[member] = Lab.FromXyz(
                new(
                    System.Numerics.Tensors.TensorPrimitives.Dot(values, paper.X),
                    System.Numerics.Tensors.TensorPrimitives.Dot(values, paper.Y),
                    System.Numerics.Tensors.TensorPrimitives.Dot(values, paper.Z)
                )
            );
        }

        return labs;
    }

    private static double[] Make()
    {
        var draw = new Draw(20261125);
        var all = new double[Count * Spectrum.Count];
        for (var member = 0; member < Count; member++)
        {
            var shape = Shape(draw, mayMix: true);
            var peakDensity = 2 * Math.Exp(draw.Between(Math.Log(0.03), Math.Log(1.1)));
            for (var i = 0; i < Spectrum.Count; i++)
                all[(member * Spectrum.Count) + i] = peakDensity * shape[i];
        }

        return all;
    }

    private static double[] Shape(Draw draw, bool mayMix)
    {
        var shape = new double[Spectrum.Count];
        if (draw.Chance(0.75))
        {
            var (centre, width) = (draw.Between(390, 680), Math.Exp(Math.Log(95) + (0.4 * draw.Normal())));
            Band(shape, centre, width, 1, draw.Between(-0.05, 0.4));
            if (draw.Chance(0.35))
                Band(
                    shape,
                    centre + ((draw.Chance(0.5) ? 1 : -1) * draw.Between(20, 60)),
                    width * draw.Between(0.4, 1),
                    draw.Between(0.1, 0.6),
                    0
                );
            if (draw.Chance(0.35))
                Band(
                    shape,
                    draw.Between(385, 680),
                    Math.Exp(Math.Log(70) + (0.5 * draw.Normal())),
                    draw.Between(0.1, 0.9),
                    draw.Between(0, 0.3)
                );
            if (draw.Chance(0.8))
                Tail(shape, Math.Exp(draw.Between(Math.Log(25), Math.Log(90))), draw.Between(0, 0.6));
        }
        else
        {
            Tail(shape, Math.Exp(draw.Between(Math.Log(50), Math.Log(400))), 1);
            if (draw.Chance(0.6))
                Band(shape, draw.Between(450, 650), draw.Between(100, 280), draw.Between(0.05, 0.6), 0);
        }

        if (mayMix && draw.Chance(0.35))
        {
            Scale(shape);
            var other = Shape(draw, mayMix: false);
            var share = draw.Between(0.05, 0.6);
            for (var i = 0; i < shape.Length; i++)
                shape[i] += share * other[i];
        }

        if (draw.Chance(0.6))
        {
            Scale(shape);
            var (much, flat, decay) = (
                draw.Chance(0.5) ? draw.Between(0.1, 0.5) : draw.Between(0, 0.12),
                draw.Between(0.1, 0.7),
                draw.Between(60, 200)
            );
            for (var i = 0; i < shape.Length; i++)
                shape[i] += much * (flat + ((1 - flat) * Math.Exp(-(Spectrum.Nanometres(i) - 400) / decay)));
        }

        Scale(shape);
        return shape;
    }

    private static void Band(double[] shape, double centre, double halfWidth, double height, double skew)
    {
        var sigma = halfWidth / 2.355;
        for (var i = 0; i < shape.Length; i++)
        {
            var nm = Spectrum.Nanometres(i);
            var distance = (nm - centre) / (sigma * (nm < centre ? 1 + skew : 1 - skew));
            shape[i] += height * Math.Exp(-0.5 * distance * distance);
        }
    }

    private static void Tail(double[] shape, double decayNanometres, double height)
    {
        for (var i = 0; i < shape.Length; i++)
            shape[i] += height * Math.Exp(-(Spectrum.Nanometres(i) - 400) / decayNanometres);
    }

    /// <summary>Peak 1 within 400 to 700 nm.</summary>
    private static void Scale(double[] shape)
    {
        double peak = 0;
        for (var i = 4; i <= 64; i++)
            peak = Math.Max(peak, shape[i]);
        for (var i = 0; i < shape.Length; i++)
            shape[i] /= peak;
    }

    /// <summary>A small generator of our own (SplitMix64), so that the prior is the same on every runtime.</summary>
    private sealed class Draw(ulong state)
    {
        private ulong state = state;

        public double Between(double low, double high) => low + ((high - low) * Unit());

        public bool Chance(double probability) => Unit() < probability;

        public double Normal() => NormalDistribution.OfUniforms(1 - Unit(), Unit());

        private double Unit()
        {
            state += 0x9E3779B97F4A7C15;
            var z = state;
            z = (z ^ (z >> 30)) * 0xBF58476D1CE4E5B9;
            z = (z ^ (z >> 27)) * 0x94D049BB133111EB;
            return ((z ^ (z >> 31)) >> 11) * (1.0 / (1UL << 53));
        }
    }
}

namespace Dyewort.Colour;

/// <summary>A spectrum on the grid this library calculates on: 81 values, 380 to 780 nm every 5 nm.</summary>
/// <remarks>Holds reflectance factors (0 to 1), densities or relative power, as the member that made it says. Immutable.</remarks>
public sealed class Spectrum
{
    /// <summary>Number of values.</summary>
    public const int Count = 81;

    /// <summary>First wavelength in nanometres.</summary>
    public const int FirstNanometres = 380;

    /// <summary>Step in nanometres.</summary>
    public const int StepNanometres = 5;

    private readonly double[] values;

    private Spectrum(double[] values) => this.values = values;

    /// <summary>The values, 380 nm first.</summary>
    public ReadOnlySpan<double> Values => values;

    /// <summary>The perfect diffuser: 1 everywhere.</summary>
    public static Spectrum PerfectDiffuser { get; } = Flat(1);

    /// <summary>The wavelength of a place on the grid, in nanometres.</summary>
    public static int Nanometres(int index) => FirstNanometres + (StepNanometres * index);

    /// <summary>The same value everywhere.</summary>
    public static Spectrum Flat(double value)
    {
        var all = new double[Count];
        Array.Fill(all, value);
        return new(all);
    }

    /// <summary>A spectrum of values on the grid itself.</summary>
    /// <exception cref="ArgumentException">Not 81 values, or one is not a finite number.</exception>
    public static Spectrum Of(ReadOnlySpan<double> values)
    {
        if (values.Length != Count)
            throw new ArgumentException($"A spectrum has {Count} values, not {values.Length}.", nameof(values));
        foreach (var value in values)
        {
            if (!double.IsFinite(value))
                throw new ArgumentException("A spectrum holds finite numbers only.", nameof(values));
        }

        return new(values.ToArray());
    }

    /// <summary>A spectrum of samples at any ascending wavelengths, at least two.</summary>
    /// <param name="nanometres">Wavelengths in nanometres, ascending.</param>
    /// <param name="samples">As many values.</param>
    /// <remarks>Between samples: the cubic through the four nearest ones, as CIE 15 allows for steps up to 10 nm [CIE15]; a straight
    /// line in the first and last step. Beyond the ends the end values are held. Summing with held ends is the same as adding the
    /// weights of the missing wavelengths to the end weights, which is how ASTM E308 treats truncated data [ASTME308].</remarks>
    /// <exception cref="ArgumentException">Different lengths, fewer than two, not ascending, or not finite.</exception>
    public static Spectrum FromSamples(ReadOnlySpan<double> nanometres, ReadOnlySpan<double> samples)
    {
        if (nanometres.Length != samples.Length || samples.Length < 2)
            throw new ArgumentException("Give at least two samples, and one wavelength for each.", nameof(samples));
        for (var i = 0; i < samples.Length; i++)
        {
            if (!double.IsFinite(samples[i]) || !double.IsFinite(nanometres[i]))
                throw new ArgumentException("A spectrum holds finite numbers only.", nameof(samples));
            if (i > 0 && nanometres[i] <= nanometres[i - 1])
                throw new ArgumentException("Wavelengths must ascend.", nameof(nanometres));
        }

        var all = new double[Count];
        var left = 0;
        for (var i = 0; i < Count; i++)
        {
            double nm = Nanometres(i);
            if (nm <= nanometres[0])
            {
                all[i] = samples[0];
                continue;
            }

            if (nm >= nanometres[^1])
            {
                all[i] = samples[^1];
                continue;
            }

            while (nanometres[left + 1] < nm)
                left++;
            var inside = left >= 1 && left + 2 < samples.Length;
            all[i] = inside
                ? Lagrange(nanometres.Slice(left - 1, 4), samples.Slice(left - 1, 4), nm)
                : Lagrange(nanometres.Slice(left, 2), samples.Slice(left, 2), nm);
        }

        return new(all);
    }

    /// <summary>XYZ of a surface with this reflectance: CIE 15 summation at 5 nm, perfect diffuser Y = 100, white of that light and
    /// observer.</summary>
    public Xyz ToXyz(Illuminant light, Observer observer) => light.Weights(observer).Sum(values);

    /// <summary>XYZ as this program stores surface colours: D65, 2°, scaled so that the perfect diffuser is exactly
    /// <see cref="WhitePoint.D65"/>.</summary>
    /// <remarks>The scaling takes up the rounding between the tabulated light and its printed chromaticity: below 0.03 % in Z.</remarks>
    public Xyz ToXyz() => Weighting.Stored.Sum(values);

    /// <summary>Value by value.</summary>
    public Spectrum Select(Func<double, double> change)
    {
        ArgumentNullException.ThrowIfNull(change);
        return Of(Array.ConvertAll(values, value => change(value)));
    }

    internal static Spectrum Wrap(double[] values) => new(values);

    private static double Lagrange(ReadOnlySpan<double> x, ReadOnlySpan<double> y, double at)
    {
        double sum = 0;
        for (var i = 0; i < x.Length; i++)
        {
            var term = y[i];
            for (var j = 0; j < x.Length; j++)
            {
                if (j != i)
                    term *= (at - x[j]) / (x[i] - x[j]);
            }

            sum += term;
        }

        return sum;
    }
}

namespace Dyewort.Testing.Photos;

/// <summary>An invented ink as it swallows light: bands over the wavelengths, and how much a full wash of it holds.</summary>
/// <param name="Name">What it is like.</param>
/// <param name="Bands">Wavelength in nm, width to longer and to shorter waves in nm, height as optical density of one pass.</param>
public sealed record DrawnInk(string Name, params (double Nm, double Longer, double Shorter, double Density)[] Bands)
{
    private const double Surface = 0.015;

    /// <summary>What berries and petals give: one broad band in the green.</summary>
    public static readonly DrawnInk Berry = new("berry", (535, 42, 55, 1), (400, 40, 60, 0.35));

    /// <summary>What barks and galls give: more swallowed the shorter the wave.</summary>
    public static readonly DrawnInk Bark = new("bark", (360, 130, 60, 1), (620, 160, 160, 0.12));

    /// <summary>What yellow dyers' herbs give on alum: the violet end only.</summary>
    public static readonly DrawnInk Herb = new("herb", (405, 45, 60, 1), (360, 60, 60, 0.6));

    /// <summary>The light that a wash on paper sends back, as red, green and blue of sRGB.</summary>
    /// <param name="amount">Of the ink's density: 1 is as listed, 0.5 is half as much ink.</param>
    /// <param name="paper">The share that the bare paper sends back at a wavelength in nm.</param>
    /// <remarks>Light passes the film twice; a little never enters it. Integrated every 5 nm over an equal-energy light with the fit of the
    /// CIE 1931 observer by Wyman, Sloan and Shirley (2013), then scaled to the white of D65.</remarks>
    public double[] On(double amount, Func<double, double> paper)
    {
        double[] sum = [0, 0, 0],
            white = [0, 0, 0];
        for (var nm = 380.0; nm <= 730; nm += 5)
        {
            var density = Bands.Sum(band =>
            {
                var off = (nm - band.Nm) / (nm > band.Nm ? band.Longer : band.Shorter);
                return band.Density * Math.Exp(-0.5 * off * off);
            });
            var back = paper(nm) * (Surface + ((1 - Surface) * Math.Pow(10, -2 * amount * density)));
            double[] eye = [X(nm), Y(nm), Z(nm)];
            for (var k = 0; k < 3; k++)
            {
                sum[k] += eye[k] * back;
                white[k] += eye[k];
            }
        }

        return Rgb.OfXyz([.. Enumerable.Range(0, 3).Select(k => sum[k] / white[k] * Rgb.White[k])]);
    }

    /// <summary>White drawing paper, a little darker towards the violet.</summary>
    public static double DrawingPaper(double nm) => 0.88 - (0.06 * Math.Exp(-(nm - 380) / 60));

    private static double X(double nm) =>
        (1.056 * Lobe(nm, 599.8, 37.9, 31.0)) + (0.362 * Lobe(nm, 442.0, 16.0, 26.7)) - (0.065 * Lobe(nm, 501.1, 20.4, 26.2));

    private static double Y(double nm) => (0.821 * Lobe(nm, 568.8, 46.9, 40.5)) + (0.286 * Lobe(nm, 530.9, 16.3, 31.1));

    private static double Z(double nm) => (1.217 * Lobe(nm, 437.0, 11.8, 36.0)) + (0.681 * Lobe(nm, 459.0, 26.0, 13.8));

    private static double Lobe(double nm, double middle, double below, double above)
    {
        var off = (nm - middle) / (nm < middle ? below : above);
        return Math.Exp(-0.5 * off * off);
    }
}

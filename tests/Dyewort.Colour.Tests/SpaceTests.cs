using CsCheck;
using Dyewort.Testing;
using Xunit;

namespace Dyewort.Colour.Tests;

public sealed class SpaceTests
{
    private static readonly Gen<Xyz> Surfaces = Gen.Select(
        Gen.Double[0.5, 95],
        Gen.Double[0.5, 99],
        Gen.Double[0.5, 108],
        (x, y, z) => new Xyz(x, y, z)
    );

    [Fact, Published("IEC61966-2-1", "clause 5: the matrices, four decimals")]
    public void The_sRGB_matrix_is_the_standards_to_its_four_decimals()
    {
        // Columns of the standard's matrix are the XYZ of the three primaries.
        Data.Close(new Xyz(41.24, 21.26, 1.93), RgbSpace.Srgb.LinearToXyz(new(1, 0, 0)), 0.005);
        Data.Close(new Xyz(35.76, 71.52, 11.92), RgbSpace.Srgb.LinearToXyz(new(0, 1, 0)), 0.005);
        Data.Close(new Xyz(18.05, 7.22, 95.05), RgbSpace.Srgb.LinearToXyz(new(0, 0, 1)), 0.005);
    }

    [Theory, Published("IEC61966-2-1", "clause 5.2: the encoding curve")]
    [InlineData(0.0031308, 0.04045)]
    [InlineData(0.0, 0.0)]
    [InlineData(1.0, 1.0)]
    [InlineData(0.21404114, 0.5)]
    public void The_sRGB_curve_passes_through_the_standards_points(double linear, double encoded) =>
        Assert.Equal(encoded, RgbSpace.Srgb.Encode(new(linear, 0, 0)).R, 1e-5);

    [Theory, Published("CSS4", "section 4.4 worked values, and CIE 15 formulas worked by hand for the white")]
    [InlineData("#ffffff", 100, 0, 0)]
    [InlineData("#000000", 0, 0, 0)]
    [InlineData("#ff0000", 53.24, 80.09, 67.20)]
    [InlineData("#00ff00", 87.73, -86.18, 83.18)]
    [InlineData("#0000ff", 32.30, 79.19, -107.86)]
    public void The_corners_of_sRGB_have_the_usual_Lab(string hex, double l, double a, double b)
    {
        var lab = Lab.FromXyz(Data.Colour(hex));
        Assert.Equal(l, lab.L, 0.006);
        Assert.Equal(a, lab.A, 0.011);
        Assert.Equal(b, lab.B, 0.011);
    }

    [Theory, Published("CIE15", "Tables T.3 and 8.3: chromaticities of the illuminants, 2°")]
    [InlineData("A", 0.44758, 0.40745)]
    [InlineData("C", 0.31006, 0.31616)]
    [InlineData("D50", 0.34567, 0.35850)]
    [InlineData("D65", 0.31272, 0.32903)]
    [InlineData("FL2", 0.3721, 0.3751)]
    [InlineData("FL7", 0.3129, 0.3292)]
    [InlineData("FL11", 0.3805, 0.3769)]
    [InlineData("LED-B1", 0.4560, 0.4078)]
    [InlineData("LED-B2", 0.4357, 0.4012)]
    [InlineData("LED-B3", 0.3756, 0.3723)]
    [InlineData("LED-B4", 0.3422, 0.3502)]
    [InlineData("LED-B5", 0.3118, 0.3236)]
    [InlineData("LED-BH1", 0.4474, 0.4066)]
    [InlineData("LED-RGB1", 0.4557, 0.4211)]
    [InlineData("LED-V1", 0.4548, 0.4044)]
    [InlineData("LED-V2", 0.3781, 0.3775)]
    public void An_illuminants_white_is_where_the_CIE_says(string name, double x, double y)
    {
        var white = Illuminant.Find(name)!.White(Observer.Cie1931);
        var at = Chromaticity.FromXyz(white, white);
        Assert.Equal(x, at.X, 1e-4);
        Assert.Equal(y, at.Y, 1e-4);
        Assert.Equal(100, white.Y, 1e-9);
    }

    [Theory, Published("CIE15", "chromaticities for the 10° observer")]
    [InlineData("A", 0.45117, 0.40594)]
    [InlineData("C", 0.31039, 0.31905)]
    [InlineData("D50", 0.34773, 0.35952)]
    [InlineData("D65", 0.31382, 0.33100)]
    public void The_ten_degree_observer_gives_the_CIEs_whites(string name, double x, double y)
    {
        var white = Illuminant.Find(name)!.White(Observer.Cie1964);
        var at = Chromaticity.FromXyz(white, white);
        Assert.Equal(x, at.X, 1e-4);
        Assert.Equal(y, at.Y, 1e-4);
    }

    [Fact]
    public void Every_space_comes_back_where_it_started() =>
        Surfaces.Sample(colour =>
        {
            Data.Close(colour, Lab.FromXyz(colour).ToXyz(), 1e-9);
            Data.Close(colour, Lch.FromLab(Lab.FromXyz(colour)).ToLab().ToXyz(), 1e-9);
            Data.Close(colour, Luv.FromXyz(colour).ToXyz(), 1e-9);
            Data.Close(colour, Oklab.FromXyz(colour).ToXyz(), 1e-9);
            Data.Close(colour, Chromaticity.FromXyz(colour, WhitePoint.D65).ToXyz(), 1e-9);
            Data.Close(colour, Adaptation.FromD50(Adaptation.ToD50(colour)), 1e-9);
            Data.Close(
                colour,
                Adaptation.Cat16(Adaptation.Cat16(colour, WhitePoint.D65, WhitePoint.A), WhitePoint.A, WhitePoint.D65),
                1e-9
            );
            foreach (var space in new[] { RgbSpace.Srgb, RgbSpace.DisplayP3, RgbSpace.A98, RgbSpace.ProPhoto, RgbSpace.Rec2020 })
                Data.Close(colour, space.ToXyz(space.FromXyz(colour)), 1e-9);
        });

    [Fact]
    public void Adaptation_takes_white_to_white()
    {
        Data.Close(WhitePoint.A, Adaptation.Bradford(WhitePoint.C, WhitePoint.C, WhitePoint.A), 1e-10);
        Data.Close(WhitePoint.A, Adaptation.Cat16(WhitePoint.C, WhitePoint.C, WhitePoint.A), 1e-10);
        Data.Close(WhitePoint.D65, Adaptation.FromD50(WhitePoint.D50), 1e-10);
    }

    [Fact, Published("CSS4", "section 17, sample code: the Bradford matrix from D65 to D50")]
    public void The_Bradford_matrix_is_the_one_CSS_prints() =>
        Data.Close(new Xyz(104.79297, 2.96278, -0.92430), Adaptation.ToD50(new(100, 0, 0)), 1e-4);

    [Fact, Published("CIE15", "section 8.2.1: the formulas, worked by hand")]
    public void Lab_of_a_middle_grey_and_of_a_dark_colour()
    {
        // Y/Yn = 0.184186518…: f = 66/116, so L* = 50 exactly; below (6/29)³ the line: Y/Yn = 0.001 gives L* = 0.9033.
        Assert.Equal(50, Lab.FromXyz(WhitePoint.D65 * Math.Pow(66.0 / 116, 3)).L, 1e-10);
        Assert.Equal(0.903296296, Lab.FromXyz(WhitePoint.D65 * 0.001).L, 1e-8);
    }

    [Fact]
    public void The_perfect_diffuser_is_the_stored_white() => Data.Close(WhitePoint.D65, Spectrum.PerfectDiffuser.ToXyz(), 1e-9);

    [Fact]
    public void Coarse_samples_of_a_smooth_spectrum_give_the_same_colour()
    {
        double Smooth(double nm) => 0.4 + (0.3 * Math.Sin(nm / 60));
        double[] fine = [.. Enumerable.Range(0, 81).Select(i => Smooth(380 + (5.0 * i)))];
        double[] nm = [.. Enumerable.Range(0, 41).Select(i => 380.0 + (10 * i))];
        double[] coarse = [.. nm.Select(Smooth)];
        Data.Close(Spectrum.Of(fine).ToXyz(), Spectrum.FromSamples(nm, coarse).ToXyz(), 0.01);
    }

    [Fact, Published("ASTME308", "section 7.3.2.2: weights of missing ends go to the last measured wavelength")]
    public void Truncated_ends_are_held()
    {
        double[] nm = [.. Enumerable.Range(0, 61).Select(i => 400.0 + (5 * i))];
        double[] samples = [.. nm.Select(w => 0.2 + ((w - 400) / 1000))];
        var spectrum = Spectrum.FromSamples(nm, samples);
        Assert.Equal(samples[0], spectrum.Values[0]);
        Assert.Equal(samples[^1], spectrum.Values[80]);
        Assert.Equal(samples[10], spectrum.Values[14], 1e-12);
    }

    [Fact, Published("Ohta1997", "24 patches; the chart maker's printed CIELAB, D50, 2°, of the edition before November 2014")]
    public void Card_spectra_give_the_cards_colours()
    {
        // The spectra are of one card, the printed values are means of another production: the neutral patches agree, and so do
        // most others, but not all within 0.3. The bound on single patches is what two published sets of spectra differ by (1.85).
        var maker = new (int Patch, double L, double A, double B)[]
        {
            (19, 96.54, -0.43, 1.19),
            (20, 81.26, -0.64, -0.34),
            (21, 66.77, -0.73, -0.50),
            (22, 50.87, -0.15, -0.27),
            (23, 35.66, -0.42, -1.23),
            (24, 20.46, -0.08, -0.97),
            (13, 28.78, 14.18, -50.30),
            (14, 55.26, -38.34, 31.37),
            (15, 42.10, 53.38, 28.19),
            (16, 81.73, 4.04, 79.82),
            (17, 51.94, 49.99, -14.57),
            (18, 51.04, -28.63, -28.64),
        };
        var rows = Data.Published("ohta1997-card24-spectra.csv");
        Assert.Equal(24, rows.Count);
        foreach (var (patch, l, a, b) in maker)
        {
            var row = rows[patch - 1];
            var spectrum = Spectrum.Of([.. Enumerable.Range(0, 81).Select(i => row.Number($"R{380 + (5 * i)}"))]);
            var white = Illuminant.D50.White(Observer.Cie1931);
            var lab = Lab.FromXyz(spectrum.ToXyz(Illuminant.D50, Observer.Cie1931), white);
            Assert.InRange(Difference.Ciede2000(lab, new Lab(l, a, b)), 0, 1.85);
        }
    }

    /// <summary>Sums over the CIE tables by another program; where the mean spectra of 30 cards lie beside the checkout, the values printed
    /// with those too.</summary>
    [Fact]
    public void Card_spectra_give_what_another_program_sums_from_the_tables()
    {
        var white = Illuminant.D50.White(Observer.Cie1931);
        var sums = Data.Read(Repository.PathOf("tests", "Dyewort.Colour.Tests", "Independent", "card24-lab-d50.csv"));
        foreach (var (row, sum) in Data.Published("ohta1997-card24-spectra.csv").Zip(sums, (row, sum) => (row, sum)))
        {
            var spectrum = Spectrum.Of([.. Enumerable.Range(0, 81).Select(i => row.Number($"R{380 + (5 * i)}"))]);
            Assert.InRange(
                Difference.Ciede2000(Lab.FromXyz(spectrum.ToXyz(Illuminant.D50, Observer.Cie1931), white), sum.Lab("")),
                0,
                0.01
            );
        }

        Assert.Equal(24, sums.Count);
        if (Repository.Shared("colour", "card24_reference.csv") is not { } path)
            return;
        double[] nm = [.. Enumerable.Range(0, 36).Select(i => 380.0 + (10 * i))];
        var means = Data.Read(path);
        Assert.Equal(24, means.Count);
        foreach (var row in means)
        {
            var spectrum = Spectrum.FromSamples(nm, [.. nm.Select(w => row.Number($"R{w:0}"))]);
            var lab = Lab.FromXyz(spectrum.ToXyz(Illuminant.D50, Observer.Cie1931), white);
            var printed = new Lab(row.Number("L_D50_from_spectra"), row.Number("a_D50_from_spectra"), row.Number("b_D50_from_spectra"));
            Assert.InRange(Difference.Ciede2000(lab, printed), 0, 0.3);
        }
    }
}

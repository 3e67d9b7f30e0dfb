using Dyewort.Colour;

namespace Dyewort.Response.Tests.Generated;

/// <summary>Plants that do not exist but behave as plants do: dye forms that follow the pH, metals that bind and saturate, smooth
/// absorption
/// bands, Beer–Lambert on paper. The same seed gives the same plant.</summary>
/// <remarks>pKa values of anthocyanins: apparent hydration of the flavylium cation 1.8–3.0, its proton transfer 3.8–5.0, first ionisation
/// of the
/// neutral base 6.3–7.6, second 8.3–10 (ranges as reviews print them; value from memory). Flavonols 6.5–8.5 and 9–11, tannins 8–9.5 (from
/// memory).
/// Acids and bases: citric 3.13, 4.76, 6.40; carbonic 6.35, 10.33; first hydrolysis of Al³⁺ 5.0, of Fe³⁺-bearing copperas 6.5 as it is
/// used,
/// of Cu²⁺ 7.7 (handbook values to two places). The plant's own buffer is drawn at random. Nothing here shares code with the
/// model.</remarks>
public sealed class PlantMaker : IPlant
{
    public static readonly string[] Materials = ["alum", "copperas", "copper sulphate", "bicarbonate of soda", "citric acid"];

    private static readonly double[] GramsPerMole = [474.4, 278.0, 249.7, 84.0, 192.1];
    private static readonly double[] LowDose = [0.5, 0.1, 0.1, 0.3, 0.3];
    private static readonly double[] HighDose = [25, 4, 4, 10, 6];
    private readonly Random random;
    private readonly double[] pKa;
    private readonly double[][] forms;
    private readonly double[][] complexes = new double[3][];
    private readonly double[] binding = new double[3];
    private readonly double[] bindingPka = new double[3];
    private readonly double hill;
    private readonly double bufferMolar;
    private readonly double bufferPka;
    private readonly double ownPh;
    private readonly double[] paper;
    private readonly int[] used;

    public PlantMaker(int seed)
    {
        random = new Random(seed);
        Kind = new[] { "anthocyanin", "flavonol", "tannin", "mixed" }[seed % 4];
        Law = new[] { "displace", "add", "in turn", "cooperate" }[seed / 4 % 4];
        hill = Law == "cooperate" ? U(0.8, 1.6) : 1;
        var peak = Math.Exp(U(Math.Log(0.25), Math.Log(0.8)));
        var dull = U(0, 0.2);
        var shift = N() * 6;
        switch (Kind)
        {
            case "anthocyanin":
                pKa = [U(1.8, 3.0), U(4.0, 5.2), U(6.3, 7.6), U(8.3, 10)];
                forms =
                [
                    Band(515 + shift, 85, 1, .25),
                    Band(530 + shift, 105, U(.25, .6), .2),
                    Band(565 + shift, 120, U(.4, .8), .15),
                    Band(605 + shift, 110, U(.7, 1), .3),
                    Sum(Band(605 + shift, 110, U(.3, .7), .3), Band(395, 110, .9, 0)),
                ];
                complexes[0] = Band(572 + shift, 100, U(.8, 1.2), .25);
                complexes[1] = Sum(Band(580 + shift, 190, U(.8, 1.1), .1), Flat(U(.2, .5)));
                complexes[2] = Sum(Band(590 + shift, 150, U(.7, 1), .1), Tail(60, .4));
                break;
            case "flavonol":
                pKa = [U(6.5, 8.5), U(9, 11)];
                forms = [Sum(Band(370 + shift, 75, 1, -.1), Tail(45, .3)), Band(395 + shift, 85, 1.1, 0), Band(410 + shift, 100, 1.2, 0)];
                complexes[0] = Band(425 + shift, 80, U(1, 1.5), 0);
                complexes[1] = Sum(Band(410 + shift, 120, 1, 0), Band(570, 230, U(.3, .6), 0));
                complexes[2] = Sum(Band(430 + shift, 100, 1, 0), Band(690, 120, U(.1, .3), 0));
                break;
            case "tannin":
                pKa = [U(8, 9.5)];
                forms = [Tail(U(60, 110), U(.4, 1)), Sum(Tail(120, 1), Band(500, 160, .2, 0))];
                complexes[0] = Tail(U(50, 100), U(.5, 1));
                complexes[1] = Sum(Flat(U(.6, 1)), Band(570 + shift, 230, U(.3, .6), 0));
                complexes[2] = Sum(Tail(110, 1), Band(460, 120, .2, 0));
                break;
            default:
                pKa = [U(3.5, 5.5), U(7, 9)];
                forms =
                [
                    Sum(Band(520 + shift, 85, U(.4, 1), .2), Tail(60, .5)),
                    Sum(Band(545 + shift, 120, U(.2, .6), .2), Tail(70, .6)),
                    Sum(Band(590 + shift, 130, U(.4, .9), .2), Tail(70, .8)),
                ];
                complexes[0] = Sum(Band(540 + shift, 100, U(.6, 1), .2), Band(420, 80, .6, 0));
                complexes[1] = Sum(Flat(U(.4, .8)), Band(560, 200, .4, 0));
                complexes[2] = Sum(Band(560 + shift, 150, U(.5, .8), 0), Tail(80, .8));
                break;
        }

        foreach (var spectrum in forms.Concat(complexes))
        {
            for (var i = 0; i < spectrum.Length; i++)
                spectrum[i] = peak * (spectrum[i] + (dull * (.35 + (.65 * Math.Exp(-(Eye.Wavelengths[i] - 400) / 110)))));
        }

        for (var m = 0; m < 3; m++)
        {
            binding[m] = Math.Exp(U(Math.Log(m == 0 ? 0.002 : 0.0005), Math.Log(m == 0 ? 0.03 : 0.008)));
            bindingPka[m] = U(2.5, 4.5);
        }

        ownPh = Kind == "anthocyanin" ? U(3.2, 6.5) : U(4, 7);
        bufferMolar = Math.Exp(U(Math.Log(0.005), Math.Log(0.05)));
        bufferPka = Math.Clamp(ownPh + U(-1, 1), 3, 7);
        var level = U(.86, .93);
        var dip = U(.04, .2);
        var decay = U(25, 75);
        paper = [.. Eye.Wavelengths.Select(w => level - (dip * Math.Exp(-(w - 400) / decay)))];
        used = [.. Enumerable.Range(0, 5).OrderBy(_ => random.Next()).Take(random.Next(2, 5))];
    }

    public string Kind { get; }

    /// <summary>How metals act: displace the free dye in competition, add their complex to it, convert what the one before left, or bind
    /// with a Hill exponent whatever the pH.</summary>
    public string Law { get; }

    public Lab Paper => Eye.Colour(paper);

    public IReadOnlyList<string> Used => [.. used.Order().Select(m => Materials[m])];

    /// <summary>A sample such as a maker sets out: the plain liquor first, then single additions and pairs, doses even on a logarithmic
    /// scale.</summary>
    public TrialPoint Draw(string code, bool plain = false, double wash = 1)
    {
        var doses = Doses.None;
        if (!plain)
        {
            var count = random.NextDouble() < 0.45 ? 1 : 2;
            foreach (var m in used.OrderBy(_ => random.Next()).Take(count))
                doses = doses.With(Materials[m], Math.Round(Math.Exp(U(Math.Log(LowDose[m]), Math.Log(HighDose[m]))), 2));
        }

        return new TrialPoint
        {
            Sample = code,
            Plant = Kind,
            GramsPerLitre = doses,
            Ph = Math.Round(PhOf(doses), 2),
            Wash = wash,
        };
    }

    public TrialRow Read(TrialPoint point, double scatter)
    {
        var truth = ColourOf(point);
        var c = 1 + (0.045 * truth.Chroma);
        return new(
            point,
            new Lab(truth.L + (0.63 * scatter * N()), truth.A + (0.63 * scatter * c * N()), truth.B + (0.63 * scatter * c * N()))
        );
    }

    /// <summary>The colour as nature has it, without any reader.</summary>
    public Lab ColourOf(TrialPoint point)
    {
        const double Surface = 0.012;
        var absorbance = Absorbance(point);
        var reflectance = new double[Eye.Count];
        for (var i = 0; i < reflectance.Length; i++)
            reflectance[i] = paper[i] * (Surface + ((1 - Surface) * Math.Pow(10, -2 * absorbance[i] * point.Wash * point.Coats)));
        return Eye.Colour(reflectance);
    }

    /// <summary>Makes up a proposal and paints it: doses and washes by their chemistry, mixtures as the composition they have once
    /// stirred.</summary>
    public Lab Paint(Proposal proposal, IReadOnlyList<TrialRow> rows)
    {
        if (proposal.Parts.Count == 0)
            return ColourOf(proposal.Point);
        var doses = Doses.None;
        foreach (var part in proposal.Parts)
        {
            foreach (var (name, dose) in rows.First(row => row.Point.Sample == part.Sample).Point.GramsPerLitre)
                doses = doses.Plus(name, part.Share * dose);
        }

        return ColourOf(proposal.Point with { GramsPerLitre = doses });
    }

    public double[] Absorbance(TrialPoint point)
    {
        var ph = PhOf(point.GramsPerLitre);
        Span<double> fraction = stackalloc double[forms.Length];
        var sum = 0.0;
        for (var f = 0; f < forms.Length; f++)
        {
            var log = 0.0;
            for (var k = 0; k < f; k++)
                log += ph - pKa[k];
            fraction[f] = Math.Pow(10, log);
            sum += fraction[f];
        }

        // Shares of free dye and of each complex; what the laws differ in.
        Span<double> bound = stackalloc double[3];
        var total = 1.0;
        var free = 1.0;
        for (var m = 0; m < 3; m++)
        {
            var ratio = Math.Pow(point.Dose(Materials[m]) / GramsPerMole[m] / binding[m], hill);
            bound[m] = Law is "displace" or "in turn" ? ratio / (1 + Math.Pow(10, bindingPka[m] - ph)) : ratio;
            total += bound[m];
        }

        for (var m = 0; m < 3; m++)
        {
            var share = Law switch
            {
                "add" => bound[m] / (1 + bound[m]),
                "in turn" => free * bound[m] / (1 + bound[m]),
                _ => bound[m] / total,
            };
            bound[m] = share;
            if (Law != "add")
                free -= share;
        }

        var result = new double[Eye.Count];
        for (var i = 0; i < result.Length; i++)
        {
            for (var f = 0; f < forms.Length; f++)
                result[i] += fraction[f] / sum * free * forms[f][i];
            for (var m = 0; m < 3; m++)
                result[i] += bound[m] * complexes[m][i] * (Law == "add" ? 0.7 : 1);
        }

        return result;
    }

    /// <summary>pH by charge balance, carbon dioxide leaving at 1 atm, precipitation left out.</summary>
    public double PhOf(Doses doses)
    {
        double Molar(int m) => doses[Materials[m]] / GramsPerMole[m];
        var (alum, iron, copper, soda, citric) = (Molar(0), Molar(1), Molar(2), Molar(3), Molar(4));
        var fixedBase = bufferMolar * Part(ownPh, bufferPka);
        double Charge(double ph)
        {
            var h = Math.Pow(10, -ph);
            var carbon = Math.Min(soda, 0.034 * (1 + Math.Pow(10, ph - 6.35)));
            return h
                - (1e-14 / h)
                + soda
                + fixedBase
                - (bufferMolar * Part(ph, bufferPka))
                - (carbon * (Part(ph, 6.35) + Part(ph, 10.33)))
                - (citric * (Part(ph, 3.13) + Part(ph, 4.76) + Part(ph, 6.40)))
                - (alum * 3 * Part(ph, 5.0))
                - (iron * 1.2 * Part(ph, 6.5))
                - (copper * 2 * Part(ph, 7.7));
        }

        double low = 0,
            high = 13.5;
        for (var i = 0; i < 60; i++)
        {
            var middle = (low + high) / 2;
            if (Charge(middle) > 0)
                low = middle;
            else
                high = middle;
        }

        return (low + high) / 2;
    }

    private static double Part(double ph, double pk) => 1 / (1 + Math.Pow(10, pk - ph));

    private double U(double low, double high) => low + ((high - low) * random.NextDouble());

    private double N() => Math.Sqrt(-2 * Math.Log(1 - random.NextDouble())) * Math.Cos(2 * Math.PI * random.NextDouble());

    private static double[] Band(double centre, double width, double height, double skew) =>
        [
            .. Eye.Wavelengths.Select(w =>
            {
                var s = width / 2.355 * (w < centre ? 1 + skew : 1 - skew);
                return height * Math.Exp(-0.5 * (w - centre) * (w - centre) / (s * s));
            }),
        ];

    private static double[] Tail(double decay, double height) => [.. Eye.Wavelengths.Select(w => height * Math.Exp(-(w - 400) / decay))];

    private static double[] Flat(double height) => [.. Eye.Wavelengths.Select(_ => height)];

    private static double[] Sum(double[] first, double[] second) => [.. first.Zip(second, (a, b) => a + b)];
}

using Dyewort.Colour;
using Dyewort.Response.Tests.Generated;

namespace Dyewort.Response.Accuracy;

/// <summary>A second kind of made-up plant, by other laws than <see cref="PlantMaker"/>: up to two pigments with the simulator's absorption
/// shapes, forms by pKa, metals bound by mass action, Langmuir or Hill with protons competing, rust where iron meets alkali, thinning by
/// the
/// liquids added, additions that do nothing, spoon steps, uneven painting, slips of the reader.</summary>
/// <remarks>Anthocyanin: flavylium to colourless hemiketal pK 1.9–2.9 in plain glycosides (absorbance falls sharply at pH 4–6), acylated
/// ones
/// keep their colour; quinonoid bases near 4.5 and 7; chalcones yellow in alkali. pKa of flavonols 6.5–8, curcumin 8.3–8.8, haematein
/// 6.5–7.5,
/// betanin opened above 8.5 (all from memory or the fact list beside the simulator). pH by a charge balance of its own: acetic 4.76,
/// citric 3.13 4.76 6.40, tartaric 3.04 4.37, carbonic 6.35 10.33, Al³⁺ and Fe³⁺ hydrolysis 4.9 and 2.6, Cu²⁺ 6.6, chalk up to pH
/// 8.</remarks>
internal sealed class InkPlant : IPlant
{
    private static readonly (string Name, double Gram, double Low, double High, double Spoon, char Role)[] Pool =
    [
        ("alum", 474.4, 0.4, 40, 5, 'a'),
        ("iron(II) sulfate", 278, 0.05, 8, 5, 'f'),
        ("copper sulfate", 249.7, 0.05, 8, 6, 'c'),
        ("citric acid", 192.1, 0.2, 20, 5, 'z'),
        ("white vinegar", 60.05, 5, 200, 5, 'v'),
        ("cream of tartar", 188.2, 0.5, 15, 4, 't'),
        ("bicarbonate of soda", 84, 0.2, 30, 5, 'b'),
        ("washing soda", 286.1, 0.2, 20, 5, 'w'),
        ("chalk", 100.1, 0.5, 20, 3, 'k'),
        ("tannic acid", 1701, 0.2, 10, 2, 'n'),
        ("salt", 58.4, 1, 60, 6, 's'),
        ("honey", 180, 2, 60, 7, 's'),
        ("gum arabic", 250, 2, 80, 3, 's'),
    ];

    private readonly Random random;
    private readonly InkTable table;
    private readonly List<Pigment> pigments = [];
    private readonly double[] paper;
    private readonly double[] bufferPk;
    private readonly double[] bufferMolar;
    private readonly double strongBase;
    private readonly double rusted;
    private readonly double rust;
    private readonly double unevenness;
    private readonly double slips;
    private readonly bool spoons;
    private readonly int[] used;

    private sealed record Pigment(
        double[] Pk,
        double[][] Forms,
        Dictionary<char, (double[] Shape, double K, double Hill, double ProtonPk)> Complexes,
        double Molar
    );

    public InkPlant(InkTable table, int seed)
    {
        (this.table, random) = (table, new Random(seed * 7919));
        string[] kinds = ["acylated anthocyanin", "plain anthocyanin", "flavonol", "tannin", "curcumin", "haematein", "betanin", "any ink"];
        Kind = kinds[seed % kinds.Length];
        Law = new[] { "mass action", "Langmuir", "Hill" }[seed / kinds.Length % 3];
        var strength = Math.Exp(U(Math.Log(0.2), Math.Log(0.75)));
        pigments.Add(Grow(Kind, strength));
        if (random.NextDouble() < 0.5)
            pigments.Add(Grow(kinds[random.Next(kinds.Length)], strength * U(0.1, 0.5)));
        paper = table.Papers.Values.ElementAt(random.Next(table.Papers.Count));
        var lift = N() * 0.01;
        paper = [.. paper.Select(r => Math.Clamp(r + lift, 0.3, 0.97))];
        bufferPk = [U(2.9, 3.6), U(4.2, 5.2), U(6, 7.2)];
        bufferMolar = [Size(0.002, 0.03), Size(0.002, 0.03), Size(0.0005, 0.006)];
        var ownPh = Kind.Contains("anthocyanin", StringComparison.Ordinal) ? U(3, 6) : U(4, 6.8);
        for (var i = 0; i < 3; i++)
            strongBase += bufferMolar[i] * Part(ownPh, bufferPk[i]);
        strongBase -= Math.Pow(10, -ownPh);
        rusted = U(0, 0.06);
        rust = U(0, 0.5) * strength;
        unevenness = random.NextDouble() < 0.5 ? 0.03 : 0;
        slips = random.NextDouble() < 0.4 ? 0.04 : 0;
        spoons = random.NextDouble() < 0.5;
        var order = Enumerable
            .Range(0, Pool.Length)
            .OrderBy(_ => random.NextDouble() * (Pool[_].Role is 's' or 'n' ? 0.5 : 1))
            .Reverse()
            .ToArray();
        used = [.. order.Take(random.Next(2, 6))];
    }

    public string Kind { get; }

    public string Law { get; }

    public IReadOnlyList<string> Used => [.. used.Order().Select(m => Pool[m].Name)];

    public Lab Paper => table.Colour(paper);

    public TrialPoint Draw(string code, bool plain = false, double wash = 1)
    {
        var doses = Doses.None;
        var chance = random.NextDouble();
        var count =
            plain ? 0
            : chance < 0.4 ? 1
            : chance < 0.85 ? 2
            : 3;
        foreach (var m in used.OrderBy(_ => random.Next()).Take(count))
        {
            var (_, _, low, high, spoon, _) = Pool[m];
            var dose = Math.Exp(U(Math.Log(low), Math.Log(high)));
            if (spoons)
            {
                // Eighths of a teaspoon into three tablespoons to three cups.
                double[] steps = [0.125, 0.25, 0.5, 0.75, 1, 1.5, 2, 3, 4];
                var jar = spoon >= 5 && low < 0.1 ? 700.0 : 90;
                dose = steps
                    .Select(step => step * spoon / jar * 1000)
                    .MinBy(d => Math.Abs(Math.Log(d / dose)) + (0.01 * random.NextDouble()));
            }

            doses = doses.With(Pool[m].Name, Math.Round(dose, 2));
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
        var truth = Colour(point, 1 + (unevenness * N()));
        var slip = random.NextDouble() < slips ? 6 : 1;
        var c = 1 + (0.045 * truth.Chroma);
        return new(
            point,
            new Lab(
                Math.Clamp(truth.L + (0.63 * slip * scatter * N()), 0, 100),
                truth.A + (0.63 * slip * scatter * c * N()),
                truth.B + (0.63 * slip * scatter * c * N())
            )
        );
    }

    public Lab ColourOf(TrialPoint point) => Colour(point, 1);

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

    private Lab Colour(TrialPoint point, double thickness)
    {
        var absorbance = new double[paper.Length];
        var ph = PhOf(point.GramsPerLitre);
        foreach (var pigment in pigments)
            Add(pigment, point, ph, absorbance);
        var iron = point.Dose("iron(II) sulfate") / 278;
        var brown = table.Inks["tannin_brown"];
        var rusting = rust * iron / (iron + 0.01) / (1 + Math.Pow(10, 6.5 - ph));
        for (var i = 0; i < absorbance.Length; i++)
            absorbance[i] += rusting * brown[i];
        var thinned = 1 / (1 + (point.Dose("white vinegar") / 1000) + (point.Dose("honey") / 1400));
        var reflectance = new double[paper.Length];
        for (var i = 0; i < reflectance.Length; i++)
            reflectance[i] =
                paper[i]
                * (
                    table.Surface
                    + ((1 - table.Surface) * Math.Pow(10, -2 * absorbance[i] * thinned * thickness * point.Wash * point.Coats))
                );
        return table.Colour(reflectance);
    }

    private void Add(Pigment pigment, TrialPoint point, double ph, double[] absorbance)
    {
        Span<double> form = stackalloc double[pigment.Forms.Length];
        var sum = 0.0;
        for (var f = 0; f < form.Length; f++)
        {
            var log = 0.0;
            for (var k = 0; k < f; k++)
                log += ph - pigment.Pk[k];
            form[f] = Math.Pow(10, Math.Clamp(log, -30, 30));
            sum += form[f];
        }

        var free = 1.0;
        var bound = new List<(double[] Shape, double Share)>();
        var total = 1.0;
        var pulls = new List<(double[] Shape, double Pull)>();
        foreach (var (role, (shape, k, hill, protonPk)) in pigment.Complexes)
        {
            var of = Array.FindIndex(Pool, one => one.Role == role);
            var molar = point.Dose(Pool[of].Name) / Pool[of].Gram;
            if (molar <= 0)
                continue;
            var effective = k * (1 + Math.Pow(10, protonPk - ph));
            if (Law == "mass action")
            {
                // One metal to one dye: the metal that the dye takes is gone.
                var b = pigment.Molar + molar + effective;
                var pair = (b - Math.Sqrt((b * b) - (4 * pigment.Molar * molar))) / 2;
                pulls.Add((shape, pair / Math.Max(pigment.Molar - pair, 1e-9)));
            }
            else
            {
                pulls.Add((shape, Math.Pow(molar / effective, Law == "Hill" ? hill : 1)));
            }

            total += pulls[^1].Pull;
        }

        foreach (var (shape, pull) in pulls)
        {
            bound.Add((shape, pull / total));
            free -= pull / total;
        }

        for (var i = 0; i < absorbance.Length; i++)
        {
            for (var f = 0; f < form.Length; f++)
                absorbance[i] += form[f] / sum * free * pigment.Forms[f][i];
            foreach (var (shape, share) in bound)
                absorbance[i] += share * shape[i];
        }
    }

    /// <summary>pH by charge balance; CO2 above 1 atm leaves; chalk dissolves while it is acid enough.</summary>
    public double PhOf(Doses doses)
    {
        double M(char role)
        {
            var of = Array.FindIndex(Pool, one => one.Role == role);
            return doses[Pool[of].Name] / Pool[of].Gram;
        }

        double Solve(double chalk)
        {
            double Charge(double ph)
            {
                var h = Math.Pow(10, -ph);
                var carbon = Math.Min(M('b') + M('w') + chalk, 0.034 * (1 + Math.Pow(10, ph - 6.35) + Math.Pow(10, (2 * ph) - 16.68)));
                var bicarbonate = 1 / (1 + Math.Pow(10, 6.35 - ph) + Math.Pow(10, ph - 10.33));
                var charge =
                    h
                    - (1e-14 / h)
                    + strongBase
                    + M('b')
                    + (2 * M('w'))
                    + (2 * chalk)
                    + M('t')
                    - (carbon * bicarbonate * (1 + (2 * Math.Pow(10, ph - 10.33))))
                    - (M('z') * (Part(ph, 3.13) + Part(ph, 4.76) + Part(ph, 6.40)))
                    - (0.05 * M('v') * Part(ph, 4.76))
                    - (Math.Min(M('t'), 0.03) * (Part(ph, 3.04) + Part(ph, 4.37)))
                    - (M('a') * 3 * Part(ph, 4.9))
                    - (M('f') * rusted * 3 * Part(ph, 2.6))
                    - (M('f') * 2 * (1 - rusted) * Part(ph, 8.3))
                    - (M('c') * 2 * Part(ph, 6.6))
                    - (M('n') * 8 * Part(ph, 8.3))
                    - (M('n') * 0.5 * Part(ph, 4));
                for (var i = 0; i < 3; i++)
                    charge -= bufferMolar[i] * Part(ph, bufferPk[i]);
                return charge - (M('t') - Math.Min(M('t'), 0.03));
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

        var chalk = M('k');
        var all = Solve(chalk);
        return chalk > 0 && all > 8 ? Math.Max(8, Solve(0)) : all;
    }

    private Pigment Grow(string kind, double strength)
    {
        double[] Ink(string name, double height, double shift = 0)
        {
            var a = table.Inks[name];
            var peak = 0.0;
            for (var i = 0; i < a.Length; i++)
                peak = table.Wavelengths[i] >= 400 && table.Wavelengths[i] <= 700 ? Math.Max(peak, a[i]) : peak;
            var moved = new double[a.Length];
            for (var i = 0; i < a.Length; i++)
            {
                var at = Math.Clamp(i - (shift / 5), 0, a.Length - 1);
                var lower = Math.Min((int)at, a.Length - 2);
                moved[i] = Math.Max(0, a[lower] + ((at - lower) * (a[lower + 1] - a[lower]))) * height * strength / peak;
            }

            return moved;
        }

        var s = N() * 5;
        double[] none = [.. table.Wavelengths.Select(_ => 0.0)];
        double[] pk;
        double[][] forms;
        double[] al,
            fe,
            cu;
        switch (kind)
        {
            case "acylated anthocyanin":
                pk = [U(2.5, 3.6), U(4.5, 5.6), U(6.6, 7.6), U(8.6, 10)];
                forms =
                [
                    Ink("anthocyanin_acid", 1, s),
                    Ink("anthocyanin_mild", U(.5, .9), s),
                    Ink("anthocyanin_neutral", U(.6, .9), s),
                    Ink("anthocyanin_alkaline_blue", U(.7, 1), s),
                    Ink("anthocyanin_alkaline_green", U(.5, .9), s),
                ];
                (al, fe, cu) = (
                    Ink("anthocyanin_aluminium_violet", U(.8, 1.2), s),
                    Ink("iron_tannate_grey_violet", U(.9, 1.3)),
                    Ink("anthocyanin_neutral", U(.7, 1), 15)
                );
                break;
            case "plain anthocyanin":
                pk = [U(1.9, 2.9), U(4.5, 6), U(6.8, 7.8), U(8.6, 10)];
                forms =
                [
                    Ink("anthocyanin_acid", 1.2, s),
                    Ink("anthocyanin_mild", U(.05, .3), s),
                    Ink("anthocyanin_neutral", U(.3, .6), s),
                    Ink("anthocyanin_alkaline_blue", U(.4, .8), s),
                    Ink("flavonol_yellow", U(.5, .9)),
                ];
                (al, fe, cu) = (
                    Ink("anthocyanin_aluminium_violet", U(.7, 1.1), s),
                    Ink("iron_tannate_grey_violet", U(.8, 1.2)),
                    Ink("anthocyanin_neutral", U(.4, .8), 20)
                );
                break;
            case "flavonol":
                pk = [U(6.5, 8), U(9, 10.5)];
                forms = [Ink("flavonol_yellow", 1, s), Ink("flavonol_alum_yellow", U(.9, 1.2), s), Ink("betaxanthin", U(.8, 1.1), -15)];
                (al, fe, cu) = (
                    Ink("flavonol_alum_yellow", U(1, 1.5)),
                    Ink("flavonol_iron_olive", U(1, 1.4)),
                    Ink("pheophytin_olive", U(.7, 1))
                );
                break;
            case "tannin":
                pk = [U(8, 9.5)];
                forms = [Ink(random.NextDouble() < .5 ? "tannin_brown" : "onion_skin_orange", U(.4, 1)), Ink("walnut_brown", U(.8, 1.2))];
                (al, fe, cu) = (Ink("onion_skin_orange", U(.6, 1)), Ink("iron_tannate_black", U(.9, 1.5)), Ink("walnut_brown", U(.8, 1.1)));
                break;
            case "curcumin":
                pk = [U(8.2, 8.9)];
                forms = [Ink("curcumin", 1, s), Ink("curcumin_alkaline", U(.8, 1.1), s)];
                (al, fe, cu) = (Ink("curcumin", U(1, 1.2), 12), Ink("onion_skin_orange", U(.9, 1.3), 25), Ink("curcumin", U(.9, 1.1), 20));
                break;
            case "haematein":
                pk = [U(6.3, 7.3), U(9, 10)];
                forms = [Ink("onion_skin_orange", 1, s), Ink("madder_alum", U(.8, 1.1), s), Ink("logwood_alum", U(.8, 1.1), s)];
                (al, fe, cu) = (Ink("logwood_alum", U(.9, 1.4), s), Ink("iron_tannate_black", U(1, 1.4)), Ink("indigo", U(.5, .9), -30));
                break;
            case "betanin":
                pk = [U(8.3, 9.2)];
                forms = [Ink("betanin", 1, s), Ink("betaxanthin", U(.5, .9))];
                (al, fe, cu) = (Ink("betanin", U(.9, 1.1), 3), Ink("betanin", U(.5, .9), 10), Ink("betaxanthin", U(.6, 1)));
                break;
            default:
                var names = table.Inks.Keys.ToArray();
                string Any() => names[random.Next(names.Length)];
                pk = [U(4, 9)];
                forms = [Ink(Any(), U(.5, 1)), Ink(Any(), U(.5, 1))];
                (al, fe, cu) = (Ink(Any(), U(.6, 1.2)), Ink("iron_tannate_grey_violet", U(.7, 1.3)), Ink(Any(), U(.6, 1.2)));
                break;
        }

        // Grey-brown plant matter that no addition changes.
        var dull = U(0, .25) * strength;
        for (var i = 0; i < none.Length; i++)
            none[i] = dull * (.35 + (.65 * Math.Exp(-(table.Wavelengths[i] - 400) / 110)));
        foreach (var shape in forms.Append(al).Append(fe).Append(cu).Distinct())
        {
            for (var i = 0; i < shape.Length; i++)
                shape[i] += none[i];
        }

        var complexes = new Dictionary<char, (double[], double, double, double)>
        {
            ['a'] = (al, Size(0.001, 0.05), U(.8, 1.8), U(2.5, 4.8)),
            ['f'] = (fe, Size(0.0003, 0.01), U(.8, 1.8), U(2.5, 5)),
            ['c'] = (cu, Size(0.0003, 0.01), U(.8, 1.8), U(2.5, 5)),
        };
        return new(pk, forms, complexes, Size(0.0005, 0.005));
    }

    private static double Part(double ph, double pk) => 1 / (1 + Math.Pow(10, pk - ph));

    private double Size(double low, double high) => Math.Exp(U(Math.Log(low), Math.Log(high)));

    private double U(double low, double high) => low + ((high - low) * random.NextDouble());

    private double N() => Math.Sqrt(-2 * Math.Log(1 - random.NextDouble())) * Math.Cos(2 * Math.PI * random.NextDouble());
}

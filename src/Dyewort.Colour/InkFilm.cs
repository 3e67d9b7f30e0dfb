using Dyewort.Numerics;

namespace Dyewort.Colour;

/// <summary>A film of ink on paper: its optical density over the spectrum, relative to the bare paper.</summary>
/// <remarks><para>Light passes the film, returns from the paper and passes the film again (Beer–Lambert, double pass); a small share,
/// the floor, returns from the surface without passing it: R = Rpaper · (s + (1 − s) · 10^−D). Thinning an ink, painting it twice and
/// mixing inks by volume scale and average D, wavelength by wavelength, which is why a wash changes hue and RGB arithmetic cannot say how.
/// Good for dye inks soaked into or lying clear on paper; opaque paint is <see cref="OpaquePaint"/>.</para>
/// <para>D has 81 values and the ink's colour only three numbers. The rest comes from a prior of band-shaped absorptions: the members
/// that look most like the ink on this paper give a local mean and covariance, and of all densities the most probable one
/// that reproduces the colour is taken (maximum a posteriori, Gauss–Newton), held at or above 0. What remains open is kept as a covariance
/// and comes out as the uncertainty of every wash and mixture. Measured figures: docs/accuracy.md.</para></remarks>
public sealed class InkFilm
{
    private const int N = Spectrum.Count;
    private const int Neighbours = 150;

    /// <summary>Beyond this density a film lets nothing through that could be seen, so a colour says nothing about it.</summary>
    private const double Densest = 3.5;

    /// <summary>The least share of the paper's light that is believed of a swatch; below it a reading is noise.</summary>
    private const double DarkestRatio = 0.004;
    private const double Ln10 = 2.302585092994046;

    private readonly double[] density;
    private readonly double floor;
    private readonly double[]? covariance;

    private InkFilm(double[] density, double floor, double[]? covariance) =>
        (this.density, this.floor, this.covariance) = (density, floor, covariance);

    /// <summary>No ink at all.</summary>
    public static InkFilm None { get; } = new(new double[N], ColorantPrior.Floor, null);

    /// <summary>Double-pass optical density relative to the paper, 81 values, normally 0 to about 3.</summary>
    public Spectrum Density => Spectrum.Of(density);

    /// <summary>The film that gives a colour on a paper.</summary>
    /// <param name="ink">XYZ of the painted swatch under D65.</param>
    /// <param name="paper">The bare paper it is on.</param>
    /// <param name="reading">Covariance of the swatch's reading in XYZ; null for a colour taken as exact.</param>
    /// <remarks>A swatch lighter than its paper in some channel (a reading's noise, an opaque ink) gets densities a little below 0 there. A
    /// colour that no film gives is met as closely as one can: compare <see cref="On(Paper)"/> with what was asked.</remarks>
    public static InkFilm FromColour(Xyz ink, Paper paper, Covariance? reading = null)
    {
        ArgumentNullException.ThrowIfNull(paper);
        if (!double.IsFinite(ink.X + ink.Y + ink.Z))
            throw new ArgumentException("A colour is three finite numbers.", nameof(ink));
        var (mean, spread) = Local(Lab.FromXyz(ink), paper);
        var darkest = Math.Min(ink.X / paper.Colour.X, Math.Min(ink.Y / paper.Colour.Y, ink.Z / paper.Colour.Z));
        var surface = Math.Min(ColorantPrior.Floor, 0.6 * Math.Max(darkest, DarkestRatio));

        var x = (double[])mean.Clone();
        var jacobian = new double[3 * N];
        var carried = new double[3 * N];
        for (var round = 0; round < 3; round++)
        {
            var now = Look(x, surface, paper, jacobian);
            Span<double> want = [ink.X - now.X, ink.Y - now.Y, ink.Z - now.Z];
            for (var k = 0; k < 3; k++)
            {
                for (var i = 0; i < N; i++)
                    want[k] += jacobian[(k * N) + i] * (x[i] - mean[i]);
            }

            Carry(spread, jacobian, null, carried);
            if (!Gain(jacobian, carried, want))
                break;
            for (var i = 0; i < N; i++)
                x[i] = Math.Clamp(
                    mean[i] + (carried[i] * want[0]) + (carried[N + i] * want[1]) + (carried[(2 * N) + i] * want[2]),
                    0,
                    Densest
                );
        }

        if (!Close(x, ink, surface, paper, spread, jacobian, carried, lowest: 0))
            Close(x, ink, surface, paper, spread, jacobian, carried, lowest: -0.3);
        Look(x, surface, paper, jacobian);
        return new(x, surface, Remaining(spread, jacobian, carried, reading));
    }

    /// <summary>The film of one part of this ink thinned to a share.</summary>
    /// <param name="share">Share of ink in the whole, above 0 to 1; 0.25 is one part ink to three of water.</param>
    /// <exception cref="ArgumentOutOfRangeException">Outside that range.</exception>
    public InkFilm Wash(double share) =>
        share is > 0 and <= 1 ? Times(share) : throw new ArgumentOutOfRangeException(nameof(share), share, "Allowed: above 0 to 1.");

    /// <summary>The film of several coats, each as thick as this one.</summary>
    /// <param name="coats">1 to 20.</param>
    /// <exception cref="ArgumentOutOfRangeException">Outside that range.</exception>
    public InkFilm Coats(int coats) =>
        coats is >= 1 and <= 20 ? Times(coats) : throw new ArgumentOutOfRangeException(nameof(coats), coats, "Allowed: 1 to 20.");

    /// <summary>The film of the same colorant at another strength: less for a wash, more for a reduced ink or several coats.</summary>
    /// <param name="factor">Above 0, at most 100.</param>
    /// <exception cref="ArgumentOutOfRangeException">Outside that range.</exception>
    public InkFilm Strength(double factor) =>
        factor is > 0 and <= 100
            ? Times(factor)
            : throw new ArgumentOutOfRangeException(nameof(factor), factor, "Allowed: above 0 to 100.");

    /// <summary>The film of inks mixed by volume and painted as thick as each was.</summary>
    /// <param name="inks">Inks and their parts, each above 0.</param>
    /// <exception cref="ArgumentException">No ink, or a part that is not above 0.</exception>
    public static InkFilm Mix(IReadOnlyList<(InkFilm Ink, double Parts)> inks)
    {
        ArgumentNullException.ThrowIfNull(inks);
        double total = 0;
        foreach (var (_, parts) in inks)
        {
            if (!(parts > 0) || !double.IsFinite(parts))
                throw new ArgumentException("Parts are above 0.", nameof(inks));
            total += parts;
        }

        if (inks.Count == 0)
            throw new ArgumentException("A mixture needs an ink.", nameof(inks));
        var (mixed, surface) = (new double[N], 0.0);
        double[]? open = null;
        foreach (var (ink, parts) in inks)
        {
            var share = parts / total;
            surface += share * ink.floor;
            for (var i = 0; i < N; i++)
                mixed[i] += share * ink.density[i];
            if (ink.covariance is null)
                continue;
            open ??= new double[N * N];
            for (var i = 0; i < open.Length; i++)
                open[i] += share * share * ink.covariance[i];
        }

        return new(mixed, surface, open);
    }

    /// <summary>The colour of the film on a paper, XYZ under D65.</summary>
    public Xyz On(Paper paper)
    {
        ArgumentNullException.ThrowIfNull(paper);
        return Look(density, floor, paper, null);
    }

    /// <summary>The reflectance of the film on a paper.</summary>
    public Spectrum ReflectanceOn(Paper paper)
    {
        ArgumentNullException.ThrowIfNull(paper);
        var values = new double[N];
        for (var i = 0; i < N; i++)
            values[i] = paper.Reflectance.Values[i] * (floor + ((1 - floor) * Math.Exp(-Ln10 * density[i])));
        return Spectrum.Of(values);
    }

    /// <summary>The colour of the film on a paper, with how far it is open because three numbers do not fix a spectrum.</summary>
    public UncertainColour UncertainOn(Paper paper)
    {
        ArgumentNullException.ThrowIfNull(paper);
        var jacobian = new double[3 * N];
        var colour = Look(density, floor, paper, jacobian);
        if (covariance is null)
            return new(colour, default);
        var carried = new double[3 * N];
        Carry(covariance, jacobian, null, carried);
        double Entry(int j, int k) => System.Numerics.Tensors.TensorPrimitives.Dot(jacobian.AsSpan(j * N, N), carried.AsSpan(k * N, N));
        return new(colour, new(Entry(0, 0), Entry(0, 1), Entry(0, 2), Entry(1, 1), Entry(1, 2), Entry(2, 2)));
    }

    /// <summary>An ink thinned step by step on a paper: the colours of a row of washes, strongest first.</summary>
    /// <param name="paper">The paper.</param>
    /// <param name="shares">Shares of ink, each above 0 to 1.</param>
    public IReadOnlyList<(double Share, Xyz Colour)> Washes(Paper paper, IEnumerable<double> shares)
    {
        ArgumentNullException.ThrowIfNull(shares);
        return [.. shares.Select(share => (share, Wash(share).On(paper)))];
    }

    private InkFilm Times(double factor) =>
        factor == 1
            ? this
            : new(
                Array.ConvertAll(density, value => value * factor),
                floor,
                covariance is null ? null : Array.ConvertAll(covariance, value => value * factor * factor)
            );

    /// <summary>Mean and covariance of the members of the prior that look like a colour on a paper.</summary>
    private static (double[] Mean, double[] Covariance) Local(Lab wanted, Paper paper)
    {
        var members = paper.Members;
        var (distances, order) = (new double[members.Length], new int[members.Length]);
        for (var i = 0; i < members.Length; i++)
        {
            var (dl, da, db) = (members[i].L - wanted.L, members[i].A - wanted.A, members[i].B - wanted.B);
            distances[i] = (dl * dl) + (da * da) + (db * db);
            order[i] = i;
        }

        Array.Sort(distances, order);
        var scale = Math.Max(distances[Neighbours / 2], 4);
        var weights = new double[Neighbours];
        double total = 0;
        for (var i = 0; i < Neighbours; i++)
            total += weights[i] = Math.Exp(-0.5 * (distances[i] - distances[0]) / scale);
        var mean = new double[N];
        for (var k = 0; k < Neighbours; k++)
        {
            weights[k] /= total;
            var member = ColorantPrior.Density(order[k]);
            for (var i = 0; i < N; i++)
                mean[i] += weights[k] * member[i];
        }

        var spread = new double[N * N];
        var deviation = new double[N];
        for (var k = 0; k < Neighbours; k++)
        {
            var member = ColorantPrior.Density(order[k]);
            for (var i = 0; i < N; i++)
                deviation[i] = member[i] - mean[i];
            for (var i = 0; i < N; i++)
            {
                var factor = weights[k] * deviation[i];
                var row = spread.AsSpan(i * N, N);
                System.Numerics.Tensors.TensorPrimitives.MultiplyAdd(deviation, factor, row, row);
            }
        }

        // A little room of its own at every wavelength, so that the colour can be met even where all neighbours agree.
        for (var i = 0; i < N; i++)
            spread[(i * N) + i] += 1e-5;
        return (mean, spread);
    }

    private static Xyz Look(double[] density, double floor, Paper paper, double[]? jacobian)
    {
        double x = 0,
            y = 0,
            z = 0;
        for (var i = 0; i < N; i++)
        {
            var passed = (1 - floor) * Math.Exp(-Ln10 * density[i]);
            var t = floor + passed;
            x += paper.X[i] * t;
            y += paper.Y[i] * t;
            z += paper.Z[i] * t;
            if (jacobian is null)
                continue;
            jacobian[i] = -Ln10 * passed * paper.X[i];
            jacobian[N + i] = -Ln10 * passed * paper.Y[i];
            jacobian[(2 * N) + i] = -Ln10 * passed * paper.Z[i];
        }

        return new(x, y, z);
    }

    /// <summary>Covariance times the three columns of the Jacobian; wavelengths that are held take no part.</summary>
    private static void Carry(double[] covariance, double[] jacobian, bool[]? held, double[] carried)
    {
        var column = new double[N];
        for (var k = 0; k < 3; k++)
        {
            jacobian.AsSpan(k * N, N).CopyTo(column);
            if (held is not null)
            {
                for (var i = 0; i < N; i++)
                {
                    if (held[i])
                        column[i] = 0;
                }
            }

            for (var i = 0; i < N; i++)
                carried[(k * N) + i] =
                    held is not null && held[i] ? 0 : System.Numerics.Tensors.TensorPrimitives.Dot(covariance.AsSpan(i * N, N), column);
        }
    }

    /// <summary>Replaces the wanted change of XYZ by the weights of the carried columns that bring it about.</summary>
    private static bool Gain(double[] jacobian, double[] carried, Span<double> want)
    {
        var a = new double[9];
        for (var j = 0; j < 3; j++)
        {
            for (var k = 0; k < 3; k++)
                a[(j * 3) + k] = System.Numerics.Tensors.TensorPrimitives.Dot(jacobian.AsSpan(j * N, N), carried.AsSpan(k * N, N));
        }

        var b = want.ToArray();
        if (!LinearSystem.TrySolve(a, b) || !double.IsFinite(b[0] + b[1] + b[2]))
            return false;
        b.CopyTo(want);
        return true;
    }

    /// <summary>Small corrections along the prior's own directions until the colour is met, holding densities at the lowest
    /// allowed.</summary>
    private static bool Close(
        double[] x,
        Xyz ink,
        double floor,
        Paper paper,
        double[] spread,
        double[] jacobian,
        double[] carried,
        double lowest
    )
    {
        var held = new bool[N];
        for (var round = 0; round < 25; round++)
        {
            var now = Look(x, floor, paper, jacobian);
            Span<double> want = [ink.X - now.X, ink.Y - now.Y, ink.Z - now.Z];
            if (Math.Max(Math.Abs(want[0]), Math.Max(Math.Abs(want[1]), Math.Abs(want[2]))) < 1e-9)
                return true;
            Carry(spread, jacobian, held, carried);
            if (!Gain(jacobian, carried, want))
                return false;
            double longest = 0;
            for (var i = 0; i < N; i++)
                longest = Math.Max(
                    longest,
                    Math.Abs((carried[i] * want[0]) + (carried[N + i] * want[1]) + (carried[(2 * N) + i] * want[2]))
                );
            var limit = longest > 0.5 ? 0.5 / longest : 1;
            for (var i = 0; i < N; i++)
            {
                x[i] = Math.Min(
                    x[i] + (limit * ((carried[i] * want[0]) + (carried[N + i] * want[1]) + (carried[(2 * N) + i] * want[2]))),
                    Densest
                );
                if (x[i] >= lowest)
                    continue;
                x[i] = lowest;
                held[i] = true;
            }
        }

        return false;
    }

    /// <summary>Covariance of the density once the colour is known, and how the reading's own error adds to it.</summary>
    private static double[] Remaining(double[] spread, double[] jacobian, double[] carried, Covariance? reading)
    {
        Carry(spread, jacobian, null, carried);
        var rest = (double[])spread.Clone();
        var inverse = new double[3][];
        for (var k = 0; k < 3; k++)
        {
            Span<double> unit = [k == 0 ? 1 : 0, k == 1 ? 1 : 0, k == 2 ? 1 : 0];
            if (!Gain(jacobian, carried, unit))
                return rest;
            inverse[k] = unit.ToArray();
        }

        // G = C J (JᵀCJ)⁻¹, one row of three for each wavelength; rest = C − G (C J)ᵀ + G Σ Gᵀ.
        var gain = new double[3 * N];
        for (var i = 0; i < N; i++)
        {
            for (var k = 0; k < 3; k++)
                gain[(k * N) + i] =
                    (carried[i] * inverse[k][0]) + (carried[N + i] * inverse[k][1]) + (carried[(2 * N) + i] * inverse[k][2]);
        }

        for (var i = 0; i < N; i++)
        {
            for (var j = 0; j < N; j++)
            {
                double change = 0;
                for (var k = 0; k < 3; k++)
                    change -= gain[(k * N) + i] * carried[(k * N) + j];
                if (reading is { } error)
                {
                    change +=
                        (gain[i] * ((error.Xx * gain[j]) + (error.Xy * gain[N + j]) + (error.Xz * gain[(2 * N) + j])))
                        + (gain[N + i] * ((error.Xy * gain[j]) + (error.Yy * gain[N + j]) + (error.Yz * gain[(2 * N) + j])))
                        + (gain[(2 * N) + i] * ((error.Xz * gain[j]) + (error.Yz * gain[N + j]) + (error.Zz * gain[(2 * N) + j])));
                }

                rest[(i * N) + j] += change;
            }
        }

        return rest;
    }
}

using Dyewort.Colour;
using Dyewort.Numerics;

namespace Dyewort.Response;

/// <summary>Density of an ink film in three soft spectral bands (natural logarithm of paper over painted paper, light's double
/// pass).</summary>
/// <param name="Blue">Density below about 490 nm: what makes an ink yellow.</param>
/// <param name="Green">Density from about 490 to 580 nm: what makes an ink red or violet.</param>
/// <param name="Red">Density above about 580 nm: what makes an ink blue or green.</param>
/// <remarks>0 is bare paper; small negative values occur where noise makes a swatch lighter than its paper. No upper end; above about 6
/// the paper's surface light hides any change.</remarks>
public readonly record struct FilmDensity(double Blue, double Green, double Red)
{
    internal double this[int band] =>
        band switch
        {
            0 => Blue,
            1 => Green,
            _ => Red,
        };

    /// <summary>Films laid over each other, or parts of them poured together: densities add.</summary>
    public static FilmDensity operator +(FilmDensity one, FilmDensity other) =>
        new(one.Blue + other.Blue, one.Green + other.Green, one.Red + other.Red);

    /// <summary>What the first has beyond the second.</summary>
    public static FilmDensity operator -(FilmDensity one, FilmDensity other) =>
        new(one.Blue - other.Blue, one.Green - other.Green, one.Red - other.Red);

    /// <summary>So many times the film, or the share of it that a wash leaves.</summary>
    public static FilmDensity operator *(double factor, FilmDensity film) =>
        new(factor * film.Blue, factor * film.Green, factor * film.Red);

    /// <summary>The three bands, blue green red.</summary>
    internal double[] ToArray() => [Blue, Green, Red];

    /// <summary>The mean of at least one film.</summary>
    internal static FilmDensity Mean(IReadOnlyCollection<FilmDensity> films) =>
        new(films.Average(film => film.Blue), films.Average(film => film.Green), films.Average(film => film.Red));
}

/// <summary>One paper, and the way between a colour painted on it and the density of the film that made the colour.</summary>
/// <remarks>Reflectance is paper × (surface + (1 − surface) · exp(−Σ density_k · band_k)), Beer–Lambert [Swinehart1962] in three soft bands
/// that sum to one, weighted by the CIE 1931 observer under D65 from 400 to 700 nm. Density is what doses add up in; CIELAB is not. The
/// share of light that returns from the surface without passing the film is taken as 0.8 % (value from memory: gloss and gaps between
/// fibres keep real paintings from going blacker).</remarks>
public sealed class Film
{
    /// <summary>The bare paper that is assumed where none is stated: a warm white watercolour paper (common practice, no source).</summary>
    public static readonly Lab GuessedPaper = new(95.5, 0, 3.5);

    private const double Surface = 0.008;
    private const double MaxDensity = 12;
    private const double MinDensity = -3;
    private const int MostRounds = 80;

    /// <summary>Squared error in the cube roots of XYZ below which nothing is left to gain.</summary>
    private const double SmallestError = 1e-20;
    private readonly double[] weights;
    private Paper? spectral;

    /// <summary>The film on a paper.</summary>
    /// <param name="paper">The bare paper's colour, CIELAB D65; L* from 20 to 100.</param>
    /// <exception cref="ArgumentOutOfRangeException">The paper is darker than L* 20, or not a number.</exception>
    public Film(Lab paper)
    {
        if (!(paper.L is >= 20 and <= 105))
            throw new ArgumentOutOfRangeException(nameof(paper), paper, "A paper's L* lies between 20 and 100.");
        Paper = paper;
        var density = Solve(Bands.WhiteWeights, 0, paper.ToXyz()).Density;
        weights = new double[Bands.Count * 3];
        for (var i = 0; i < Bands.Count; i++)
        {
            var reflectance = Math.Exp(-Bands.Density(density, i));
            for (var k = 0; k < 3; k++)
                weights[(i * 3) + k] = Bands.WhiteWeights[(i * 3) + k] * reflectance;
        }
    }

    /// <summary>The bare paper's colour.</summary>
    public Lab Paper { get; }

    /// <summary>True where the paper's colour is a guess.</summary>
    public bool IsGuessed { get; init; }

    /// <summary>The same paper for films in full spectra.</summary>
    public Paper Spectral => spectral ??= Colour.Paper.TryOf(Paper.ToXyz()) ?? Colour.Paper.DrawingPaperGuess;

    /// <summary>The density that gives a colour on this paper.</summary>
    /// <remarks>Round trips with <see cref="ColourOf"/> to 1e-6 for colours that inks on paper have; a colour darker or more saturated than
    /// any film gives the nearest film: the search stalls there, and how it ended is not asked.</remarks>
    public FilmDensity DensityOf(Lab colour) => Solve(weights, Surface, colour.ToXyz()).Density;

    /// <summary>The colour of a film on this paper.</summary>
    public Lab ColourOf(FilmDensity film)
    {
        Span<double> xyz = stackalloc double[3];
        Forward(weights, Surface, film.Blue, film.Green, film.Red, xyz, default);
        return Lab.FromXyz(new Xyz(xyz[0], xyz[1], xyz[2]));
    }

    private static void Forward(
        double[] weights,
        double surface,
        double blue,
        double green,
        double red,
        Span<double> xyz,
        Span<double> slope
    )
    {
        xyz.Clear();
        slope.Clear();
        for (var i = 0; i < Bands.Count; i++)
        {
            var density = (blue * Bands.Shape[i * 3]) + (green * Bands.Shape[(i * 3) + 1]) + (red * Bands.Shape[(i * 3) + 2]);
            var pass = (1 - surface) * Math.Exp(-density);
            for (var k = 0; k < 3; k++)
            {
                var w = weights[(i * 3) + k];
                xyz[k] += w * (surface + pass);
                if (slope.IsEmpty)
                    continue;
                for (var j = 0; j < 3; j++)
                    slope[(k * 3) + j] -= w * pass * Bands.Shape[(i * 3) + j];
            }
        }
    }

    /// <summary>Damped Gauss–Newton in the cube roots of XYZ, so that a step means about the same for light and dark inks [Levenberg1944]
    /// [Marquardt1963].</summary>
    private static (FilmDensity Density, Ending Ending) Solve(double[] weights, double surface, Xyz target)
    {
        Span<double> goal = [Math.Cbrt(Math.Max(target.X, 0.01)), Math.Cbrt(Math.Max(target.Y, 0.01)), Math.Cbrt(Math.Max(target.Z, 0.01))];
        Span<double> at = [0.5, 0.5, 0.5];
        Span<double> trial = stackalloc double[3];
        Span<double> xyz = stackalloc double[3];
        Span<double> slope = stackalloc double[9];
        Span<double> residual = stackalloc double[3];
        Span<double> normal = stackalloc double[9];
        Span<double> step = stackalloc double[3];
        var damping = 1e-3;
        var error = double.PositiveInfinity;
        for (var round = 0; round < MostRounds; round++)
        {
            Forward(weights, surface, at[0], at[1], at[2], xyz, slope);
            error = 0;
            for (var k = 0; k < 3; k++)
            {
                var root = Math.Cbrt(xyz[k]);
                residual[k] = goal[k] - root;
                error += residual[k] * residual[k];
                for (var j = 0; j < 3; j++)
                    slope[(k * 3) + j] /= 3 * root * root;
            }

            if (error < SmallestError)
                return (new(at[0], at[1], at[2]), Ending.Converged);
            var moved = false;
            for (var attempt = 0; attempt < 12 && !moved; attempt++)
            {
                for (var i = 0; i < 3; i++)
                {
                    step[i] = 0;
                    for (var k = 0; k < 3; k++)
                        step[i] += slope[(k * 3) + i] * residual[k];
                    for (var j = 0; j < 3; j++)
                    {
                        var sum = 0.0;
                        for (var k = 0; k < 3; k++)
                            sum += slope[(k * 3) + i] * slope[(k * 3) + j];
                        normal[(i * 3) + j] = sum + (i == j ? damping * (sum + 1e-9) : 0);
                    }
                }

                NormalTriple.Solve(normal, step);
                for (var i = 0; i < 3; i++)
                    trial[i] = Math.Clamp(at[i] + Math.Clamp(step[i], -1.5, 1.5), MinDensity, MaxDensity);
                Forward(weights, surface, trial[0], trial[1], trial[2], xyz, default);
                var next = 0.0;
                for (var k = 0; k < 3; k++)
                    next += (goal[k] - Math.Cbrt(xyz[k])) * (goal[k] - Math.Cbrt(xyz[k]));
                if (next < error)
                {
                    moved = next < error * (1 - 1e-12);
                    trial.CopyTo(at);
                    damping = Math.Max(damping / 8, 1e-12);
                    break;
                }

                damping *= 6;
            }

            if (!moved)
                return (new(at[0], at[1], at[2]), Ending.Stalled);
        }

        return (new(at[0], at[1], at[2]), Ending.RoundLimit);
    }
}

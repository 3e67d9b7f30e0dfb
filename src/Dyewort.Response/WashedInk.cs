using Dyewort.Colour;

namespace Dyewort.Response;

/// <summary>Washes and mixtures beyond what was tested, by ink films in full spectra.</summary>
internal static class WashedInk
{
    private const int Seed = 88;

    // How far a paper nobody measured may lie from the guess, in L*, a*, b*: from brightened copy paper to natural rag (common practice, no source).
    private static readonly double[] PaperSpread = [1.2, 0.8, 3];

    /// <summary>Each likely colour thinned (or thickened) by a factor; the spectrum's and a guessed paper's share of doubt is added.</summary>
    public static ColourDraws Thin(ColourDraws draws, Film film, bool guessed, double factor)
    {
        var centre = film.DensityOf(draws.Centre);
        var plain = film.ColourOf(Times(centre, factor));
        var ink = InkFilm.FromColour(draws.Centre.ToXyz(), film.Spectral).Strength(Math.Clamp(factor, 0.001, 100)).UncertainOn(film.Spectral);
        return Moved(draws, colour => film.ColourOf(Times(film.DensityOf(colour), factor)), plain, ink, guessed ? Math.Min(1, Math.Abs(1 - factor)) : 0);
    }

    /// <summary>Inks mixed by volume, each keeping the dye as it is in its own jar.</summary>
    /// <param name="parts">Likely colours of each and its share; shares sum to one.</param>
    /// <param name="film">The paper all are painted on.</param>
    /// <param name="guessed">True where the paper's colour is a guess.</param>
    public static ColourDraws Mix(IReadOnlyList<(ColourDraws Draws, double Share)> parts, Film film, bool guessed)
    {
        Lab Plain(Func<ColourDraws, Lab> pick)
        {
            double blue = 0, green = 0, red = 0;
            foreach (var (part, share) in parts)
            {
                var density = film.DensityOf(pick(part));
                (blue, green, red) = (blue + (share * density.Blue), green + (share * density.Green), red + (share * density.Red));
            }

            return film.ColourOf(new(blue, green, red));
        }

        var ink = InkFilm.Mix([.. parts.Select(part => (InkFilm.FromColour(part.Draws.Centre.ToXyz(), film.Spectral), part.Share))]).UncertainOn(film.Spectral);
        var count = parts.Min(part => part.Draws.Colours.Length);

        // Neighbouring draws share a hyperparameter set; a stride keeps two inks from being wrong together by accident.
        var colours = Enumerable.Range(0, count).Select(i => Plain(draws => draws.Colours[draws == parts[0].Draws ? i : (i * 7) % count])).ToArray();
        var all = new ColourDraws(colours, parts.Max(part => part.Draws.Leaning), parts.Average(part => part.Draws.NoiseVariance));
        return Moved(all, colour => colour, Plain(draws => draws.Centre), ink, guessed ? 0.15 : 0);
    }

    private static FilmDensity Times(FilmDensity density, double factor) => new(density.Blue * factor, density.Green * factor, density.Red * factor);

    private static ColourDraws Moved(ColourDraws draws, Func<Lab, Lab> change, Lab plain, UncertainColour ink, double paperShare)
    {
        var lab = ink.LabCovariance();
        Span<double> factor = [lab.Xx, lab.Xy, lab.Xz, lab.Xy, lab.Yy, lab.Yz, lab.Xz, lab.Yz, lab.Zz];
        Scatter.Factor3(factor);
        var f = factor.ToArray();
        var random = new Normal(Seed);
        var target = ink.Lab;
        return new(Array.ConvertAll(draws.Colours, colour =>
        {
            var moved = change(colour);
            var (x, y, z) = (random.Next(), random.Next(), random.Next());
            return new Lab(
                moved.L + target.L - plain.L + (f[0] * x) + (paperShare * PaperSpread[0] * random.Next()),
                moved.A + target.A - plain.A + (f[3] * x) + (f[4] * y) + (paperShare * PaperSpread[1] * random.Next()),
                moved.B + target.B - plain.B + (f[6] * x) + (f[7] * y) + (f[8] * z) + (paperShare * PaperSpread[2] * random.Next()));
        }), draws.Leaning, draws.NoiseVariance);
    }
}

using Dyewort.Colour;
using Dyewort.Numerics;

namespace Dyewort.Response;

/// <summary>Washes and mixtures beyond what was tested, by ink films in full spectra.</summary>
internal static class WashedInk
{
    private const int Seed = 88;

    // How far a paper nobody measured may lie from the guess, in L*, a*, b*: natural rag is a little yellower, brightened paper up to seven
    // units bluer (common practice, no source; the white papers of the trials this was checked on lie between b* −4 and 6).
    private static readonly double[] PaperSpread = [1.2, 1.1, 4];

    /// <summary>Each likely colour thinned (or thickened) by a factor; the spectrum's and a guessed paper's share of doubt is
    /// added.</summary>
    public static ColourDraws Thin(ColourDraws draws, Film film, bool guessed, double factor)
    {
        var centre = film.DensityOf(draws.Centre);
        var plain = film.ColourOf(factor * centre);
        var ink = InkFilm
            .FromColour(draws.Centre.ToXyz(), film.Spectral)
            .Strength(Math.Clamp(factor, 0.001, 100))
            .UncertainOn(film.Spectral);
        var colours = Array.ConvertAll(draws.DensitiesOn(film), density => film.ColourOf(factor * density));
        return new(Moved(colours, plain, ink, guessed ? Math.Min(1, Math.Abs(1 - factor)) : 0), draws.PriorWeight, draws.NoiseVariance);
    }

    /// <summary>Inks mixed by volume, each keeping the dye as it is in its own jar.</summary>
    /// <param name="parts">Likely colours of each and its share; shares sum to one.</param>
    /// <param name="film">The paper all are painted on.</param>
    /// <param name="guessed">True where the paper's colour is a guess.</param>
    public static ColourDraws Mix(IReadOnlyList<(ColourDraws Draws, double Share)> parts, Film film, bool guessed)
    {
        Lab Mixed(Func<int, FilmDensity> ofPart)
        {
            var mixed = default(FilmDensity);
            for (var p = 0; p < parts.Count; p++)
                mixed += parts[p].Share * ofPart(p);
            return film.ColourOf(mixed);
        }

        var ink = InkFilm
            .Mix([.. parts.Select(part => (InkFilm.FromColour(part.Draws.Centre.ToXyz(), film.Spectral), part.Share))])
            .UncertainOn(film.Spectral);
        var count = parts.Min(part => part.Draws.Colours.Length);
        var densities = parts.Select(part => part.Draws.DensitiesOn(film)).ToArray();

        // Neighbouring draws share a hyperparameter set; a stride keeps two inks from being wrong together by accident.
        var colours = Enumerable.Range(0, count).Select(i => Mixed(p => densities[p][p == 0 ? i : i * 7 % count])).ToArray();
        var plain = Mixed(p => film.DensityOf(parts[p].Draws.Centre));
        return new(
            Moved(colours, plain, ink, guessed ? 0.15 : 0),
            parts.Max(part => part.Draws.PriorWeight),
            parts.Average(part => part.Draws.NoiseVariance)
        );
    }

    /// <summary>Colours by three bands carried to where full spectra put their centre, with the spectra's and the paper's share of
    /// doubt.</summary>
    private static Lab[] Moved(Lab[] colours, Lab plain, UncertainColour ink, double paperShare)
    {
        var lab = ink.LabCovariance();
        Span<double> factor = [lab.Xx, lab.Xy, lab.Xz, lab.Xy, lab.Yy, lab.Yz, lab.Xz, lab.Yz, lab.Zz];
        Cholesky.Factor3(factor);
        var f = factor.ToArray();
        var random = new NormalDraws(Seed);
        var target = ink.Lab;
        return Array.ConvertAll(
            colours,
            moved =>
            {
                var (l, a, b) = NormalTriple.Draw(f, random);
                return new Lab(
                    moved.L + target.L - plain.L + l + (paperShare * PaperSpread[0] * random.Next()),
                    moved.A + target.A - plain.A + a + (paperShare * PaperSpread[1] * random.Next()),
                    moved.B + target.B - plain.B + b + (paperShare * PaperSpread[2] * random.Next())
                );
            }
        );
    }
}

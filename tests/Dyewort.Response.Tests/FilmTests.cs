using CsCheck;
using Dyewort.Colour;

namespace Dyewort.Response.Tests;

public sealed class FilmTests
{
    [Fact]
    public void Bare_paper_has_no_density()
    {
        foreach (var paper in new[] { new Lab(95.5, 0, 3.5), new Lab(88, 2, 12), new Lab(97, 1, -5) })
        {
            var film = new Film(paper);
            var density = film.DensityOf(paper);
            Assert.Equal(0.008 * (Math.Exp(0) - 1), density.Blue, 0.001);
            Assert.Equal(0, density.Green, 0.001);
            Assert.Equal(0, density.Red, 0.001);
            Assert.Equal(0, Difference.Ciede2000(paper, film.ColourOf(new(0, 0, 0))), 0.02);
        }
    }

    [Fact]
    public void Density_and_colour_round_trip() =>
        Gen.Double[0.0, 4.0]
            .Array[3]
            .Sample(d =>
            {
                var film = new Film(Film.GuessedPaper);
                var there = film.ColourOf(new(d[0], d[1], d[2]));
                var back = film.ColourOf(film.DensityOf(there));
                Assert.True(Difference.Ciede2000(there, back) < 1e-4, $"{there} came back as {back}");
            });

    [Fact]
    public void Half_the_ink_has_half_the_density_and_lies_between()
    {
        var film = new Film(Film.GuessedPaper);
        var full = new Lab(40, 30, -20);
        var density = film.DensityOf(full);
        var half = film.ColourOf(0.5 * density);
        Assert.InRange(half.L, 55, 75);
        Assert.True(half.Chroma < full.Chroma);
    }

    [Fact]
    public void Films_add_and_scale_band_by_band()
    {
        var (one, other) = (new FilmDensity(1, 2, 4), new FilmDensity(0.25, 0.5, 3));
        Assert.Equal(new FilmDensity(1.25, 2.5, 7), one + other);
        Assert.Equal(new FilmDensity(0.75, 1.5, 1), one - other);
        Assert.Equal(new FilmDensity(0.5, 1, 2), 0.5 * one);
        Assert.Equal(new FilmDensity(0.625, 1.25, 3.5), FilmDensity.Mean([one, other]));
    }

    [Fact]
    public void A_black_beyond_any_ink_gives_a_finite_film()
    {
        var density = new Film(Film.GuessedPaper).DensityOf(new Lab(0, 0, 0));
        Assert.All(new[] { density.Blue, density.Green, density.Red }, value => Assert.InRange(value, 3, 12));
    }

    [Theory, InlineData(12), InlineData(0.6931471805599453), InlineData(2.302585092994046)]
    public void A_flat_film_dims_the_paper_by_its_density_but_for_what_the_surface_returns(double density)
    {
        // The bands sum to one, so equal densities are a grey filter: 0.8 % comes back from the surface, the rest passes the film.
        var paper = Film.GuessedPaper.ToXyz();
        var painted = new Film(Film.GuessedPaper).ColourOf(new(density, density, density)).ToXyz();
        var share = 0.008 + (0.992 * Math.Exp(-density));
        Assert.Equal(share, painted.X / paper.X, 1e-5);
        Assert.Equal(share, painted.Y / paper.Y, 1e-5);
        Assert.Equal(share, painted.Z / paper.Z, 1e-5);
    }

    [Fact]
    public void A_paper_darker_than_any_paper_is_an_error() =>
        Assert.Throws<ArgumentOutOfRangeException>(() => new Film(new Lab(10, 0, 0)));
}

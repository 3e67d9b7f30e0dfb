using CsCheck;
using Xunit;

namespace Dyewort.Colour.Tests;

public sealed class InkFilmTests
{
    private static readonly Paper White = Paper.Of(new Lab(95, -0.5, 3).ToXyz());

    /// <summary>Colours of one or two made-up bands over paper: every one of them can be an ink.</summary>
    private static readonly Gen<Xyz> Inks = Gen.Select(
        Gen.Double[400, 680],
        Gen.Double[50, 160],
        Gen.Double[0.1, 1.2],
        Gen.Double[0.0, 0.3],
        (centre, width, height, grey) =>
        {
            var values = new double[Spectrum.Count];
            for (var i = 0; i < values.Length; i++)
            {
                var distance = (Spectrum.Nanometres(i) - centre) / (width / 2.355);
                var density = 2 * ((height * Math.Exp(-0.5 * distance * distance)) + grey);
                values[i] = White.Reflectance.Values[i] * (0.012 + (0.988 * Math.Pow(10, -density)));
            }

            return Spectrum.Of(values).ToXyz();
        }
    );

    [Fact]
    public void An_estimated_film_gives_the_ink_back_and_stays_within_paper_and_floor() =>
        Inks.Sample(
            ink =>
            {
                var film = InkFilm.FromColour(ink, White);
                Data.Close(ink, film.On(White), 1e-6);
                foreach (var density in film.Density.Values)
                    Assert.InRange(density, 0, 3.5);
                foreach (var value in film.ReflectanceOn(White).Values)
                    Assert.InRange(value, 0, 1);
            },
            iter: 300
        );

    [Fact]
    public void A_wash_of_one_is_the_ink_itself_and_one_coat_too() =>
        Inks.Sample(
            ink =>
            {
                var film = InkFilm.FromColour(ink, White);
                Assert.Equal(film.On(White), film.Wash(1).On(White));
                Assert.Equal(film.On(White), film.Coats(1).On(White));
            },
            iter: 20
        );

    [Fact]
    public void A_weaker_wash_is_lighter_and_no_ink_is_the_paper() =>
        Inks.Sample(
            ink =>
            {
                var film = InkFilm.FromColour(ink, White);
                var washes = film.Washes(White, [1, 0.5, 0.25, 0.1, 0.001]);
                for (var i = 1; i < washes.Count; i++)
                    Assert.True(washes[i].Colour.Y >= washes[i - 1].Colour.Y);
                Assert.InRange(Difference.Ciede2000(Lab.FromXyz(washes[^1].Colour), Lab.FromXyz(White.Colour)), 0, 1);
                Assert.True(film.Coats(2).On(White).Y <= film.On(White).Y);
            },
            iter: 30
        );

    [Fact]
    public void Mixing_is_associative_and_does_not_mind_the_order() =>
        Gen.Select(Inks, Inks, Inks, Gen.Double[0.1, 5], Gen.Double[0.1, 5], Gen.Double[0.1, 5])
            .Sample(
                (a, b, c, p, q, r) =>
                {
                    var (x, y, z) = (InkFilm.FromColour(a, White), InkFilm.FromColour(b, White), InkFilm.FromColour(c, White));
                    var all = InkFilm.Mix([(x, p), (y, q), (z, r)]).On(White);
                    Data.Close(all, InkFilm.Mix([(InkFilm.Mix([(x, p), (y, q)]), p + q), (z, r)]).On(White), 1e-9);
                    Data.Close(all, InkFilm.Mix([(z, r), (x, p), (y, q)]).On(White), 1e-9);
                    Data.Close(x.On(White), InkFilm.Mix([(x, p), (x, q)]).On(White), 1e-9);
                },
                iter: 20
            );

    [Fact]
    public void The_true_wash_lies_within_the_stated_uncertainty_mostly()
    {
        // The same colour can come from many inks; a reading of the ink with its own error opens the wash further.
        var ink = new Lab(45, 25, -20).ToXyz();
        var exact = InkFilm.FromColour(ink, White);
        var read = InkFilm.FromColour(ink, White, UncertainColour.FromRadius(ink, 2).Covariance);
        Assert.Equal(0, exact.UncertainOn(White).Radius95De00(), 0.05);
        Assert.InRange(read.UncertainOn(White).Radius95De00(), 1.6, 2.4);
        Assert.InRange(exact.Wash(0.25).UncertainOn(White).Radius95De00(), 0.1, 5);
        Assert.True(read.Wash(0.25).UncertainOn(White).Radius95De00() > exact.Wash(0.25).UncertainOn(White).Radius95De00());
    }

    [Fact]
    public void A_swatch_darker_than_any_film_or_lighter_than_its_paper_still_gives_a_film()
    {
        foreach (var lab in new[] { new Lab(1, 0, 0), new Lab(99, 0, 0), new Lab(97, 2, -4), new Lab(30, 80, -90), new Lab(5, 20, -30) })
        {
            var film = InkFilm.FromColour(lab.ToXyz(), White);
            foreach (var density in film.Density.Values)
                Assert.True(double.IsFinite(density));
            Assert.True(double.IsFinite(film.Wash(0.5).On(White).Y));
        }
    }

    [Fact]
    public void Impossible_shares_are_our_mistake()
    {
        var film = InkFilm.FromColour(new Lab(50, 20, 10).ToXyz(), White);
        Assert.Throws<ArgumentOutOfRangeException>(() => film.Wash(0));
        Assert.Throws<ArgumentOutOfRangeException>(() => film.Wash(1.5));
        Assert.Throws<ArgumentOutOfRangeException>(() => film.Wash(double.NaN));
        Assert.Throws<ArgumentOutOfRangeException>(() => film.Coats(0));
        Assert.Throws<ArgumentException>(() => InkFilm.Mix([]));
        Assert.Throws<ArgumentException>(() => InkFilm.Mix([(film, 0)]));
        Assert.Throws<ArgumentException>(() => InkFilm.FromColour(new(double.NaN, 1, 1), White));
    }

    [Fact]
    public void Smoothest_reflectances_are_bounded_and_close() =>
        Gen.Select(Gen.Double[0.02, 0.98], Gen.Double[0.02, 0.98], Gen.Double[0.02, 0.98])
            .Sample(
                (r, g, b) =>
                {
                    var colour = RgbSpace.Srgb.ToXyz(new(r, g, b));
                    Assert.True(Reflectance.Smoothest("colour", colour).TryGet(out var spectrum));
                    foreach (var value in spectrum.Values)
                        Assert.InRange(value, 0, 1);
                    Data.Close(colour, spectrum.ToXyz(), 1e-6);
                },
                iter: 300
            );

    [Theory]
    [InlineData(100, 100, 100)]
    [InlineData(10, 90, 10)]
    [InlineData(double.NaN, 50, 50)]
    [InlineData(0, 0, 0)]
    public void What_no_surface_reflects_is_refused(double x, double y, double z) =>
        Assert.False(Reflectance.Smoothest("colour", new(x, y, z)).TryGet(out _));

    [Fact]
    public void A_single_paint_is_that_paint_and_mixing_paints_is_associative()
    {
        Assert.True(Reflectance.Smoothest("colour", Data.Colour("#8a3020")).TryGet(out var red));
        Assert.True(Reflectance.Smoothest("colour", Data.Colour("#20408a")).TryGet(out var blue));
        var (a, b) = (OpaquePaint.FromReflectance(red), OpaquePaint.FromReflectance(blue));
        for (var i = 0; i < Spectrum.Count; i++)
            Assert.Equal(red.Values[i], OpaquePaint.Mix([(a, 3)]).Reflectance.Values[i], 1e-12);
        var whole = OpaquePaint.Mix([(a, 2), (b, 1)]).Reflectance.ToXyz();
        Data.Close(whole, OpaquePaint.Mix([(OpaquePaint.Mix([(a, 1), (b, 1)]), 2), (a, 1)]).Reflectance.ToXyz(), 1e-9);
        Assert.InRange(whole.Y, Math.Min(red.ToXyz().Y, blue.ToXyz().Y) * 0.5, Math.Max(red.ToXyz().Y, blue.ToXyz().Y));
    }
}

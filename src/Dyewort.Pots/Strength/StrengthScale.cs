using Dyewort.Colour;
using Dyewort.Numerics;
using Dyewort.Quantities;

namespace Dyewort.Pots;

/// <summary>One drop, dip or swatch of a liquor on paper.</summary>
/// <param name="Name">What it is called, such as its minute.</param>
/// <param name="Colour">Its colour and how well it is known.</param>
/// <param name="Share">Share of liquor in what was painted, above 0 to 1; 0.25 is one part to three of water.</param>
public sealed record Painted(string Name, UncertainColour Colour, double Share = 1);

/// <summary>The strength of one drop.</summary>
/// <param name="Name">What it is called.</param>
/// <param name="Strength">Absorbance-like strength of what was painted.</param>
/// <param name="Uncertainty">Its standard deviation: reading and unknown spectrum.</param>
/// <param name="OffHueDe00">How far its colour lies from the row's own hue at that strength, ΔE₀₀.</param>
public sealed record DropStrength(string Name, double Strength, double Uncertainty, double OffHueDe00);

/// <summary>Turns the colours of one colourant on one paper into strengths that add and dilute in proportion.</summary>
/// <remarks>
/// Darkness on paper saturates; the density of the film does not. The film's spectrum is estimated from the row itself
/// (<see cref="InkFilm"/>), then every drop is placed on the line from bare paper through that film: its place is its strength.
/// Unit: the film's double-pass density, averaged over the eye's three channels (weights x̄, ȳ, z̄ under D65), so that one number stands
/// for yellow, red and black liquors alike; ratios do not depend on it. About 0.05 is a pale wash, 0.5 a full colour, above 1.5 hardly
/// anything can be told.
/// </remarks>
public sealed class StrengthScale
{
    private const double Most = 6;

    // What an unknown spectrum adds for every factor e of strength away from the drops it was learned from; found on measured and made-up
    // inks, docs/accuracy.md.
    private const double SpectrumOpen = 0.03;

    private readonly double[] density;
    private readonly double[] bare;
    private readonly double floor;
    private readonly double unit;

    private StrengthScale(InkFilm film, Paper paper)
    {
        density = film.Density.Values.ToArray();
        bare = paper.Reflectance.Values.ToArray();

        // Four hundred coats leave only what never passes the film.
        var deepest = film.Coats(20).Coats(20).ReflectanceOn(paper).Values;
        floor = 1;
        for (var i = 0; i < bare.Length; i++)
            floor = Math.Min(floor, deepest[i] / bare[i]);
        var seen = film.Density.ToXyz();
        var white = Spectrum.PerfectDiffuser.ToXyz();
        unit = ((seen.X / white.X) + (seen.Y / white.Y) + (seen.Z / white.Z)) / 3;
    }

    /// <summary>Learns the scale from the drops themselves.</summary>
    /// <param name="drops">At least one drop that can be told from the paper.</param>
    /// <param name="bare">The bare paper's colour.</param>
    /// <remarks>Many films look like one drop; most of them do not look like the others when thinned. Films of several drops, each also
    /// moved within its reading's uncertainty, are weighed by how well they explain the whole row.</remarks>
    public static Outcome<StrengthScale> Learn(IReadOnlyList<Painted> drops, Xyz bare)
    {
        if (Paper.TryOf(bare) is not { } paper)
            return Outcome.Refused<StrengthScale>("paper", "No paper can have that colour.", "Read the bare paper again, or leave it out.");
        if (drops.Count == 0)
            return Outcome.Refused<StrengthScale>("drops", "There are no drops.", "Give at least one.");
        if (drops.FirstOrDefault(drop => !double.IsFinite(drop.Colour.Colour.X + drop.Colour.Colour.Y + drop.Colour.Colour.Z)) is { } bad)
            return Outcome.Refused<StrengthScale>("drops", $"The colour of {bad.Name} is not three finite numbers.", "Read it again.");

        // The darkest drops show most of the spectrum, as long as some light still comes back in every channel.
        var ordered = drops.OrderByDescending(drop => Darkness(drop, bare)).ToList();
        if (Darkness(ordered[0], bare) < 0.01)
            return Outcome.Refused<StrengthScale>(
                "drops",
                "No drop can be told from the bare paper.",
                "Take darker drops, or check which colour is the paper's."
            );
        var shown = ordered.Where(drop => Darkness(drop, bare) is < 1.1 and > 0.03).ToList();
        if (shown.Count == 0)
            shown = [ordered[0]];

        var films = new List<InkFilm>();
        foreach (var drop in Spread(shown, 3))
        {
            var lab = drop.Colour.Lab;
            var sigma = drop.Colour.Radius95De00() / ThreeNormals.Radius95;
            films.Add(InkFilm.FromColour(drop.Colour.Colour, paper, drop.Colour.Covariance));
            if (drops.Count < 2)
                continue;
            foreach (var (dl, dc) in new[] { (-1.0, 0.0), (1, 0), (0, -1), (0, 1), (-1, -1) })
            {
                var factor = lab.Chroma > 1 ? 1 + (dc * 2 * sigma / lab.Chroma) : 1;
                var moved = new Lab(lab.L + (dl * sigma), lab.A * factor, lab.B * factor).ToXyz();
                films.Add(InkFilm.FromColour(moved, paper, drop.Colour.Covariance));
            }
        }

        var scales = films.Select(film => new StrengthScale(film, paper)).ToList();
        if (drops.Count < 2)
            return Outcome.Of(scales[0]);
        var misfits = scales.Select(scale => drops.Sum(drop => scale.Misfit(drop))).ToList();
        var least = misfits.Min();
        var parts = new List<(InkFilm Ink, double Parts)>();
        for (var i = 0; i < films.Count; i++)
        {
            var weight = Math.Exp(-0.5 * (misfits[i] - least));

            // Films of drops of different strength are brought to one scale before they are averaged.
            if (weight > 1e-3)
                parts.Add((Times(films[i], scales[0].unit / scales[i].unit), weight));
        }

        return Outcome.Of(new StrengthScale(InkFilm.Mix(parts), paper));
    }

    /// <summary>The strength of one drop of this colourant on this paper.</summary>
    public DropStrength Read(Painted drop)
    {
        var (place, off) = Place(drop.Colour.Lab);
        const double h = 0.01;
        var slope =
            Difference.Ciede2000(Lab.FromXyz(At(place + h)), Lab.FromXyz(At(Math.Max(0, place - h)))) / (place >= h ? 2 * h : place + h);
        var reading = drop.Colour.Radius95De00() / ThreeNormals.Radius95 / Math.Max(slope, 1e-3);
        var open = SpectrumOpen * place * Math.Abs(Math.Log(Math.Max(place, 0.01)));
        return new(drop.Name, place * unit, Math.Sqrt((reading * reading) + (open * open)) * unit, off);
    }

    private static double Darkness(Painted drop, Xyz bare)
    {
        var ink = drop.Colour.Colour;
        return -Math.Log10(Math.Max(1e-3, Math.Min(ink.X / bare.X, Math.Min(ink.Y / bare.Y, ink.Z / bare.Z))));
    }

    /// <summary>So many of a list, evenly from its first to its last.</summary>
    private static IEnumerable<Painted> Spread(List<Painted> all, int count) =>
        all.Count <= count ? all : Enumerable.Range(0, count).Select(i => all[(int)Math.Round(i * (all.Count - 1.0) / count)]).Distinct();

    private static InkFilm Times(InkFilm ink, double factor)
    {
        var coats = Math.Clamp((int)Math.Ceiling(factor), 1, 20);
        return ink.Coats(coats).Wash(Math.Clamp(factor / coats, 1e-6, 1));
    }

    private Xyz At(double place)
    {
        var values = new double[bare.Length];
        for (var i = 0; i < values.Length; i++)
            values[i] = bare[i] * (floor + ((1 - floor) * Math.Pow(10, -place * density[i])));
        return Spectrum.Of(values).ToXyz();
    }

    /// <summary>Squared distance of a drop from the row's line, in units of its uncertainty and of half a ΔE₀₀ that no model
    /// removes.</summary>
    private double Misfit(Painted drop)
    {
        var off = Place(drop.Colour.Lab).OffDe00;
        var sigma = drop.Colour.Radius95De00() / ThreeNormals.Radius95;
        return off * off / ((sigma * sigma) + 0.25);
    }

    /// <summary>Where on the line from paper through the film a colour lies, and how far beside it.</summary>
    private (double Place, double OffDe00) Place(Lab lab)
    {
        double Off(double place) => Difference.Ciede2000(lab, Lab.FromXyz(At(place)));

        // The nearest colour on the line: coarse steps, then golden section.
        var (best, least) = (0.0, Off(0));
        for (var step = 1; step <= 40; step++)
        {
            var place = Math.Pow(step / 40.0, 3) * Most;
            var off = Off(place);
            if (off < least)
                (best, least) = (place, off);
        }

        var (low, high) = (Math.Max(0, best - (0.3 * best) - 0.01), best + (0.3 * best) + 0.01);
        var golden = (Math.Sqrt(5) - 1) / 2;
        for (var step = 0; step < 24; step++)
        {
            var (left, right) = (high - (golden * (high - low)), low + (golden * (high - low)));
            if (Off(left) < Off(right))
                high = right;
            else
                low = left;
        }

        return ((low + high) / 2, Off((low + high) / 2));
    }
}

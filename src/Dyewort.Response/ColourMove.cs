using Dyewort.Colour;
using Dyewort.Numerics;

namespace Dyewort.Response;

/// <summary>What an addition does to a colour, in the words of the trade.</summary>
public static class ColourMove
{
    private const double Shown = 2;

    /// <summary>Less than this share of the chroma that more of the same ink would have is greyer to the eye (common practice, no
    /// source).</summary>
    private const double Dulled = 0.85;
    private static readonly Film White = new(Film.GuessedPaper);

    /// <summary>Describes the way from one colour to another: “redder, darker, greyer”, strongest first; “hardly changed” where nothing
    /// shows.</summary>
    /// <param name="from">The colour before, CIELAB D65.</param>
    /// <param name="to">The colour after.</param>
    /// <remarks>Directions are CIELAB's own: a* to red or green, b* to yellow or blue, L*, and chroma to or from grey. A direction is named
    /// from 2 units on, and from a third of the longest one (common practice, no source). A colour that arrives in another hue is named by
    /// it: “turns blue-green”. A pale ink that darkens gains chroma by its depth alone: where more of the same ink would have gained
    /// clearly more, it is called greyer for its depth.</remarks>
    public static string Describe(Lab from, Lab to)
    {
        if (Difference.Ciede2000(from, to) < 1)
            return "hardly changed";
        var (dl, da, db, dc) = (to.L - from.L, to.A - from.A, to.B - from.B, to.Chroma - from.Chroma);
        var longest = Math.Max(Math.Max(Math.Abs(dl), Math.Abs(dc)), Math.Max(Math.Abs(da), Math.Abs(db)));
        var words = new List<(double Size, string Text)>();
        void Add(double step, string more, string less)
        {
            if (Math.Abs(step) >= Math.Max(Shown, longest / 3))
                words.Add((Math.Abs(step), step > 0 ? more : less));
        }

        Add(dl, "lighter", "darker");

        // Towards grey, a* and b* shrink by themselves: that is one move, not three.
        var kept = from.Chroma > 0 && dc < 0 ? to.Chroma / from.Chroma : 1;
        Add(to.A - (kept * from.A), "redder", "greener");
        Add(to.B - (kept * from.B), "yellower", "bluer");
        if (dl <= -Shown && dc > 0 && to.Chroma < Dulled * AsDark(from, to.L).Chroma)
            Add(-dl, "greyer for its depth", "");
        else
            Add(dc, "stronger", "greyer");
        var said =
            words.Count == 0
                ? "a little different"
                : string.Join(", ", words.OrderByDescending(word => word.Size).Select(word => word.Text));
        var hue = Hue(to);
        return hue.Length > 0 && hue != Hue(from) && Difference.Ciede2000(from, to) >= 5 ? $"{said}: turns {hue}" : said;
    }

    /// <summary>The colour that more of the same ink has where it is as dark as that.</summary>
    /// <remarks>How the halving ended is not asked: where no more of it is as dark, the most that was tried is meant.</remarks>
    private static Lab AsDark(Lab ink, double lightness)
    {
        var film = White.DensityOf(ink);
        return White.ColourOf(Bisection.Narrow(1, 50, 0, factor => White.ColourOf(factor * film).L > lightness, rounds: 30).Low * film);
    }

    /// <summary>The plain name of a hue; empty next to grey. Borders roughly where CIELAB has them (from memory).</summary>
    private static string Hue(Lab colour) =>
        colour.Chroma < 5
            ? ""
            : colour.HueDegrees switch
            {
                < 45 => "red",
                < 70 => "orange to brown",
                < 105 => "yellow",
                < 140 => "yellow-green",
                < 185 => "green",
                < 235 => "blue-green",
                < 290 => "blue",
                < 325 => "violet",
                _ => "purple",
            };
}

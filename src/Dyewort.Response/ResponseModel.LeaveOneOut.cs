using Dyewort.Colour;
using Dyewort.Numerics;

namespace Dyewort.Response;

public sealed partial class ResponseModel
{
    /// <summary>Every reading foretold from the other samples.</summary>
    public LeaveOneOut LeaveOneOut()
    {
        var colours = Array.ConvertAll(rows, _ => new List<Lab>());
        var read = Array.ConvertAll(rows, _ => new List<Lab>());
        var random = new NormalDraws(Seed);
        Span<double> own = stackalloc double[9];
        Span<double> noise = stackalloc double[9];
        var groups = Enumerable
            .Range(0, rows.Length)
            .GroupBy(i => (rows[i].Point.Pot, rows[i].Point.Sample))
            .Select(group => group.ToArray())
            .ToArray();
        if (groups.Length == 1)
            groups = [.. Enumerable.Range(0, rows.Length).Select(i => new[] { i })];
        foreach (var one in ensemble)
        {
            var inverse = one.Inverse();
            foreach (var group in groups)
            {
                var size = 3 * group.Length;
                var (mean, covariance) = (new double[size], new double[size * size]);
                one.LeaveOut(group, inverse, mean, covariance);
                for (var r = 0; r < group.Length; r++)
                {
                    for (var e = 0; e < 9; e++)
                        own[e] = covariance[(((3 * r) + (e / 3)) * size) + (3 * r) + (e % 3)];
                    Cholesky.Factor3(own);
                    Widen(own, rows.Length - group.Length);
                    var film = FilmOf(rows[group[r]].Point.Paper);
                    for (var draw = 0; draw < Draws; draw++)
                    {
                        var d = NormalTriple.Draw(mean.AsSpan(3 * r, 3), own, random);
                        colours[group[r]].Add(film.ColourOf(d));
                        if (draw == 0)
                        {
                            Scatter.InDensity(film, d, noise);
                            for (var e = 0; e < 9; e++)
                                noise[e] *= one.NoiseVariance * scatter.Times(rows[group[r]]);
                            Cholesky.Factor3(noise);
                        }

                        read[group[r]].Add(film.ColourOf(NormalTriple.Draw(d.ToArray(), noise, random)));
                    }
                }
            }
        }

        return new([
            .. rows.Select(
                (row, i) =>
                {
                    var painted = new ColourDraws([.. colours[i]], 0, 0);
                    var off = Difference.Ciede2000(painted.Centre, row.Colour);
                    var distances = read[i].Select(colour => Difference.Ciede2000(painted.Centre, colour)).Order().ToArray();
                    var reach = distances[(int)(0.95 * distances.Length)];
                    return new LeftOut(row, painted.Centre, painted.Radius(0.95), reach, off, off <= reach);
                }
            ),
        ]);
    }
}

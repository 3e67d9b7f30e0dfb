using Dyewort.Readings;

namespace Dyewort.Imaging;

/// <summary>An even, compact area of a picture: a patch of a card, perhaps.</summary>
internal sealed record EvenArea(double X, double Y, double Size, IReadOnlyList<(double X, double Y)> Hull);

/// <summary>Even areas that lie like the points of a grid seen in perspective.</summary>
/// <param name="At">The area at each place of the grid: column along the first direction, row along the second, clockwise from it.</param>
/// <param name="Map">Columns and rows to pixels of the reduced picture; the middle of a patch has whole numbers.</param>
internal sealed record PatchGrid(IReadOnlyDictionary<(int U, int V), EvenArea> At, Homography Map);

/// <summary>Finds regular grids and rows of even areas.</summary>
internal static class PatchGrids
{
    private const int MostAreas = 900;
    private static readonly (int U, int V)[] Sides = [(1, 0), (-1, 0), (0, 1), (0, -1)];

    /// <summary>Even, compact areas of a picture.</summary>
    /// <param name="picture">The picture.</param>
    /// <param name="steep">A slope from which on two pixels do not belong together.</param>
    /// <param name="isOutside">Places that may hold patches.</param>
    public static IReadOnlyList<EvenArea> Areas(ColourPicture picture, float[] slopes, double steep, Func<double, double, bool> isOutside)
    {
        var flat = new bool[slopes.Length];
        for (var i = 0; i < flat.Length; i++)
            flat[i] = slopes[i] < steep;
        var areas = new List<EvenArea>();
        foreach (var region in Regions.Of(flat, picture.Width, picture.Height).All)
        {
            if (region.TouchesRim || region.Area < 20 || region.Area > 0.04 * flat.Length || !isOutside(region.X, region.Y))
                continue;
            var hull = Regions.Hull(region.Places.Select(place => ((double)(place % picture.Width), (double)(place / picture.Width))));
            if (hull.Count < 4)
                continue;
            var hullArea = Regions.AreaOf(hull);
            var longest = hull.Max(p => hull.Max(q => ((p.X - q.X) * (p.X - q.X)) + ((p.Y - q.Y) * (p.Y - q.Y))));
            if (region.Area < 0.8 * hullArea || hullArea < 0.2 * longest)
                continue;
            areas.Add(new(region.X, region.Y, Math.Sqrt(region.Area), hull));
        }

        return [.. areas.OrderByDescending(area => area.Size).Take(MostAreas)];
    }

    /// <summary>Grids with at least so many areas in place, the fullest first.</summary>
    public static IReadOnlyList<PatchGrid> Grids(IReadOnlyList<EvenArea> areas, int least)
    {
        var grids = new List<PatchGrid>();
        var used = new HashSet<EvenArea>();
        foreach (var seed in areas)
        {
            if (used.Contains(seed))
                continue;
            var near = Neighbours(areas, seed);
            PatchGrid? best = null;
            foreach (var first in near)
            {
                foreach (var second in near)
                {
                    var (ax, ay, bx, by) = (first.X - seed.X, first.Y - seed.Y, second.X - seed.X, second.Y - seed.Y);
                    var (la, lb) = (Math.Sqrt((ax * ax) + (ay * ay)), Math.Sqrt((bx * bx) + (by * by)));
                    if (((ax * by) - (ay * bx)) / (la * lb) < 0.7 || la / lb is < 0.6 or > 1.65)
                        continue;
                    var found = Spread(areas, seed, (ax, ay), (bx, by));
                    if (
                        found.Count >= least
                        && (best is null || found.Count > best.At.Count)
                        && Fitted(areas, found) is { } grid
                        && grid.At.Count >= least
                    )
                        best = grid;
                }
            }

            if (best is null)
                continue;
            grids.Add(best);
            used.UnionWith(best.At.Values);
        }

        return [.. grids.OrderByDescending(grid => grid.At.Count)];
    }

    /// <summary>Straight rows of exactly so many areas, the ends free.</summary>
    public static IReadOnlyList<PatchGrid> Rows(IReadOnlyList<EvenArea> areas, int count)
    {
        var rows = new List<PatchGrid>();
        foreach (var first in areas)
        {
            foreach (var second in Neighbours(areas, first))
            {
                if (Near(areas, (2 * first.X) - second.X, (2 * first.Y) - second.Y, first) is not null)
                    continue;
                var row = new List<EvenArea> { first, second };
                while (
                    row.Count <= count
                    && Near(areas, (2 * row[^1].X) - row[^2].X, (2 * row[^1].Y) - row[^2].Y, row[^1]) is { } next
                    && !row.Contains(next)
                )
                    row.Add(next);
                if (row.Count == count && RowMap(row) is { } map)
                    rows.Add(new(row.Select((area, i) => (area, i)).ToDictionary(pair => (pair.i, 0), pair => pair.area), map));
            }
        }

        return rows;
    }

    private static List<EvenArea> Neighbours(IReadOnlyList<EvenArea> areas, EvenArea seed) =>
        [
            .. areas
                .Where(area => area != seed && Alike(area, seed))
                .Select(area => (Area: area, Far: Far(area, seed.X, seed.Y)))
                .Where(pair => pair.Far > 0.85 * seed.Size && pair.Far < 2.3 * seed.Size)
                .OrderBy(pair => pair.Far)
                .Take(8)
                .Select(pair => pair.Area),
        ];

    private static bool Alike(EvenArea one, EvenArea other) => one.Size / other.Size is > 0.6 and < 1.65;

    private static double Far(EvenArea area, double x, double y) =>
        Math.Sqrt(((area.X - x) * (area.X - x)) + ((area.Y - y) * (area.Y - y)));

    private static EvenArea? Near(IReadOnlyList<EvenArea> areas, double x, double y, EvenArea like)
    {
        var best = areas.Where(area => Alike(area, like)).MinBy(area => Far(area, x, y));
        return best is not null && Far(best, x, y) < 0.35 * like.Size ? best : null;
    }

    /// <summary>Walks from area to area, each step like the one before it.</summary>
    private static Dictionary<(int U, int V), EvenArea> Spread(
        IReadOnlyList<EvenArea> areas,
        EvenArea seed,
        (double X, double Y) u,
        (double X, double Y) v
    )
    {
        var at = new Dictionary<(int U, int V), EvenArea> { [(0, 0)] = seed };
        var taken = new HashSet<EvenArea> { seed };
        var queue = new Queue<((int U, int V) Place, (double X, double Y) U, (double X, double Y) V)>();
        queue.Enqueue(((0, 0), u, v));
        while (queue.TryDequeue(out var now))
        {
            var here = at[now.Place];
            foreach (var (du, dv) in Sides)
            {
                var next = (now.Place.U + du, now.Place.V + dv);
                if (at.ContainsKey(next) || Math.Abs(next.Item1) > 40 || Math.Abs(next.Item2) > 40)
                    continue;
                var (x, y) = ((du * now.U.X) + (dv * now.V.X), (du * now.U.Y) + (dv * now.V.Y));
                if (Near(areas, here.X + x, here.Y + y, here) is not { } found || !taken.Add(found))
                    continue;
                at[next] = found;
                (double X, double Y) step = (du + dv) * 1.0 is var sign ? (sign * (found.X - here.X), sign * (found.Y - here.Y)) : default;

                // The step just taken is what the next one is like, half believed.
                queue.Enqueue(
                    (
                        next,
                        du != 0 ? ((now.U.X + step.X) / 2, (now.U.Y + step.Y) / 2) : now.U,
                        dv != 0 ? ((now.V.X + step.X) / 2, (now.V.Y + step.Y) / 2) : now.V
                    )
                );
            }
        }

        return at;
    }

    /// <summary>One perspective for the whole grid; what does not lie on it is left out, what does is taken in.</summary>
    private static PatchGrid? Fitted(IReadOnlyList<EvenArea> areas, Dictionary<(int U, int V), EvenArea> found)
    {
        Homography? map = null;
        for (var round = 0; round < 3; round++)
        {
            if (found.Keys.Select(place => place.U).Distinct().Count() < 2 || found.Keys.Select(place => place.V).Distinct().Count() < 2)
                return null;
            map = Homography.Fit(
                [.. found.Keys.Select(place => new PointMm(place.U, place.V))],
                [.. found.Values.Select(area => new PointPx(area.X, area.Y))]
            );
            if (map is null)
                return null;
            var (u0, u1, v0, v1) = (found.Keys.Min(p => p.U), found.Keys.Max(p => p.U), found.Keys.Min(p => p.V), found.Keys.Max(p => p.V));
            var usual = found.Values.Select(area => area.Size).Order().ElementAt(found.Count / 2);
            var next = new Dictionary<(int U, int V), EvenArea>();
            for (var u = u0 - 1; u <= u1 + 1; u++)
            {
                for (var v = v0 - 1; v <= v1 + 1; v++)
                {
                    var p = map.Map(u, v);
                    if (!double.IsFinite(p.X + p.Y))
                        continue;
                    var nearest = areas.MinBy(area => Far(area, p.X, p.Y))!;
                    if (Far(nearest, p.X, p.Y) < 0.2 * usual && nearest.Size / usual is > 0.5 and < 2)
                        next[(u, v)] = nearest;
                }
            }

            if (next.Count < 4)
                return null;
            found = next;
        }

        return new(found, map!);
    }

    /// <summary>A row has no second direction: the sides of its patches give it.</summary>
    private static Homography? RowMap(List<EvenArea> row)
    {
        var (first, last) = (row[0], row[^1]);
        var length = Far(first, last.X, last.Y);
        var (nx, ny) = (-(last.Y - first.Y) / length, (last.X - first.X) / length);
        (double Low, double High) Reach(EvenArea area) =>
            (
                area.Hull.Min(p => ((p.X - area.X) * nx) + ((p.Y - area.Y) * ny)),
                area.Hull.Max(p => ((p.X - area.X) * nx) + ((p.Y - area.Y) * ny))
            );
        var from = new List<PointMm>();
        var to = new List<PointPx>();
        for (var i = 0; i < row.Count; i++)
        {
            var (low, high) = Reach(row[i]);

            // An edge takes about a pixel off each side of an even area.
            from.Add(new(i, -0.5));
            to.Add(new(row[i].X + (nx * (low - 1)), row[i].Y + (ny * (low - 1))));
            from.Add(new(i, 0.5));
            to.Add(new(row[i].X + (nx * (high + 1)), row[i].Y + (ny * (high + 1))));
        }

        return
            Homography.Fit(from, to) is { } map
            && row.Select((area, i) => Far(area, map.Map(i, 0).X, map.Map(i, 0).Y)).Max() < 0.2 * first.Size
            ? map
            : null;
    }
}

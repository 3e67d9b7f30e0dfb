namespace Dyewort.Imaging;

/// <summary>One connected area of a mask.</summary>
internal sealed class Region
{
    public required int Label { get; init; }

    public required IReadOnlyList<int> Places { get; init; }

    public required double X { get; init; }

    public required double Y { get; init; }

    public required bool TouchesRim { get; init; }

    public int Area => Places.Count;
}

/// <summary>Connected areas of a mask, row by row, neighbours above, below, left and right.</summary>
internal sealed class Regions
{
    private Regions(int[] labels, IReadOnlyList<Region> all) => (Labels, All) = (labels, all);

    /// <summary>0 outside of the mask, else the number of the area, from 1.</summary>
    public int[] Labels { get; }

    public IReadOnlyList<Region> All { get; }

    public static Regions Of(bool[] mask, int width, int height)
    {
        var labels = new int[mask.Length];
        var all = new List<Region>();
        var stack = new Stack<int>();
        for (var start = 0; start < mask.Length; start++)
        {
            if (!mask[start] || labels[start] != 0)
                continue;
            var label = all.Count + 1;
            var places = new List<int>();
            double sumX = 0,
                sumY = 0;
            var rim = false;
            labels[start] = label;
            stack.Push(start);
            while (stack.TryPop(out var place))
            {
                places.Add(place);
                var (x, y) = (place % width, place / width);
                sumX += x;
                sumY += y;
                rim |= x == 0 || y == 0 || x == width - 1 || y == height - 1;
                if (x > 0)
                    Visit(place - 1);
                if (x < width - 1)
                    Visit(place + 1);
                if (y > 0)
                    Visit(place - width);
                if (y < height - 1)
                    Visit(place + width);
            }

            all.Add(
                new()
                {
                    Label = label,
                    Places = places,
                    X = sumX / places.Count,
                    Y = sumY / places.Count,
                    TouchesRim = rim,
                }
            );

            void Visit(int place)
            {
                if (!mask[place] || labels[place] != 0)
                    return;
                labels[place] = label;
                stack.Push(place);
            }
        }

        return new(labels, all);
    }

    /// <summary>Grown by a pixel on all four sides, as often as asked.</summary>
    public static bool[] Grown(bool[] mask, int width, int height, int times)
    {
        for (var round = 0; round < times; round++)
        {
            var next = (bool[])mask.Clone();
            for (var y = 0; y < height; y++)
            {
                for (var x = 0; x < width; x++)
                {
                    var place = (y * width) + x;
                    if (!mask[place])
                        continue;
                    if (x > 0)
                        next[place - 1] = true;
                    if (x < width - 1)
                        next[place + 1] = true;
                    if (y > 0)
                        next[place - width] = true;
                    if (y < height - 1)
                        next[place + width] = true;
                }
            }

            mask = next;
        }

        return mask;
    }

    /// <summary>Shrunk by a pixel on all four sides, as often as asked; beyond the picture counts as inside.</summary>
    public static bool[] Shrunk(bool[] mask, int width, int height, int times)
    {
        var outside = Grown([.. mask.Select(value => !value)], width, height, times);
        return [.. outside.Select(value => !value)];
    }

    /// <summary>The convex outline of points, clockwise as seen on a screen.</summary>
    public static IReadOnlyList<(double X, double Y)> Hull(IEnumerable<(double X, double Y)> points)
    {
        var sorted = points.Distinct().OrderBy(p => p.X).ThenBy(p => p.Y).ToArray();
        if (sorted.Length < 3)
            return sorted;
        var hull = new List<(double X, double Y)>();
        for (var pass = 0; pass < 2; pass++)
        {
            var floor = hull.Count;
            foreach (var point in pass == 0 ? sorted : sorted.Reverse())
            {
                while (hull.Count >= floor + 2 && Cross(hull[^2], hull[^1], point) <= 0)
                    hull.RemoveAt(hull.Count - 1);
                hull.Add(point);
            }

            hull.RemoveAt(hull.Count - 1);
        }

        return hull;
    }

    /// <summary>Area of an outline.</summary>
    public static double AreaOf(IReadOnlyList<(double X, double Y)> outline)
    {
        double sum = 0;
        for (var i = 0; i < outline.Count; i++)
        {
            var (a, b) = (outline[i], outline[(i + 1) % outline.Count]);
            sum += (a.X * b.Y) - (b.X * a.Y);
        }

        return Math.Abs(sum) / 2;
    }

    /// <summary>The outline with at most so many corners: the one that takes the least area with it goes first.</summary>
    public static IReadOnlyList<(double X, double Y)> Simplified(IReadOnlyList<(double X, double Y)> outline, int most)
    {
        var left = outline.ToList();
        while (left.Count > most)
        {
            var least = Enumerable
                .Range(0, left.Count)
                .MinBy(i => Math.Abs(Cross(left[(i + left.Count - 1) % left.Count], left[i], left[(i + 1) % left.Count])));
            left.RemoveAt(least);
        }

        return left;
    }

    private static double Cross((double X, double Y) o, (double X, double Y) a, (double X, double Y) b) =>
        ((a.X - o.X) * (b.Y - o.Y)) - ((a.Y - o.Y) * (b.X - o.X));
}

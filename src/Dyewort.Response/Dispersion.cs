using System.Numerics;

namespace Dyewort.Response;

/// <summary>What a search for a selection found.</summary>
/// <param name="Chosen">Places of the chosen items, ascending.</param>
/// <param name="Value">The quantity that was made as large (or as small) as possible.</param>
/// <param name="Bound">No selection does better than this; equals <paramref name="Value"/> when <paramref name="Optimal"/>.</param>
/// <param name="Optimal">True where the search proved that nothing better exists.</param>
public sealed record Selection(IReadOnlyList<int> Chosen, double Value, double Bound, bool Optimal);

/// <summary>How many items of each group may be chosen.</summary>
/// <param name="Group">The group of each item, from 0.</param>
/// <param name="Most">The most of each group, at least 0.</param>
public sealed record Quota(IReadOnlyList<int> Group, IReadOnlyList<int> Most)
{
    /// <summary>How many items can be chosen in all.</summary>
    public int Room => Enumerable.Range(0, Most.Count).Sum(group => Math.Min(Most[group], Group.Count(one => one == group)));

    internal static Quota None(int items) => new(new int[items], [items]);

    internal bool Allows(List<int> chosen, int item) => chosen.Count(one => Group[one] == Group[item]) < Most[Group[item]];

    internal bool Keeps(List<int> chosen) => chosen.TrueForAll(item => chosen.Count(one => Group[one] == Group[item]) <= Most[Group[item]]);
}

/// <summary>Choosing a few of many: as different from each other as possible, or as near to a palette as possible. Exact for a few
/// hundred.</summary>
public static class Dispersion
{
    /// <summary>The k items whose smallest mutual distance is largest.</summary>
    /// <param name="distance">Symmetric n × n distances, any unit, at least 0.</param>
    /// <param name="k">2 to n.</param>
    /// <param name="cancel">Ends the search early; what was found is returned with the bound proved so far.</param>
    /// <remarks>A set with mutual distances of at least t is a clique of the graph of all pairs that far apart, so the answer is the
    /// largest t whose graph still has a clique of size k. Greedy sets [Gonzalez1985] improved by exchanges give a start; thresholds above
    /// it are halved, each decided by a branch and bound that prunes with greedy colourings on bit sets [TomitaSeki2003].</remarks>
    /// <exception cref="ArgumentOutOfRangeException">k outside 2 to n.</exception>
    public static Selection Farthest(double[,] distance, int k, CancellationToken cancel = default) =>
        Farthest(distance, k, Quota.None(distance.GetLength(0)), cancel);

    /// <summary>The same, with at most so many items of one group: bottles that one pot still fills.</summary>
    /// <param name="distance">Symmetric n × n distances, any unit, at least 0.</param>
    /// <param name="k">2 to what the quota allows.</param>
    /// <param name="quota">Which group each item belongs to, and how many of each may be chosen.</param>
    /// <param name="cancel">Ends the search early.</param>
    /// <exception cref="ArgumentOutOfRangeException">k outside 2 to what the quota allows.</exception>
    public static Selection Farthest(double[,] distance, int k, Quota quota, CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(quota);
        var n = distance.GetLength(0);
        ArgumentOutOfRangeException.ThrowIfLessThan(k, 2);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(k, quota.Room);
        var best = Greedy(distance, n, k, quota);
        var value = Smallest(distance, best);
        var above = new List<double>();
        for (var i = 0; i < n; i++)
        {
            for (var j = 0; j < i; j++)
            {
                if (distance[i, j] > value)
                    above.Add(distance[i, j]);
            }
        }

        double[] steps = [.. above.Distinct().Order()];

        // Thresholds below `low` are reached, those from `high` on are proved out of reach.
        var low = 0;
        var high = steps.Length;
        while (low < high && !cancel.IsCancellationRequested)
        {
            // The graph of a higher threshold is sparser and sooner decided, so the first probes lie high.
            var probe = high - low > 64 ? low + ((high - low) * 3 / 4) : low + ((high - low) / 2);
            var found = new CliqueSearch(distance, n, steps[probe], k, quota, cancel).Find(out var decided);
            if (found is not null)
            {
                best = found;
                value = Smallest(distance, best);
                while (low < high && steps[low] <= value)
                    low++;
            }
            else if (decided)
            {
                high = probe;
            }
            else
            {
                break;
            }
        }

        best.Sort();
        var optimal = low >= high;
        return new(best, value, optimal ? value : steps[Math.Max(high - 1, 0)], optimal);
    }

    /// <summary>The at most k items that leave no colour of a palette farther from its nearest item than need be.</summary>
    /// <param name="distance">Distances, palette colours by items.</param>
    /// <param name="k">1 to the number of items.</param>
    /// <param name="cancel">Ends the search early.</param>
    /// <remarks>Halves the largest allowed distance [HochbaumShmoys1985]; each is a set cover, decided by branching on the palette colour
    /// with the fewest items.</remarks>
    /// <exception cref="ArgumentOutOfRangeException">k outside its range.</exception>
    public static Selection Cover(double[,] distance, int k, CancellationToken cancel = default) =>
        Cover(distance, k, Quota.None(distance.GetLength(1)), cancel);

    /// <summary>The same, with at most so many items of one group.</summary>
    /// <param name="distance">Distances, palette colours by items.</param>
    /// <param name="k">1 to the number of items.</param>
    /// <param name="quota">Which group each item belongs to, and how many of each may be chosen; at least one in all.</param>
    /// <param name="cancel">Ends the search early.</param>
    /// <exception cref="ArgumentOutOfRangeException">k outside its range, or a quota that allows nothing.</exception>
    public static Selection Cover(double[,] distance, int k, Quota quota, CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(quota);
        ArgumentOutOfRangeException.ThrowIfLessThan(quota.Room, 1);
        var (colours, items) = (distance.GetLength(0), distance.GetLength(1));
        ArgumentOutOfRangeException.ThrowIfLessThan(k, 1);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(k, items);
        double[] steps = [.. distance.Cast<double>().Distinct().Order()];
        var low = 0;
        var high = steps.Length - 1;
        List<int>? best = null;
        while (low < high || best is null)
        {
            var probe = best is null ? high : (low + high) / 2;
            var found = CoverWithin(distance, colours, items, steps[probe], k, quota, cancel);
            if (cancel.IsCancellationRequested && best is not null)
                break;
            if (found is not null)
                (best, high) = (found, probe);
            else
                low = probe + 1;
        }

        best.Sort();
        var reached = Enumerable.Range(0, colours).Max(colour => best.Min(item => distance[colour, item]));
        return new(best, reached, low >= high ? reached : steps[low], low >= high);
    }

    private static List<int>? CoverWithin(
        double[,] distance,
        int colours,
        int items,
        double reach,
        int k,
        Quota quota,
        CancellationToken cancel
    )
    {
        var covers = Enumerable
            .Range(0, items)
            .Select(item => Enumerable.Range(0, colours).Where(colour => distance[colour, item] <= reach).ToHashSet())
            .ToArray();
        var open = Enumerable.Range(0, colours).ToHashSet();
        var chosen = new List<int>();
        var used = new int[quota.Most.Count];
        bool Branch()
        {
            if (open.Count == 0)
                return true;
            if (chosen.Count == k || cancel.IsCancellationRequested)
                return false;
            var largest = covers.Max(cover => cover.Count(open.Contains));
            if (largest == 0 || chosen.Count + ((open.Count + largest - 1) / largest) > k)
                return false;
            var hardest = open.MinBy(colour => covers.Count(cover => cover.Contains(colour)));
            foreach (
                var item in Enumerable
                    .Range(0, items)
                    .Where(item => covers[item].Contains(hardest) && used[quota.Group[item]] < quota.Most[quota.Group[item]])
                    .OrderByDescending(item => covers[item].Count(open.Contains))
            )
            {
                var newly = covers[item].Where(open.Contains).ToArray();
                open.ExceptWith(newly);
                chosen.Add(item);
                used[quota.Group[item]]++;
                if (Branch())
                    return true;
                used[quota.Group[item]]--;
                chosen.RemoveAt(chosen.Count - 1);
                open.UnionWith(newly);
            }

            return false;
        }

        return Branch() ? chosen : null;
    }

    private static double Smallest(double[,] distance, List<int> chosen)
    {
        var smallest = double.PositiveInfinity;
        for (var i = 0; i < chosen.Count; i++)
        {
            for (var j = 0; j < i; j++)
                smallest = Math.Min(smallest, distance[chosen[i], chosen[j]]);
        }

        return smallest;
    }

    /// <summary>From every start: always the item farthest from those chosen; then single exchanges as long as they help.</summary>
    private static List<int> Greedy(double[,] distance, int n, int k, Quota quota)
    {
        List<int> best = [];
        var value = double.NegativeInfinity;
        var nearest = new double[n];
        for (var start = 0; start < n; start++)
        {
            if (quota.Most[quota.Group[start]] < 1)
                continue;
            List<int> chosen = [start];
            for (var i = 0; i < n; i++)
                nearest[i] = distance[start, i];
            nearest[start] = double.NegativeInfinity;
            while (chosen.Count < k)
            {
                for (var i = 0; i < n; i++)
                {
                    if (!quota.Allows(chosen, i))
                        nearest[i] = double.NegativeInfinity;
                }

                var next = 0;
                for (var i = 1; i < n; i++)
                {
                    if (nearest[i] > nearest[next])
                        next = i;
                }

                chosen.Add(next);
                for (var i = 0; i < n; i++)
                    nearest[i] = Math.Min(nearest[i], distance[next, i]);
                nearest[next] = double.NegativeInfinity;
            }

            var reached = Exchange(distance, n, chosen, quota);
            if (reached > value)
                (best, value) = (chosen, reached);
        }

        return best;
    }

    private static double Exchange(double[,] distance, int n, List<int> chosen, Quota quota)
    {
        var value = Smallest(distance, chosen);
        for (var round = 0; round < 50; round++)
        {
            var improved = false;
            for (var place = 0; place < chosen.Count; place++)
            {
                var kept = chosen[place];
                for (var item = 0; item < n; item++)
                {
                    if (chosen.Contains(item))
                        continue;
                    chosen[place] = item;
                    if (!quota.Keeps(chosen))
                        continue;
                    var next = Smallest(distance, chosen);
                    if (next > value)
                        (value, kept, improved) = (next, item, true);
                }

                chosen[place] = kept;
            }

            if (!improved)
                break;
        }

        return value;
    }

    /// <summary>Is there a clique of size k in the graph of pairs at least a threshold apart?</summary>
    private sealed class CliqueSearch
    {
        private readonly int n;
        private readonly int words;
        private readonly int k;
        private readonly ulong[] neighbours;
        private readonly int[] name;
        private readonly CancellationToken cancel;
        private readonly Quota quota;
        private readonly int[] used;
        private readonly List<int> clique = [];
        private long nodes;
        private bool stopped;

        public CliqueSearch(double[,] distance, int all, double threshold, int k, Quota quota, CancellationToken cancel)
        {
            (this.k, this.quota, this.cancel) = (k, quota, cancel);
            used = new int[quota.Most.Count];

            // Items with fewer than k − 1 far neighbours cannot be in a clique of size k; leaving them out may starve others.
            var alive = Enumerable.Range(0, all).ToList();
            for (var before = -1; before != alive.Count; )
            {
                before = alive.Count;
                alive = alive.FindAll(i => alive.Count(j => j != i && distance[i, j] >= threshold) >= k - 1);
            }

            // Low degrees first: they are coloured last and branched on early, while the sets are small.
            name = [.. alive.OrderByDescending(i => alive.Count(j => j != i && distance[i, j] >= threshold))];
            n = name.Length;
            words = (n + 63) / 64;
            neighbours = new ulong[n * words];
            for (var i = 0; i < n; i++)
            {
                for (var j = 0; j < n; j++)
                {
                    if (i != j && distance[name[i], name[j]] >= threshold)
                        neighbours[(i * words) + (j >> 6)] |= 1UL << (j & 63);
                }
            }
        }

        public List<int>? Find(out bool decided)
        {
            decided = true;
            if (n < k)
                return null;
            var all = new ulong[words];
            for (var i = 0; i < n; i++)
                all[i >> 6] |= 1UL << (i & 63);
            var found = Expand(all);
            decided = found || !stopped;
            return found ? clique.ConvertAll(i => name[i]) : null;
        }

        private bool Expand(ulong[] candidates)
        {
            if ((++nodes & 1023) == 0 && cancel.IsCancellationRequested)
                stopped = true;
            if (stopped)
                return false;
            var order = new int[n];
            var colours = new int[n];
            var count = Colour(candidates, order, colours, k - clique.Count);
            for (var place = count - 1; place >= 0; place--)
            {
                if (clique.Count + colours[place] < k)
                    return false;
                var vertex = order[place];
                var group = quota.Group[name[vertex]];
                if (used[group] >= quota.Most[group])
                    continue;
                clique.Add(vertex);
                if (clique.Count == k)
                    return true;
                used[group]++;
                var next = new ulong[words];
                var size = 0;
                for (var w = 0; w < words; w++)
                {
                    next[w] = candidates[w] & neighbours[(vertex * words) + w];
                    size += BitOperations.PopCount(next[w]);
                }

                if (clique.Count + size >= k && Expand(next))
                    return true;
                if (stopped)
                    return false;
                used[group]--;
                clique.RemoveAt(clique.Count - 1);
                candidates[vertex >> 6] &= ~(1UL << (vertex & 63));
            }

            return false;
        }

        /// <summary>Greedy colour classes of mutually near items; only those whose class number can still lead to a clique are
        /// listed.</summary>
        private int Colour(ulong[] candidates, int[] order, int[] colours, int needed)
        {
            var open = (ulong[])candidates.Clone();
            var free = new ulong[words];
            var count = 0;
            for (var colour = 1; ; colour++)
            {
                open.CopyTo(free, 0);
                var any = false;
                for (var w = 0; w < words; w++)
                {
                    while (free[w] != 0)
                    {
                        any = true;
                        var vertex = (w << 6) + BitOperations.TrailingZeroCount(free[w]);
                        open[w] &= ~(1UL << (vertex & 63));
                        free[w] &= ~(1UL << (vertex & 63));
                        for (var v = w; v < words; v++)
                            free[v] &= ~neighbours[(vertex * words) + v];
                        if (colour < needed)
                            continue;
                        order[count] = vertex;
                        colours[count++] = colour;
                    }
                }

                if (!any)
                    return count;
            }
        }
    }
}

namespace Dyewort.Colour;

/// <summary>The nearest of very many colours in CIEDE2000, exactly, without looking at most of them.</summary>
/// <remarks><para>A tree of boxes in CIELAB is searched with a lower bound on CIEDE2000 between the wanted colour q and anything in a box;
/// a box whose bound exceeds the k-th best found so far is passed over. The bound, with the symbols of the formula:</para>
/// <para>(1) Both colours of a pair get the same stretch 1 + G ≥ 1 of a*, so ΔC′² + ΔH′² = (1 + G)² Δa² + Δb² ≥ Δa² + Δb² =: d².
/// (2) The quadratic form c² + h² + R_T c h, c = ΔC′/S_C, h = ΔH′/S_H, has eigenvalues 1 ± R_T/2, so it is at least
/// (1 − |R_T|/2)(c² + h²). (3) T ≤ 1 + 0.17 + 0.24 + 0.32 + 0.20 = 1.93, so S_H ≤ 1 + 0.029 C̄′ ≤ S_C = 1 + 0.045 C̄′, and
/// c² + h² ≥ d²/S_C². (4) S_C grows with C̄′ ≤ 1.5 C̄, and |R_T| = R_C sin 2Δθ where R_C grows with C̄′ and sin 2Δθ ≤ sin(60° e^(−δ²/25²)),
/// δ the least distance of the mean hue from 275°. (5) S_L grows with |L̄ − 50|. With the largest S_L, S_C and |R_T| a box allows:
/// ΔE₀₀² ≥ (ΔL/S_L)² + (1 − |R_T|/2) d²/S_C², ΔL and d being the distances from q to the box.</para>
/// <para>The mean hue is the middle of the shorter arc between the two hues; from the corners of the box (for a* stretched by 1 and by
/// 1.5) follows an interval for it, unless the box holds the grey axis or reaches round to the opposite hue: then sin 60° is used.
/// Derived here; the formula is that of Sharma, Wu and Dalal [Sharma2005].</para></remarks>
public sealed class NearestColours
{
    private const int LeafSize = 96;
    private readonly double[] l;
    private readonly double[] a;
    private readonly double[] b;
    private readonly int[] original;
    private readonly List<Node> nodes = [];

    /// <summary>Builds the tree.</summary>
    /// <param name="colours">CIELAB under D65, finite; results give places in this list.</param>
    /// <exception cref="ArgumentException">The list is empty or a coordinate is not finite.</exception>
    public NearestColours(IReadOnlyList<Lab> colours)
    {
        ArgumentNullException.ThrowIfNull(colours);
        if (colours.Count == 0)
            throw new ArgumentException("There must be a colour to find.", nameof(colours));
        var n = colours.Count;
        (l, a, b, original) = (new double[n], new double[n], new double[n], new int[n]);
        for (var i = 0; i < n; i++)
        {
            var colour = colours[i];
            if (!double.IsFinite(colour.L + colour.A + colour.B))
                throw new ArgumentException($"Colour {i} is not finite.", nameof(colours));
            (l[i], a[i], b[i], original[i]) = (colour.L, colour.A, colour.B, i);
        }

        Build(0, n);
    }

    /// <summary>Number of colours.</summary>
    public int Count => l.Length;

    /// <summary>The k nearest, nearest first; equal distances in the order of the list.</summary>
    /// <param name="wanted">CIELAB under D65.</param>
    /// <param name="k">1 or more; all colours where there are fewer.</param>
    /// <exception cref="ArgumentOutOfRangeException">k is below 1.</exception>
    public IReadOnlyList<(int Index, double De00)> Find(Lab wanted, int k)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(k, 1);
        var search = new Search(this, wanted, Math.Min(k, Count));
        search.Visit(0);
        return search.Sorted();
    }

    private int Build(int from, int to)
    {
        var (lowL, highL) = Range(l, from, to);
        var (lowA, highA) = Range(a, from, to);
        var (lowB, highB) = Range(b, from, to);
        var place = nodes.Count;
        nodes.Add(new(from, to, -1, -1, lowL, highL, lowA, highA, lowB, highB));
        if (to - from <= LeafSize)
            return place;
        var (spanL, spanA, spanB) = (highL - lowL, highA - lowA, highB - lowB);
        var axis =
            spanL >= spanA && spanL >= spanB ? l
            : spanA >= spanB ? a
            : b;
        var middle = from + ((to - from) / 2);
        Partition(axis, from, to - 1, middle);
        var left = Build(from, middle);
        var right = Build(middle, to);
        nodes[place] = nodes[place] with { Left = left, Right = right };
        return place;
    }

    private static (double Low, double High) Range(double[] values, int from, int to)
    {
        var span = values.AsSpan(from, to - from);
        return (System.Numerics.Tensors.TensorPrimitives.Min<double>(span), System.Numerics.Tensors.TensorPrimitives.Max<double>(span));
    }

    /// <summary>Quickselect: everything before the place is at most what stands there, everything after at least.</summary>
    private void Partition(double[] axis, int low, int high, int place)
    {
        while (low < high)
        {
            var pivot = axis[low + ((high - low) / 2)];
            var (i, j) = (low, high);
            while (i <= j)
            {
                while (axis[i] < pivot)
                    i++;
                while (axis[j] > pivot)
                    j--;
                if (i > j)
                    break;
                Swap(i++, j--);
            }

            if (place <= j)
                high = j;
            else if (place >= i)
                low = i;
            else
                return;
        }
    }

    private void Swap(int i, int j)
    {
        (l[i], l[j]) = (l[j], l[i]);
        (a[i], a[j]) = (a[j], a[i]);
        (b[i], b[j]) = (b[j], b[i]);
        (original[i], original[j]) = (original[j], original[i]);
    }

    private readonly record struct Node(
        int From,
        int To,
        int Left,
        int Right,
        double LowL,
        double HighL,
        double LowA,
        double HighA,
        double LowB,
        double HighB
    )
    {
        /// <summary>The bound of the class's remarks.</summary>
        public double Bound(Lab q)
        {
            var dL = Math.Max(0, Math.Max(LowL - q.L, q.L - HighL));
            var da = Math.Max(0, Math.Max(LowA - q.A, q.A - HighA));
            var db = Math.Max(0, Math.Max(LowB - q.B, q.B - HighB));
            var l50 = Math.Max(Math.Abs(((q.L + LowL) / 2) - 50), Math.Abs(((q.L + HighL) / 2) - 50));
            l50 *= l50;
            var sL = 1 + (0.015 * l50 / Math.Sqrt(20 + l50));
            var (farA, farB) = (Math.Max(Math.Abs(LowA), Math.Abs(HighA)), Math.Max(Math.Abs(LowB), Math.Abs(HighB)));
            var chroma = (Math.Sqrt((2.25 * farA * farA) + (farB * farB)) + Math.Sqrt((2.25 * q.A * q.A) + (q.B * q.B))) / 2;
            var sC = 1 + (0.045 * chroma);
            var c7 = Math.Pow(chroma, 7);
            var rC = 2 * Math.Sqrt(c7 / (c7 + 6103515625));
            var rT = rC < 0.02 ? rC : rC * MostRotation(q);
            // A hair is given away to rounding, so that the bound stays one.
            return ((dL * dL / (sL * sL)) + ((1 - (rT / 2)) * ((da * da) + (db * db)) / (sC * sC))) * (1 - 1e-12);
        }

        /// <summary>The largest sin 2Δθ any pair with a colour of this box can have.</summary>
        private double MostRotation(Lab q)
        {
            const double Full = 0.8660254037844387;
            if ((LowA <= 0 && HighA >= 0 && LowB <= 0 && HighB >= 0) || (q.A == 0 && q.B == 0))
                return Full;
            double low = double.PositiveInfinity,
                high = double.NegativeInfinity;
            var hueOfQ = Degrees(q.B, q.A);
            foreach (var stretch in (ReadOnlySpan<double>)[1, 1.5])
            {
                var from = Degrees(q.B, stretch * q.A);
                foreach (var (x, y) in (ReadOnlySpan<(double, double)>)[(LowA, LowB), (LowA, HighB), (HighA, LowB), (HighA, HighB)])
                {
                    var turn = Turn(Degrees(y, stretch * x) - from);
                    (low, high) = (Math.Min(low, turn), Math.Max(high, turn));
                }
            }

            // A box beside the grey axis subtends less than 180°. Corners further apart, or near the opposite hue, lie around the back:
            // the arc is not between them but outside. The stretch turns q's own hue too, by less than 11.6°, and the arc with it.
            var drift = Math.Abs(Turn(Degrees(q.B, 1.5 * q.A) - hueOfQ));
            if (high - low > 165 || Math.Max(high, -low) > 178 - (2 * drift))
                return Full;
            var (first, last) = (hueOfQ + (low / 2) - drift, hueOfQ + (high / 2) + drift);
            double nearest = double.PositiveInfinity;
            foreach (var blue in (ReadOnlySpan<double>)[-85, 275, 635])
            {
                nearest = Math.Min(
                    nearest,
                    blue < first ? first - blue
                        : blue > last ? blue - last
                        : 0
                );
            }

            return Math.Sin(Math.PI / 3 * Math.Exp(-(nearest / 25) * (nearest / 25)));
        }

        private static double Degrees(double y, double x) =>
            Math.Atan2(y, x) * 180 / Math.PI is var degrees && degrees < 0 ? degrees + 360 : Math.Atan2(y, x) * 180 / Math.PI;

        private static double Turn(double degrees) =>
            degrees > 180 ? degrees - 360
            : degrees < -180 ? degrees + 360
            : degrees;
    }

    private sealed class Search(NearestColours tree, Lab wanted, int k)
    {
        private readonly double[] found = new double[k];
        private readonly int[] index = new int[k];
        private readonly double[] leaf = new double[LeafSize];
        private int count;

        private double Worst => count < k ? double.PositiveInfinity : found[k - 1];

        public void Visit(int place)
        {
            var node = tree.nodes[place];
            if (node.Left < 0)
            {
                var (from, size) = (node.From, node.To - node.From);
                ColourBatch.Ciede2000(
                    wanted,
                    tree.l.AsSpan(from, size),
                    tree.a.AsSpan(from, size),
                    tree.b.AsSpan(from, size),
                    leaf.AsSpan(0, size)
                );
                for (var i = 0; i < size; i++)
                    Offer(leaf[i], tree.original[from + i]);
                return;
            }

            var (left, right) = (tree.nodes[node.Left].Bound(wanted), tree.nodes[node.Right].Bound(wanted));
            var (near, far) = left <= right ? (node.Left, node.Right) : (node.Right, node.Left);
            if (Math.Min(left, right) <= Worst * Worst)
                Visit(near);
            if (Math.Max(left, right) <= Worst * Worst)
                Visit(far);
        }

        public IReadOnlyList<(int Index, double De00)> Sorted() => [.. Enumerable.Range(0, count).Select(i => (index[i], found[i]))];

        private void Offer(double distance, int original)
        {
            if (count == k && (distance > found[k - 1] || (distance == found[k - 1] && original > index[k - 1])))
                return;
            var place = count < k ? count++ : k - 1;
            while (place > 0 && (found[place - 1] > distance || (found[place - 1] == distance && index[place - 1] > original)))
            {
                (found[place], index[place]) = (found[place - 1], index[place - 1]);
                place--;
            }

            (found[place], index[place]) = (distance, original);
        }
    }
}

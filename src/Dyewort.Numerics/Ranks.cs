namespace Dyewort.Numerics;

/// <summary>Order statistics without sorting.</summary>
/// <remarks>Hoare's selection with the middle of three as the pivot [Hoare1961].</remarks>
public static class Ranks
{
    /// <summary>The value that would stand at a place if the values were sorted; their order is changed.</summary>
    /// <param name="values">At least one value, none of them NaN.</param>
    /// <param name="rank">Place from 0 to the last.</param>
    public static float Select(Span<float> values, int rank)
    {
        var (low, high) = (0, values.Length - 1);
        while (low < high)
        {
            var pivot = MiddleOf(values[low], values[(low + high) >>> 1], values[high]);
            var (i, j) = (low, high);
            while (i <= j)
            {
                while (values[i] < pivot)
                    i++;
                while (values[j] > pivot)
                    j--;
                if (i > j)
                    break;
                (values[i], values[j]) = (values[j], values[i]);
                i++;
                j--;
            }

            if (rank <= j)
                high = j;
            else if (rank >= i)
                low = i;
            else
                break;
        }

        return values[rank];
    }

    private static float MiddleOf(float a, float b, float c) => MathF.Max(MathF.Min(a, b), MathF.Min(MathF.Max(a, b), c));
}

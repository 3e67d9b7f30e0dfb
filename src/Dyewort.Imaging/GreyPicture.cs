using System.Numerics;
using System.Runtime.InteropServices;
using Dyewort.Readings;

namespace Dyewort.Imaging;

/// <summary>The green channel of a photo, upright, made smaller by a whole factor: enough to find shapes on.</summary>
internal sealed class GreyPicture : IDisposable
{
    private readonly Scratch scratch;
    private readonly Memory<byte> values;

    private GreyPicture(Scratch scratch, Memory<byte> values, int width, int height, int factor) =>
        (this.scratch, this.values, Width, Height, Factor) = (scratch, values, width, height, factor);

    /// <summary>Row by row.</summary>
    public ReadOnlySpan<byte> Values => values.Span;

    public int Width { get; }

    public int Height { get; }

    /// <summary>Photo pixels per pixel here.</summary>
    public int Factor { get; }

    /// <summary>Reduces a photo by averaging blocks; of blocks of four rows and more, every second row.</summary>
    public static GreyPicture Reduce(OpenPhoto photo, int factor)
    {
        var (width, height) = (photo.Width / factor, photo.Height / factor);
        var own = new Scratch();
        var held = own.Of<byte>(width * height);
        var turned = Math.Abs(photo.StepX) != 1;

        // Stored rows are walked in their own order: a turned picture is written across, because reads are the dearer part.
        var (rows, columns) = turned ? (width, height) : (height, width);
        var (rowStep, columnStep) = turned ? (photo.StepX, photo.StepY) : (photo.StepY, photo.StepX);
        var skip = factor >= 4 ? 2 : 1;
        var used = (factor + skip - 1) / skip;
        var length = columns * factor;
        Parallel.For(
            0,
            2,
            half =>
            {
                // Greens of the rows of a block are added up first, many at once; a block is then a few neighbours of that sum.
                var pixels = photo.Pixels;
                var reduced = held.Span;
                var sums = new uint[length];
                var divisor = (uint)(factor * used);
                for (var row = rows * half / 2; row < rows * (half + 1) / 2; row++)
                {
                    Array.Clear(sums);
                    for (var k = 0; k < factor; k += skip)
                    {
                        var first = photo.Start + (((row * factor) + k) * rowStep);
                        AddGreens(sums, pixels.Slice(columnStep > 0 ? first : first - length + 1, length));
                    }

                    for (var column = 0; column < columns; column++)
                    {
                        uint sum = 0;
                        var at = columnStep > 0 ? column * factor : length - ((column + 1) * factor);
                        for (var j = 0; j < factor; j++)
                            sum += sums[at + j];
                        reduced[turned ? (column * width) + row : (row * width) + column] = (byte)(sum / divisor);
                    }
                }
            }
        );
        return new(own, held, width, height, factor);
    }

    /// <summary>1 where a pixel is clearly darker than the mean of the window around it.</summary>
    /// <param name="radius">Half the window, pixels.</param>
    /// <param name="share">Darker than this share of the mean.</param>
    /// <returns>One pixel of margin on every side, 0 throughout; good until this picture is disposed of.</returns>
    public Span<byte> DarkerThanAround(int radius, double share)
    {
        var dark = scratch.Filled<byte>((Width + 2) * (Height + 2), 0).Span;
        var stride = Width + 2;
        var sums = new int[Width];
        int Row(int y) => Math.Clamp(y, 0, Height - 1) * Width;
        for (var y = -radius; y <= radius; y++)
            Add(sums, Values.Slice(Row(y), Width));
        var scale = (int)Math.Round(share * 65536);
        for (var y = 0; y < Height; y++)
        {
            var side = (2 * radius) + 1;
            long sum = 0;
            for (var x = -radius; x <= radius; x++)
                sum += sums[Math.Clamp(x, 0, Width - 1)];
            var row = Values.Slice(Row(y), Width);
            var target = dark.Slice(((y + 1) * stride) + 1, Width);
            var area = side * side;
            for (var x = 0; x < Width; x++)
            {
                if (((long)row[x] + 4) * area << 16 < sum * scale)
                    target[x] = 1;
                sum += sums[Math.Min(x + radius + 1, Width - 1)] - sums[Math.Max(x - radius, 0)];
            }

            Exchange(sums, Values.Slice(Row(y + radius + 1), Width), Values.Slice(Row(y - radius), Width));
        }

        return dark;
    }

    public void Dispose() => scratch.Dispose();

    private static void AddGreens(uint[] sums, ReadOnlySpan<uint> row)
    {
        var x = 0;
        var mask = new Vector<uint>(0xFF);
        for (; x + Vector<uint>.Count <= sums.Length; x += Vector<uint>.Count)
        {
            var greens = Vector.ShiftRightLogical(new Vector<uint>(row[x..]), 8) & mask;
            (new Vector<uint>(sums, x) + greens).CopyTo(sums, x);
        }

        for (; x < sums.Length; x++)
            sums[x] += (row[x] >> 8) & 0xFF;
    }

    private static void Add(int[] sums, ReadOnlySpan<byte> row)
    {
        for (var x = 0; x < row.Length; x++)
            sums[x] += row[x];
    }

    private static void Exchange(int[] sums, ReadOnlySpan<byte> coming, ReadOnlySpan<byte> going)
    {
        ref var first = ref MemoryMarshal.GetArrayDataReference(sums);
        for (var x = 0; x < coming.Length; x++)
            System.Runtime.CompilerServices.Unsafe.Add(ref first, x) += coming[x] - going[x];
    }
}

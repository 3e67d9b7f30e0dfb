using System.Runtime.InteropServices;

namespace Dyewort.Imaging;

/// <summary>Memory for the pixels of decoded photos, used again for the next photo; for whoever reads many in a row.</summary>
/// <remarks>Blocks of this size, taken and given back in turn with small ones, leave holes that the system's allocator does not give
/// back: two photos at a time then hold three to four photos' memory. May be used by several threads at once.</remarks>
public sealed class PixelBuffers : IDisposable
{
    /// <summary>Blocks are made a little larger than asked for, so that photos of nearly one size share them.</summary>
    private const int Grain = 1 << 20;

    private readonly Lock door = new();
    private readonly List<(nint Start, long Bytes)> free = [];
    private bool closed;

    /// <summary>A block of at least so many bytes; null where the system has none.</summary>
    internal Block? Take(long bytes)
    {
        lock (door)
        {
            var fitting = free.FindIndex(block => block.Bytes >= bytes);
            if (fitting >= 0)
            {
                var (start, size) = free[fitting];
                free.RemoveAt(fitting);
                return new(this, start, size);
            }

            // What lies free is too small for this photo: keeping it as well would only add up.
            foreach (var block in free)
                Marshal.FreeHGlobal(block.Start);
            free.Clear();
        }

        var wanted = (bytes + Grain - 1) / Grain * Grain;
        try
        {
            return new(this, Marshal.AllocHGlobal((nint)wanted), wanted);
        }
        catch (OutOfMemoryException)
        {
            return null;
        }
    }

    private void GiveBack(nint start, long bytes)
    {
        lock (door)
        {
            if (!closed)
            {
                free.Add((start, bytes));
                return;
            }
        }

        Marshal.FreeHGlobal(start);
    }

    /// <summary>Gives free memory back to the system; blocks still in use follow when their photos are disposed of.</summary>
    public void Dispose()
    {
        lock (door)
        {
            closed = true;
            foreach (var block in free)
                Marshal.FreeHGlobal(block.Start);
            free.Clear();
        }
    }

    /// <summary>One photo's pixels.</summary>
    internal sealed class Block(PixelBuffers home, nint start, long bytes) : IDisposable
    {
        private nint address = start;

        /// <summary>Where it begins.</summary>
        public nint Start => address;

        public void Dispose()
        {
            var mine = Interlocked.Exchange(ref address, 0);
            if (mine != 0)
                home.GiveBack(mine, bytes);
        }
    }
}

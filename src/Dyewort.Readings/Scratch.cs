using System.Buffers;

namespace Dyewort.Readings;

/// <summary>Arrays borrowed for one piece of work and given back together.</summary>
/// <remarks>What a cell needs while it is looked at is a hundred kilobytes many times over. Made anew each time, it lies in the heap
/// for large objects until a full collection, and a folder of photos takes twice the memory of its pixels.
/// Not for use by several threads at once: each takes its own.</remarks>
public sealed class Scratch : IDisposable
{
    private readonly List<IDisposable> lent = [];

    /// <summary>A stretch of the wanted length; what it holds is what its last user left there.</summary>
    public Memory<T> Of<T>(int length)
    {
        var owner = MemoryPool<T>.Shared.Rent(Math.Max(1, length));
        lent.Add(owner);
        return owner.Memory[..length];
    }

    /// <summary>A stretch of the wanted length in which every value is the same.</summary>
    public Memory<T> Filled<T>(int length, T value)
    {
        var memory = Of<T>(length);
        memory.Span.Fill(value);
        return memory;
    }

    /// <summary>Gives everything back; nothing that came from here may be used after.</summary>
    public void Dispose()
    {
        foreach (var owner in lent)
            owner.Dispose();
        lent.Clear();
    }
}

using Dyewort.Imaging;
using Dyewort.Quantities;
using Dyewort.Readings;

namespace Dyewort.Workshop.Readings;

/// <summary>Reads many photos in the same way, goes on after one that cannot be read, and stays small however many there are.</summary>
public sealed class ReadMany : IUseCase
{
    /// <summary>Each photo in work holds its pixels, 48 MB for twelve megapixels; two keep two cores busy.</summary>
    private const int AtOnce = 2;

    /// <summary>One outcome for each photo, in their order.</summary>
    public IReadOnlyList<Outcome<ReadingResult>> Handle(ReadManyRequest request, CancellationToken cancel = default)
    {
        var outcomes = new Outcome<ReadingResult>[request.Photos.Count];
        using var buffers = new PixelBuffers();
        var how = request.How with { Buffers = buffers };
        Parallel.For(
            0,
            outcomes.Length,
            new ParallelOptions { MaxDegreeOfParallelism = Math.Min(AtOnce, Environment.ProcessorCount), CancellationToken = cancel },
            i =>
            {
                outcomes[i] = new ReadPhoto().Handle(how, request.Photos[i], answer => request.Read?.Invoke(i, answer));
                request.Done?.Invoke(i, outcomes[i]);
            }
        );
        return outcomes;
    }
}

/// <summary>What to read, and how.</summary>
/// <param name="How">How each is read; its picture is not used.</param>
/// <param name="Photos">What brings each photo's bytes, asked when its turn comes.</param>
public sealed record ReadManyRequest(ReadPhotoRequest How, IReadOnlyList<Func<Outcome<byte[]>>> Photos)
{
    /// <summary>Called with each photo that was read while its picture is still open; from several threads.</summary>
    public Action<int, ReadPhotoAnswer>? Read { get; init; }

    /// <summary>Called when a photo is done with, read or not; from several threads.</summary>
    public Action<int, Outcome<ReadingResult>>? Done { get; init; }
}

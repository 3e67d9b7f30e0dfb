using System.Threading.Channels;

namespace Dyewort.Workshop;

/// <summary>Tells whoever waits that something was written in the notebook since they last looked.</summary>
public sealed class NotebookChanges
{
    private readonly Channel<bool> written = Channel.CreateBounded<bool>(
        new BoundedChannelOptions(1) { FullMode = BoundedChannelFullMode.DropWrite }
    );

    /// <summary>Waits until something is written; at once where something was.</summary>
    public async Task NextAsync(CancellationToken cancel) => await written.Reader.ReadAsync(cancel);

    internal void Written() => written.Writer.TryWrite(true);
}

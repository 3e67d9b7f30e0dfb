namespace Dyewort.Store;

/// <summary>Another window, or another program on the same notebook, wrote what this was about to write: a code or a number that only one
/// may have. Nothing of it was saved; done once more from what stands there now, it succeeds.</summary>
public sealed class ClashException(Exception inner)
    : Exception("Something else was written into the notebook at the same moment, and this was not. Do it once more.", inner);

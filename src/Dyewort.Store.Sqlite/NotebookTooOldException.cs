namespace Dyewort.Store.Sqlite;

/// <summary>A notebook that is older than the oldest that this program can bring up to date.</summary>
/// <param name="folder">The notebook's folder.</param>
public sealed class NotebookTooOldException(string folder)
    : Exception(
        $"The notebook in “{folder}” was last opened with a Dyewort from before 30 November 2026; this one cannot bring it up to date."
    )
{
    /// <summary>What to do.</summary>
    public string Remedy { get; } = "Open it once with the program of that day (commit 4903c72), then with this one.";
}

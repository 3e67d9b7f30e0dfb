using Dyewort.Quantities;
using Dyewort.Response;

namespace Dyewort.Cli.Commands.Response;

/// <summary>Reads a table of samples from a file.</summary>
internal static class TrialFile
{
    private const long LargestBytes = 20_000_000;

    /// <param name="field">What the maker calls the file.</param>
    /// <param name="path">Where the table lies.</param>
    /// <param name="needColours">True where lines without a colour are worth a warning.</param>
    public static async Task<Outcome<TrialTable>> ReadAsync(string field, string? path, bool needColours, CancellationToken cancel)
    {
        if (string.IsNullOrWhiteSpace(path))
            return Outcome.Refused<TrialTable>(field, $"{field} names no file.", $"Add {field} trials.csv.");
        var file = new FileInfo(path);
        if (!file.Exists)
            return Outcome.Refused<TrialTable>(field, $"There is no file “{path}”.", "Check its name and folder.");
        if (file.Length > LargestBytes)
            return Outcome.Refused<TrialTable>(
                field,
                $"“{path}” is larger than a table of samples can be.",
                "Give the table of trials as CSV."
            );
        string text;
        try
        {
            text = await File.ReadAllTextAsync(path, cancel);
        }
        catch (Exception fault) when (fault is IOException or UnauthorizedAccessException)
        {
            return Outcome.Refused<TrialTable>(
                field,
                $"“{path}” cannot be read: {fault.Message}",
                "Close other programs that hold it, or check its permissions."
            );
        }

        return TrialTable.Parse(field, text, needColours);
    }
}

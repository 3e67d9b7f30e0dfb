using Dyewort.Workshop;
using Dyewort.Workshop.Response;

namespace Dyewort.Cli.Commands.Response;

/// <summary>Where the trials of a command come from: the file that was named, else the notebook.</summary>
internal static class ReadTrials
{
    /// <summary>The trials, with what the maker's pantry says of the additions where they are the notebook's.</summary>
    /// <exception cref="RefusalException">The file cannot be read, or there is no notebook.</exception>
    public static async Task<TrialSource> SourceAsync(string? file, string? notebook, CancellationToken cancel)
    {
        if (!string.IsNullOrWhiteSpace(file))
        {
            var read = await TrialFile.ReadAsync("--trials", file, needColours: true, cancel);
            return read.TryGet(out var table) ? TrialSource.Of(table) : throw new RefusalException(read.Problems);
        }

        var place = notebook ?? Desk.UsualFolder;
        if (!Directory.Exists(place))
            throw new RefusalException(
                "--trials",
                $"No file of trials was named, and there is no notebook in “{place}”.",
                "Add --trials trials.csv, or the notebook's folder with --notebook."
            );
        return await OpenNotebook.WithAsync<NotebookTrials, TrialSource>(place, trials => trials.HandleAsync(cancel), cancel);
    }

    /// <summary>Trials for a command that can do without: null where none were named and there is no notebook in the usual place.</summary>
    public static async Task<TrialSource?> IfAnyAsync(string? file, string? notebook, CancellationToken cancel) =>
        !string.IsNullOrWhiteSpace(file) || notebook is not null || Directory.Exists(Desk.UsualFolder)
            ? await SourceAsync(file, notebook, cancel)
            : null;
}

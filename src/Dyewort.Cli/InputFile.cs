using Dyewort.Workshop;

namespace Dyewort.Cli;

/// <summary>Reads a small text file that the maker named.</summary>
internal static class InputFile
{
    private const long Most = 5_000_000;

    /// <exception cref="RefusalException">It is not there, may not be read, or is far too large to be what was asked for.</exception>
    public static string Read(string field, string path)
    {
        try
        {
            var file = new FileInfo(path);
            if (!file.Exists)
                throw new RefusalException(field, $"There is no file “{path}”.", "Check its name and folder.");
            if (file.Length > Most)
                throw new RefusalException(field, $"“{path}” is larger than 5 MB.", "Give the text file that was asked for.");
            return File.ReadAllText(path);
        }
        catch (UnauthorizedAccessException)
        {
            throw new RefusalException(field, $"“{path}” may not be read.", "Give a file of your own.");
        }
    }

    /// <summary>The file's text when the argument names a file, otherwise the argument itself.</summary>
    public static string ReadOrTake(string field, string argument) =>
        argument.Length < 500
        && argument.IndexOfAny(Path.GetInvalidPathChars()) < 0
        && (File.Exists(argument) || argument.EndsWith(".json", StringComparison.OrdinalIgnoreCase))
            ? Read(field, argument)
            : argument;
}

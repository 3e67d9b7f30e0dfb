using Dyewort.Workshop;

namespace Dyewort.Cli;

/// <summary>Writes a file that the maker named, whole or not at all.</summary>
internal static class OutputFile
{
    /// <exception cref="RefusalException">The folder does not exist, or nothing may be written there.</exception>
    public static void Write(string field, string path, byte[] bytes)
    {
        string full;
        try
        {
            full = Path.GetFullPath(path);
        }
        catch (ArgumentException)
        {
            throw new RefusalException(field, $"“{path}” is not a file name.", "Give another one.");
        }

        if (Directory.Exists(full))
            throw new RefusalException(field, $"“{path}” is a folder.", "Give the name of a file.");
        if (!Directory.Exists(Path.GetDirectoryName(full)))
            throw new RefusalException(field, $"The folder of “{path}” does not exist.", "Make it first, or give another one.");
        // A half-written page beside a good old one would be worse than none.
        var part = full + ".part";
        try
        {
            File.WriteAllBytes(part, bytes);
            File.Move(part, full, overwrite: true);
        }
        catch (UnauthorizedAccessException)
        {
            throw new RefusalException(field, $"“{path}” may not be written.", "Give a file in a folder of your own.");
        }
    }
}

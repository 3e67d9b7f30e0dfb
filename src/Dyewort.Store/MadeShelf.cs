namespace Dyewort.Store;

/// <summary>Small pictures that the program made and can make again, as files beside the notebook.</summary>
/// <param name="folder">The folder that holds them; a maker may empty it.</param>
public sealed class MadeShelf(string folder)
{
    public async Task KeepAsync(string name, byte[] content, CancellationToken cancel)
    {
        Directory.CreateDirectory(folder);
        var draft = $"{PathOf(name)}.{Guid.NewGuid():N}.part";
        await File.WriteAllBytesAsync(draft, content, cancel);
        File.Move(draft, PathOf(name), overwrite: true);
    }

    public async Task<byte[]?> FindAsync(string name, CancellationToken cancel) =>
        File.Exists(PathOf(name)) ? await File.ReadAllBytesAsync(PathOf(name), cancel) : null;

    private string PathOf(string name) =>
        name.All(letter => char.IsAsciiLetterOrDigit(letter) || letter is '-' or '.')
            ? Path.Combine(folder, name)
            : throw new ArgumentException("Not the name of a made picture.", nameof(name));
}

using System.Security.Cryptography;

namespace Dyewort.Store;

/// <summary>Photos as files beside the notebook, named by their SHA-256: the same picture is kept once, and a copy of the folder has them
/// all.</summary>
/// <param name="folder">The folder that holds them; made when the first one comes.</param>
public sealed class PhotoShelf(string folder)
{
    /// <summary>Keeps a picture.</summary>
    /// <param name="content">The file as it came.</param>
    /// <param name="extension">File name extension that fits the content, without a dot.</param>
    /// <returns>The SHA-256 of the content, 64 lower-case hexadecimal digits.</returns>
    public async Task<string> KeepAsync(byte[] content, string extension, CancellationToken cancel)
    {
        var sha256 = Convert.ToHexStringLower(SHA256.HashData(content));
        var path = PathOf(sha256, extension);
        if (File.Exists(path))
            return sha256;
        Directory.CreateDirectory(Path.GetDirectoryName(path)!);

        // Written beside and moved, so that a crash leaves no half picture under a name that promises a whole one.
        var draft = $"{path}.{Guid.NewGuid():N}.part";
        await File.WriteAllBytesAsync(draft, content, cancel);
        File.Move(draft, path, overwrite: true);
        return sha256;
    }

    /// <summary>Where a kept picture lies.</summary>
    public string PathOf(string sha256, string extension)
    {
        if (sha256.Length != 64 || !sha256.All(char.IsAsciiHexDigitLower) || !extension.All(char.IsAsciiLetterOrDigit))
            throw new ArgumentException("Not the name of a kept picture.", nameof(sha256));
        return Path.Combine(folder, sha256[..2], $"{sha256}.{extension}");
    }

    /// <summary>Opens a kept picture, or null when the file is gone.</summary>
    public Stream? Open(string sha256, string extension)
    {
        var path = PathOf(sha256, extension);
        return File.Exists(path) ? File.OpenRead(path) : null;
    }
}

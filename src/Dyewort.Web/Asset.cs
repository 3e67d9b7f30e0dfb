using System.Collections.Frozen;
using System.Security.Cryptography;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;

namespace Dyewort.Web;

/// <summary>Style, fonts and small scripts, from inside the program; their address changes when they do, so a browser may keep them for
/// good.</summary>
public static class Asset
{
    private const string Prefix = "wwwroot/";

    private static readonly FrozenDictionary<string, byte[]> Files = Read();

    private static readonly string Mark = MarkOf(Files);

    /// <summary>The address of a file of wwwroot.</summary>
    public static string Url(string path) =>
        Files.ContainsKey(path) ? $"/assets/{Mark}/{path}" : throw new ArgumentException($"There is no {path} in wwwroot.", nameof(path));

    internal static void Map(IEndpointRouteBuilder app)
    {
        app.MapGet(
            "/assets/{mark}/{**path}",
            (HttpContext http, string mark, string path) =>
            {
                if (!Files.TryGetValue(path, out var content))
                    return Results.NotFound();
                http.Response.Headers.CacheControl = mark == Mark ? "public, max-age=31536000, immutable" : "no-cache";
                return Results.Bytes(content, Type(path));
            }
        );
        app.MapGet("/favicon.ico", () => Results.Redirect(Url("icon.svg")));
    }

    private static string Type(string path) =>
        Path.GetExtension(path) switch
        {
            ".css" => "text/css; charset=utf-8",
            ".js" => "text/javascript; charset=utf-8",
            ".svg" => "image/svg+xml",
            ".woff2" => "font/woff2",
            ".txt" => "text/plain; charset=utf-8",
            ".webmanifest" => "application/manifest+json",
            _ => "application/octet-stream",
        };

    private static FrozenDictionary<string, byte[]> Read()
    {
        var assembly = typeof(Asset).Assembly;
        return assembly
            .GetManifestResourceNames()
            .Where(name => name.StartsWith(Prefix, StringComparison.Ordinal))
            .ToFrozenDictionary(
                name => name[Prefix.Length..].Replace('\\', '/'),
                name =>
                {
                    using var stream = assembly.GetManifestResourceStream(name)!;
                    using var copy = new MemoryStream();
                    stream.CopyTo(copy);
                    return copy.ToArray();
                }
            );
    }

    private static string MarkOf(FrozenDictionary<string, byte[]> files)
    {
        using var hash = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
        foreach (var (_, content) in files.OrderBy(file => file.Key, StringComparer.Ordinal))
            hash.AppendData(content);
        return Convert.ToHexStringLower(hash.GetHashAndReset())[..12];
    }
}

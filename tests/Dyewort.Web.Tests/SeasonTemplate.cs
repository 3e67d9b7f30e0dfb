using System.Security.Cryptography;
using Dyewort.Testing;
using Dyewort.Workshop.Demo;
using Microsoft.Data.Sqlite;

namespace Dyewort.Web.Tests;

/// <summary>A notebook with one pot of the invented season: made once by a build, then copied for whoever needs one.</summary>
/// <remarks>Making it takes longer than most of the tests that read from it. It lies in artifacts, named by what the build's assemblies
/// hold, so that a changed program makes its own; two test programs that run at once wait for each other.</remarks>
internal static class SeasonTemplate
{
    private static readonly Lazy<Task<string>> Made = new(MakeAsync);

    /// <summary>Puts a copy into a folder that is not there yet.</summary>
    public static async Task CopyToAsync(string folder)
    {
        var from = await Made.Value;
        Directory.CreateDirectory(folder);
        foreach (var below in Directory.EnumerateDirectories(from, "*", SearchOption.AllDirectories))
            Directory.CreateDirectory(Path.Combine(folder, Path.GetRelativePath(from, below)));
        foreach (var file in Directory.EnumerateFiles(from, "*", SearchOption.AllDirectories))
            File.Copy(file, Path.Combine(folder, Path.GetRelativePath(from, file)));
    }

    private static async Task<string> MakeAsync()
    {
        var all = Directory.CreateDirectory(Repository.PathOf("artifacts", "test-season")).FullName;
        var place = Path.Combine(all, Build());
        await using var door = await OpenAsync(Path.Combine(all, "door"));
        if (Directory.Exists(place))
            return place;
        foreach (var old in Directory.EnumerateDirectories(all))
        {
            if (TimeProvider.System.GetUtcNow().UtcDateTime - Directory.GetLastWriteTimeUtc(old) > TimeSpan.FromHours(2))
                Directory.Delete(old, recursive: true);
        }

        // A run that is broken off leaves no half notebook under the name that the next one looks for.
        var making = Path.Combine(all, $"making-{Guid.NewGuid():N}");
        await MakeSeason.HandleAsync(making, _ => { }, CancellationToken.None, only: ["BB"]);
        SqliteConnection.ClearAllPools();
        Directory.Move(making, place);
        return place;
    }

    private static async Task<FileStream> OpenAsync(string door)
    {
        for (var tries = 0; ; tries++)
        {
            try
            {
                return new FileStream(door, FileMode.OpenOrCreate, FileAccess.ReadWrite, FileShare.None);
            }
            catch (IOException) when (tries < 3000)
            {
                await Task.Delay(200);
            }
        }
    }

    private static string Build()
    {
        using var hash = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
        string[] others = ["Dyewort.Web.dll", "Dyewort.Web.Tests.dll", "Dyewort.Cli.Tests.dll"];
        foreach (
            var file in Directory
                .EnumerateFiles(AppContext.BaseDirectory, "Dyewort.*.dll")
                .Where(file =>
                    !others.Contains(Path.GetFileName(file))
                    && !Path.GetFileName(file).StartsWith("Dyewort.Testing", StringComparison.Ordinal)
                )
                .Order(StringComparer.Ordinal)
        )
            hash.AppendData(File.ReadAllBytes(file));
        return Convert.ToHexString(hash.GetHashAndReset())[..16];
    }
}

using Dyewort.Web.Tests;
using Xunit;

namespace Dyewort.Cli.Tests;

/// <summary>A notebook with one pot of the invented season, copied for all commands that read from a notebook.</summary>
public sealed class MadeNotebook : IAsyncLifetime
{
    public string Folder { get; } = Path.Combine(Path.GetTempPath(), $"dyewort-commands-{Guid.NewGuid():N}");

    public async ValueTask InitializeAsync() => await SeasonTemplate.CopyToAsync(Folder);

    public ValueTask DisposeAsync()
    {
        Microsoft.Data.Sqlite.SqliteConnection.ClearAllPools();
        if (Directory.Exists(Folder))
            Directory.Delete(Folder, recursive: true);
        return ValueTask.CompletedTask;
    }
}

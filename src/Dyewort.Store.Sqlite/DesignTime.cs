using Microsoft.EntityFrameworkCore.Design;

namespace Dyewort.Store.Sqlite;

/// <summary>Lets the migration tool make a model without starting the program.</summary>
internal sealed class DesignTime : IDesignTimeDbContextFactory<NotebookDb>
{
    public NotebookDb CreateDbContext(string[] args) => new(SqliteNotebook.Options("design-time.db", TimeProvider.System));
}

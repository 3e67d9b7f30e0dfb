using Dyewort.Store;
using Dyewort.Store.Sqlite;
using Microsoft.Extensions.DependencyInjection;

namespace Dyewort.Workshop;

/// <summary>An open notebook and everything that can be done with it.</summary>
public sealed class Desk
{
    private readonly SqliteNotebook notebook;
    private readonly TimeProvider clock;

    private Desk(SqliteNotebook notebook, TimeProvider clock) => (this.notebook, this.clock) = (notebook, clock);

    /// <summary>Where a maker's notebook lies unless they say otherwise.</summary>
    public static string UsualFolder => SqliteNotebook.UsualFolder;

    /// <summary>The full path of the notebook's folder.</summary>
    public string Folder => notebook.Folder;

    /// <summary>Opens a folder's notebook, and makes it when there is none.</summary>
    /// <exception cref="RefusalException">The notebook is too old for this program.</exception>
    public static async Task<Desk> OpenNotebookAsync(string folder, TimeProvider clock, CancellationToken cancel)
    {
        try
        {
            return new(await SqliteNotebook.OpenAsync(folder, clock, cancel), clock);
        }
        catch (NotebookTooOldException old)
        {
            throw new RefusalException("notebook", old.Message, old.Remedy);
        }
    }

    /// <summary>Opens a folder's notebook for a host that has no services of its own.</summary>
    public static async Task<ServiceProvider> OpenAsync(string folder, TimeProvider clock, CancellationToken cancel)
    {
        var services = new ServiceCollection();
        (await OpenNotebookAsync(folder, clock, cancel)).AddTo(services);
        return services.BuildServiceProvider();
    }

    /// <summary>Adds the notebook and every use case to a host's services.</summary>
    public void AddTo(IServiceCollection services)
    {
        services.AddSingleton(clock);
        services.AddSingleton(notebook);
        services.AddSingleton(notebook.Photos);
        services.AddSingleton(notebook.Made);
        services.AddSingleton(new Response.ModelShelf());
        services.AddSingleton<NotebookChanges>();
        services.AddScoped<NotebookDb>(host =>
        {
            var changes = host.GetRequiredService<NotebookChanges>();
            var db = notebook.NewDb();
            db.SavedChanges += (_, _) => changes.Written();
            return db;
        });
        services.AddScoped<IPotLiquors>(host => host.GetRequiredService<Response.NotebookTrials>());
        foreach (
            var useCase in typeof(IUseCase)
                .Assembly.GetTypes()
                .Where(type => type is { IsClass: true, IsAbstract: false } && type.IsAssignableTo(typeof(IUseCase)))
        )
            services.AddScoped(useCase);
    }
}

using Dyewort.Store;
using Dyewort.Store.Sqlite;
using Microsoft.Extensions.DependencyInjection;

namespace Dyewort.Workshop;

/// <summary>An open notebook and everything that can be done with it.</summary>
public static class Desk
{
    /// <summary>Adds the notebook and every use case to a host's services.</summary>
    public static IServiceCollection AddDesk(this IServiceCollection services, SqliteNotebook notebook, TimeProvider clock)
    {
        services.AddSingleton(clock);
        services.AddSingleton(notebook);
        services.AddSingleton(notebook.Photos);
        services.AddSingleton(notebook.Made);
        services.AddScoped<NotebookDb>(_ => notebook.NewDb());
        foreach (var useCase in typeof(IUseCase).Assembly.GetTypes().Where(type => type is { IsClass: true, IsAbstract: false } && type.IsAssignableTo(typeof(IUseCase))))
            services.AddScoped(useCase);
        return services;
    }

    /// <summary>Where a maker's notebook lies unless they say otherwise.</summary>
    public static string UsualFolder => SqliteNotebook.UsualFolder;

    /// <summary>Opens a folder's notebook for a host that has no services of its own.</summary>
    public static async Task<ServiceProvider> OpenAsync(string folder, TimeProvider clock, CancellationToken cancel) =>
        new ServiceCollection().AddDesk(await SqliteNotebook.OpenAsync(folder, clock, cancel), clock).BuildServiceProvider();
}

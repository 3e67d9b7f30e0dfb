using Dyewort.Workshop;
using Microsoft.Extensions.DependencyInjection;

namespace Dyewort.Cli;

/// <summary>Opens the maker's notebook for one command.</summary>
internal static class OpenNotebook
{
    /// <summary>Runs one use case on the notebook in a folder.</summary>
    /// <exception cref="RefusalException">There is no such folder: a command that only reads does not make a notebook.</exception>
    public static async Task<TAnswer> WithAsync<TUseCase, TAnswer>(
        string? folder,
        Func<TUseCase, Task<TAnswer>> run,
        CancellationToken cancel
    )
        where TUseCase : notnull
    {
        var place = folder ?? Desk.UsualFolder;
        if (!Directory.Exists(place))
            throw new RefusalException(
                "notebook",
                $"There is no notebook in “{place}”.",
                "Give its folder with --notebook, or a file instead of a code."
            );
        await using var services = await Desk.OpenAsync(place, TimeProvider.System, cancel);
        await using var scope = services.CreateAsyncScope();
        return await run(scope.ServiceProvider.GetRequiredService<TUseCase>());
    }
}

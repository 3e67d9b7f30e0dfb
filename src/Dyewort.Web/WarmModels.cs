using Dyewort.Workshop.Response;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Hosting;

namespace Dyewort.Web;

/// <summary>Learns from the notebook's trials once the pages are up, so that the first page that needs them does not wait.</summary>
internal sealed class WarmModels(IServiceScopeFactory scopes, ModelShelf shelf) : BackgroundService
{
    protected override async Task ExecuteAsync(CancellationToken stoppingToken)
    {
        await Task.Yield();
        try
        {
            await using var scope = scopes.CreateAsyncScope();
            var trials = await scope.ServiceProvider.GetRequiredService<NotebookTrials>().HandleAsync(stoppingToken);
            foreach (var plant in trials.Plants)
            {
                if (stoppingToken.IsCancellationRequested) return;
                shelf.Of(trials.Table, plant);
            }
        }
        catch (OperationCanceledException)
        {
            // Stopped before it was done: nothing was lost.
        }
    }
}

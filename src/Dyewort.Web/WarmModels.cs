using Dyewort.Workshop;
using Dyewort.Workshop.Response;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Hosting;
using Microsoft.Extensions.Logging;

namespace Dyewort.Web;

/// <summary>Learns from the notebook's trials once the pages are up, and again after something was written, so that a page that needs them
/// does not wait.</summary>
internal sealed partial class WarmModels(IServiceScopeFactory scopes, ModelShelf shelf, NotebookChanges changes, ILogger<WarmModels> log)
    : BackgroundService
{
    /// <summary>A maker types several things in a row; they are learned from together.</summary>
    private static readonly TimeSpan Pause = TimeSpan.FromSeconds(2);

    protected override async Task ExecuteAsync(CancellationToken stoppingToken)
    {
        await Task.Yield();
        while (!stoppingToken.IsCancellationRequested)
        {
            try
            {
                await LearnAsync(stoppingToken);
                await changes.NextAsync(stoppingToken);
                await Task.Delay(Pause, stoppingToken);
            }
            catch (OperationCanceledException)
            {
                // Stopped before it was done: nothing was lost.
                return;
            }
        }
    }

    private async Task LearnAsync(CancellationToken stoppingToken)
    {
        try
        {
            await using var scope = scopes.CreateAsyncScope();
            var trials = await scope.ServiceProvider.GetRequiredService<NotebookTrials>().HandleAsync(stoppingToken);
            await shelf.LearnAsync(trials.Table);
        }
#pragma warning disable CA1031 // Whatever went wrong here is met again, and told, by the page that needs the trials.
        catch (Exception problem) when (problem is not OperationCanceledException)
#pragma warning restore CA1031
        {
            CouldNotLearn(log, problem);
        }
    }

    [LoggerMessage(Level = LogLevel.Warning, Message = "The trials could not be learned from ahead of time.")]
    private static partial void CouldNotLearn(ILogger log, Exception problem);
}

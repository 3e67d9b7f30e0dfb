using System.Collections.Concurrent;
using System.Globalization;
using System.Security.Cryptography;
using System.Text;
using Dyewort.Colour;
using Dyewort.Quantities;
using Dyewort.Response;

namespace Dyewort.Workshop.Response;

/// <summary>What is learned from trials, learned when first asked for and kept while the trials it was learned from stay the
/// same.</summary>
/// <remarks>Whoever shows a page asks with <see cref="AskAsync"/> and the like, and is told when the shelf is still learning; what was
/// begun goes on meanwhile, so that the next one who asks finds it.</remarks>
public sealed class ModelShelf
{
    /// <summary>Things kept; beyond that all are thrown away and learned again when they are asked for.</summary>
    private const int Most = 96;

    /// <summary>Any colour does to try a search on.</summary>
    private static readonly Lab Grey = new(50, 0, 0);
    private readonly ConcurrentDictionary<string, Lazy<Task>> kept = new();
    private readonly TimeSpan patience;
    private readonly Func<TrialTable, string, Outcome<ResponseModel>> fit;
    private readonly TaskScheduler cores;

    /// <param name="patience">How long whoever asks waits for what is still being learned; null waits until it is done.</param>
    /// <param name="fit">Learns one plant of a table; null for what <see cref="PlantModels"/> does.</param>
    public ModelShelf(TimeSpan? patience = null, Func<TrialTable, string, Outcome<ResponseModel>>? fit = null)
    {
        this.patience = patience ?? Timeout.InfiniteTimeSpan;
        this.fit = fit ?? ((trials, plant) => new PlantModels(trials).Of(plant));

        // Where somebody waits for a page, one core is left for the pages that are asked for meanwhile.
        var most = Math.Max(1, Environment.ProcessorCount - (patience is null ? 0 : 1));
        cores = new ConcurrentExclusiveSchedulerPair(TaskScheduler.Default, most).ConcurrentScheduler;
    }

    /// <summary>The model of a plant, waited for; an empty name means the table's only plant.</summary>
    /// <returns>Refused where the plant is not in the table, or has not enough trials yet.</returns>
    public Outcome<ResponseModel> Of(TrialTable trials, string plant) => ModelAsync(trials, plant).GetAwaiter().GetResult();

    /// <summary>The models of all plants that have enough trials, and what stands in the way of the others; waited for.</summary>
    public (IReadOnlyList<ResponseModel> Models, IReadOnlyList<Problem> Refused) All(TrialTable trials)
    {
        ArgumentNullException.ThrowIfNull(trials);
        var found = new List<ResponseModel>();
        var refused = new List<Problem>();
        foreach (var fitted in Task.WhenAll(Plants(trials).Select(plant => ModelAsync(trials, plant))).GetAwaiter().GetResult())
        {
            if (fitted.TryGet(out var model))
                found.Add(model);
            else
                refused.AddRange(fitted.Problems);
        }

        return (found, refused);
    }

    /// <summary>The model of a plant, as far as patience goes.</summary>
    /// <returns>Null while it is still being learned: ask again in a moment. Refused as <see cref="Of"/> is.</returns>
    public Task<Outcome<ResponseModel>?> AskAsync(TrialTable trials, string plant, CancellationToken cancel) =>
        PatientlyAsync(ModelAsync(trials, plant), cancel);

    /// <summary>The models of all plants, each tried out on a search, as far as patience goes.</summary>
    /// <returns>Null while they are still being learned.</returns>
    public async Task<(IReadOnlyList<ResponseModel> Models, IReadOnlyList<Problem> Refused)?> AskAllAsync(
        TrialTable trials,
        CancellationToken cancel
    ) => await IsDoneAsync(LearnAsync(trials), cancel) ? All(trials) : null;

    /// <summary>The jars of a plant that are probably not what was written, as far as patience goes.</summary>
    /// <param name="gramsPerSpoon">What a spoon of each addition weighs, where known.</param>
    /// <returns>Null while they are still being looked for. Refused where there are not enough trials yet.</returns>
    public Task<Outcome<IReadOnlyList<DoubtfulJar>>?> AskForSlipsAsync(
        TrialTable trials,
        string plant,
        Doses gramsPerSpoon,
        CancellationToken cancel
    )
    {
        ArgumentNullException.ThrowIfNull(trials);
        ArgumentNullException.ThrowIfNull(gramsPerSpoon);
        var spoons = string.Join(
            '|',
            gramsPerSpoon.Select(spoon => string.Create(CultureInfo.InvariantCulture, $"{spoon.Name}={spoon.Amount:R}"))
        );
        return PatientlyAsync(
            OnceAsync(
                $"slips {spoons} {KeyOf(trials, plant)}",
                () => OnCoreAsync(() => WrongJar.Look(RowsOf(trials, plant), trials.Additions, gramsPerSpoon))
            ),
            cancel
        );
    }

    /// <summary>Learns every plant of a table, and searches each model once so that what it reckons on the way stands ready too.</summary>
    /// <returns>One task for one table, however often it is asked for; done at once where nothing is left to learn.</returns>
    public Task LearnAsync(TrialTable trials)
    {
        ArgumentNullException.ThrowIfNull(trials);
        return Task.WhenAll(
            Plants(trials)
                .Select(plant =>
                    OnceAsync(
                        $"tried {KeyOf(trials, plant)}",
                        async () =>
                            (await ModelAsync(trials, plant)).TryGet(out var learned)
                            && await OnCoreAsync(() =>
                            {
                                Match.Find(Grey, [learned]);
                                PotReach.Of(learned);
                                return true;
                            })
                    )
                )
        );
    }

    private Task<Outcome<ResponseModel>> ModelAsync(TrialTable trials, string plant)
    {
        ArgumentNullException.ThrowIfNull(trials);
        ArgumentNullException.ThrowIfNull(plant);
        if (plant.Length == 0 && Plants(trials) is [var only])
            plant = only;
        return OnceAsync($"model {KeyOf(trials, plant)}", () => OnCoreAsync(() => fit(trials, plant)));
    }

    private async Task<Outcome<T>?> PatientlyAsync<T>(Task<Outcome<T>> learning, CancellationToken cancel)
        where T : notnull => await IsDoneAsync(learning, cancel) ? await learning : null;

    private async Task<bool> IsDoneAsync(Task learning, CancellationToken cancel)
    {
        if (await Task.WhenAny(learning, Task.Delay(patience, cancel)) != learning)
        {
            cancel.ThrowIfCancellationRequested();
            return false;
        }

        await learning;
        return true;
    }

    private Task<T> OnceAsync<T>(string key, Func<Task<T>> learn)
    {
        if (!kept.ContainsKey(key) && kept.Count >= Most)
            kept.Clear();
        return (Task<T>)kept.GetOrAdd(key, _ => new(learn)).Value;
    }

    private Task<T> OnCoreAsync<T>(Func<T> learn) =>
        Task.Factory.StartNew(learn, CancellationToken.None, TaskCreationOptions.DenyChildAttach, cores);

    private static IReadOnlyList<string> Plants(TrialTable trials) => new PlantModels(trials).Plants;

    private static IReadOnlyList<TrialRow> RowsOf(TrialTable trials, string plant) =>
        [.. trials.Rows.Where(row => string.Equals(row.Point.Plant, plant, StringComparison.OrdinalIgnoreCase))];

    /// <summary>A mark of everything that is learned from.</summary>
    private static string KeyOf(TrialTable trials, string plant)
    {
        var text = new StringBuilder(plant.ToLowerInvariant());
        foreach (var addition in trials.Additions)
            text.Append('|').Append(addition);
        foreach (var row in RowsOf(trials, plant))
        {
            var point = row.Point;
            text.Append('\n')
                .Append(
                    CultureInfo.InvariantCulture,
                    $"{point.Sample}|{point.Pot}|{point.Ph:R}|{point.Wash:R}|{point.Coats:R}|{point.Paper}|{point.State}"
                )
                .Append(CultureInfo.InvariantCulture, $"|{row.Colour.L:R}|{row.Colour.A:R}|{row.Colour.B:R}|{row.UncertaintyDe00:R}");
            AppendDoses(text, point.GramsPerLitre);
        }

        foreach (var point in trials.PointsOf(plant).Where(point => point.Ph is not null))
        {
            text.Append(CultureInfo.InvariantCulture, $"\n{point.Sample}|{point.Pot}|{point.Ph:R}");
            AppendDoses(text, point.GramsPerLitre);
        }

        return Convert.ToHexString(SHA256.HashData(Encoding.UTF8.GetBytes(text.ToString())));
    }

    private static void AppendDoses(StringBuilder text, Doses doses)
    {
        foreach (var (name, amount) in doses.OrderBy(dose => dose.Name, StringComparer.Ordinal))
            text.Append(CultureInfo.InvariantCulture, $"|{name}={amount:R}");
    }
}

using Dyewort.Safety;

namespace Dyewort.Workshop.Bench;

/// <summary>What the program knows of dangers, and what it does not.</summary>
public sealed class ShowSafety(NotebookSettings settings) : IUseCase
{
    public async Task<ShowSafetyAnswer> HandleAsync(CancellationToken cancel) =>
        new(
            (await settings.ReadAsync(cancel)).PoisonCentre,
            [
                .. HazardList
                    .Keys.Select(key => HazardList.At(key))
                    .Where(hazard => hazard.Level > CareLevel.None)
                    .OrderByDescending(hazard => hazard.Level)
                    .ThenBy(hazard => hazard.Name, StringComparer.OrdinalIgnoreCase),
            ],
            [
                .. PlantHazard
                    .All.Where(plant => plant.Level > CareLevel.None)
                    .OrderByDescending(plant => plant.Level)
                    .ThenBy(plant => plant.Plant, StringComparer.OrdinalIgnoreCase),
            ],
            PairHazard.All
        );
}

/// <param name="PoisonCentre">The number that the maker wrote down; null where nobody did.</param>
/// <param name="Substances">Undiluted, worst first.</param>
/// <param name="Plants">Worst first.</param>
/// <param name="Pairs">By kinds, worst first.</param>
public sealed record ShowSafetyAnswer(
    string? PoisonCentre,
    IReadOnlyList<Hazard> Substances,
    IReadOnlyList<PlantHazard> Plants,
    IReadOnlyList<PairHazard> Pairs
)
{
    /// <summary>What to do with the rest, and of what.</summary>
    public IReadOnlyList<(string What, string Of)> Waste =>
        [
            .. Substances
                .GroupBy(hazard => hazard.Disposal)
                .OrderByDescending(group => group.Count())
                .Select(group => (group.Key, string.Join(", ", group.Select(hazard => hazard.Name)))),
        ];
}

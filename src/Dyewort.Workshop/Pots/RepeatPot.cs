using Dyewort.Notebook;
using Dyewort.Pots;
using Dyewort.Store;
using Microsoft.EntityFrameworkCore;

namespace Dyewort.Workshop.Pots;

/// <summary>What is carried when a pot is started again: everything of its making, nothing of what it became.</summary>
public sealed class RepeatPot(NotebookDb db, PlantLots lots) : IUseCase
{
    /// <returns>Null where there is no such pot.</returns>
    public async Task<RepeatPotAnswer?> HandleAsync(string? code, CancellationToken cancel)
    {
        if (await db.Pots.AsNoTracking().SingleOrDefaultAsync(one => one.Code == code, cancel) is not { } pot)
            return null;
        var lot = await db.PlantLots.AsNoTracking().SingleAsync(one => one.Id == pot.LotId, cancel);
        var plant = await db.Materials.AsNoTracking().SingleAsync(one => one.Id == lot.PlantId, cancel);
        return new(
            pot,
            lot,
            plant,
            await db.PotSheets.AsNoTracking().SingleOrDefaultAsync(one => one.PotId == pot.Id, cancel),
            [.. (await lots.HandleAsync(cancel)).Where(line => line.Plant.Id == plant.Id && line.LeftGrams is null or > 0)]
        );
    }

    /// <summary>The set-up of a pot that repeats another; minute 0, drops, water and strength are its own.</summary>
    /// <param name="old">The pot that is repeated.</param>
    /// <param name="sheet">Its set-up; null where nothing was said.</param>
    /// <param name="made">The new pot.</param>
    internal static PotSheet Carry(Pot old, PotSheet? sheet, Pot made) =>
        new()
        {
            Id = Guid.CreateVersion7(made.WrittenAt),
            WrittenAt = made.WrittenAt,
            PotId = made.Id,
            RepeatsPotId = old.Id,
            Base = sheet?.Base,
            SpiritPercent = sheet?.SpiritPercent,
            Colourants = sheet?.Colourants,
            Form = sheet?.Form,
            Pressed = sheet?.Pressed ?? false,
            VesselMl = sheet?.VesselMl,
            DiameterCm = sheet?.DiameterCm,
            Metal = sheet?.Metal ?? PotMetal.None,
            EnamelChipped = sheet?.EnamelChipped ?? false,
            SpoonMetal = sheet?.SpoonMetal ?? PotMetal.None,
            Ring = sheet?.Ring,
            HeatKw = sheet?.HeatKw,
            LidOn = sheet?.LidOn ?? false,
            Water = sheet?.Water,
            HardnessMgPerL = sheet?.HardnessMgPerL,
            AlkalinityMgPerL = sheet?.AlkalinityMgPerL,
        };
}

/// <param name="Pot">The pot that is repeated.</param>
/// <param name="Lot">The lot it was made of.</param>
/// <param name="Plant">The plant.</param>
/// <param name="Sheet">How it was set up; null where nothing was said.</param>
/// <param name="Lots">Lots of the plant that the new pot can be made of.</param>
public sealed record RepeatPotAnswer(Pot Pot, PlantLot Lot, Material Plant, PotSheet? Sheet, IReadOnlyList<PlantLotsLine> Lots);

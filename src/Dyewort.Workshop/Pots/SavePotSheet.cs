using Dyewort.Colour;
using Dyewort.Notebook;
using Dyewort.Pots;
using Dyewort.Quantities;
using Dyewort.Store;
using Microsoft.EntityFrameworkCore;

namespace Dyewort.Workshop.Pots;

/// <summary>Writes down how a pot was set up and where its water went; what stood there before is kept as a correction.</summary>
public sealed class SavePotSheet(NotebookDb db, TimeProvider clock) : IUseCase
{
    public sealed record WaterForm
    {
        public string? HoursWarm { get; init; }

        public string? FromPlantMl { get; init; }

        public string? BoiledOffMl { get; init; }

        public string? HeldMl { get; init; }

        public string? SpiltMl { get; init; }
    }

    public async Task<Outcome<string>> HandleAsync(string code, SavePotSheetForm form, CancellationToken cancel)
    {
        var entered = new Entered(await db.KitchenAsync(cancel));
        if (await FindAsync(code, cancel) is not { } sheet)
            return Missing(code);
        sheet.Base = Choice<PotBase>(entered, nameof(form.Base), form.Base);
        sheet.SpiritPercent = entered.OptionalNumber(nameof(form.SpiritPercent), form.SpiritPercent, "% by volume", 1, 100, "40");
        sheet.Colourants = Choice<ColourantClass>(entered, nameof(form.Colourants), form.Colourants);
        sheet.Form = Choice<PlantForm>(entered, nameof(form.State), form.State);
        sheet.Pressed = form.Pressed is not null;
        sheet.VesselMl = entered.Volume(nameof(form.VesselMl), form.VesselMl, 10);
        sheet.DiameterCm = entered.Length(nameof(form.DiameterCm), form.DiameterCm, 50, 1000, centimetres: true) / 10;
        sheet.Metal = entered.OneOf(nameof(form.Metal), form.Metal, PotMetal.None);
        sheet.EnamelChipped = form.EnamelChipped is not null;
        sheet.SpoonMetal = entered.OneOf(nameof(form.SpoonMetal), form.SpoonMetal, PotMetal.None);
        sheet.Ring = entered.OptionalWords(nameof(form.Ring), form.Ring, 60);
        sheet.HeatKw = entered.OptionalNumber(nameof(form.HeatKw), form.HeatKw, "kilowatts", 0.05, 50, "1");
        sheet.LidOn = form.LidOn is not null;
        sheet.Water = entered.OptionalWords(nameof(form.Water), form.Water, 60);
        sheet.HardnessMgPerL = entered.OptionalNumber(nameof(form.Hardness), form.Hardness, "mg/L as chalk", 0, 1000, "210");
        sheet.AlkalinityMgPerL = entered.OptionalNumber(nameof(form.Alkalinity), form.Alkalinity, "mg/L as chalk", 0, 1000, "150");
        sheet.Strength = entered.OptionalNumber(nameof(form.Strength), form.Strength, "strength", 0.001, 20, "0.6");
        sheet.DropPaper = string.IsNullOrWhiteSpace(form.DropPaper)
            ? null
            : entered.Take(ColourText.Parse(nameof(form.DropPaper), form.DropPaper))?.Colour;
        var repeats = entered.OptionalWords(nameof(form.Repeats), form.Repeats, 40);
        sheet.RepeatsPotId = null;
        if (repeats is not null)
        {
            var other = await db.Pots.AsNoTracking().SingleOrDefaultAsync(one => one.Code == repeats, cancel);
            if (other is null || other.Id == sheet.PotId)
                entered.Refuse(
                    nameof(form.Repeats),
                    $"There is no other pot {repeats}.",
                    "Type the code of the pot that this one repeats."
                );
            else
                sheet.RepeatsPotId = other.Id;
        }

        return await SaveAsync(entered, code, cancel);
    }

    public async Task<Outcome<string>> WaterAsync(string code, WaterForm form, CancellationToken cancel)
    {
        var entered = new Entered(await db.KitchenAsync(cancel));
        if (await FindAsync(code, cancel) is not { } sheet)
            return Missing(code);
        double? Ml(string field, string? text) => entered.Volume(field, text);
        sheet.HoursWarm = entered.Hours(nameof(form.HoursWarm), form.HoursWarm, 0, 1000);
        sheet.FromPlantMl = Ml(nameof(form.FromPlantMl), form.FromPlantMl);
        sheet.BoiledOffMl = Ml(nameof(form.BoiledOffMl), form.BoiledOffMl);
        sheet.HeldMl = Ml(nameof(form.HeldMl), form.HeldMl);
        sheet.SpiltMl = Ml(nameof(form.SpiltMl), form.SpiltMl);
        return await SaveAsync(entered, code, cancel);
    }

    /// <summary>Notes that the plant met the liquid now: minute 0.</summary>
    public async Task<Outcome<string>> StartAsync(string code, CancellationToken cancel)
    {
        if (await FindAsync(code, cancel) is not { } sheet)
            return Missing(code);
        sheet.StartedAt ??= clock.GetUtcNow();
        return await SaveAsync(new Entered(), code, cancel);
    }

    private static T? Choice<T>(Entered entered, string field, string? text)
        where T : struct, Enum => string.IsNullOrWhiteSpace(text) ? null : entered.OneOf(field, text, default(T));

    private static Outcome<string> Missing(string code) =>
        Outcome.Refused<string>("Pot", $"There is no pot {code}.", "Go back to the pots.");

    private async Task<PotSheet?> FindAsync(string code, CancellationToken cancel)
    {
        if (await db.Pots.AsNoTracking().Counting().SingleOrDefaultAsync(one => one.Code == code, cancel) is not { } pot)
            return null;
        if (await db.PotSheets.SingleOrDefaultAsync(one => one.PotId == pot.Id, cancel) is { } sheet)
            return sheet;
        var now = clock.GetUtcNow();
        sheet = new PotSheet
        {
            Id = Guid.CreateVersion7(now),
            WrittenAt = now,
            PotId = pot.Id,
        };
        db.Add(sheet);
        return sheet;
    }

    private async Task<Outcome<string>> SaveAsync(Entered entered, string code, CancellationToken cancel)
    {
        if (!entered.Sound)
        {
            // What was refused must not be saved by whoever uses this notebook next in the same request.
            db.ChangeTracker.Clear();
            return Outcome.Refused<string>(entered.Problems);
        }

        await db.SaveChangesAsync(cancel);
        return entered.Made(code);
    }
}

public sealed record SavePotSheetForm
{
    public string? Base { get; init; }

    public string? SpiritPercent { get; init; }

    public string? Colourants { get; init; }

    public string? State { get; init; }

    public string? Pressed { get; init; }

    public string? VesselMl { get; init; }

    public string? DiameterCm { get; init; }

    public string? Metal { get; init; }

    public string? EnamelChipped { get; init; }

    public string? SpoonMetal { get; init; }

    public string? Ring { get; init; }

    public string? HeatKw { get; init; }

    public string? LidOn { get; init; }

    public string? Water { get; init; }

    public string? Hardness { get; init; }

    public string? Alkalinity { get; init; }

    public string? Repeats { get; init; }

    public string? DropPaper { get; init; }

    public string? Strength { get; init; }
}

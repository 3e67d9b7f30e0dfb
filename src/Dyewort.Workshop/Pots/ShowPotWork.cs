using Dyewort.Colour;
using Dyewort.Notebook;
using Dyewort.Pots;
using Dyewort.Quantities;
using Dyewort.Store;
using Dyewort.Workshop.Find;
using Microsoft.EntityFrameworkCore;

namespace Dyewort.Workshop.Pots;

/// <summary>A pot with everything that belongs to getting its colour out: sheet, timers, drops, curve, water, hidden additions,
/// lot.</summary>
public sealed class ShowPotWork(NotebookDb db, TimeProvider clock, FindTakenBack taken) : IUseCase
{
    /// <param name="Minute">Minutes since the plant met the liquid; null while that instant is not known.</param>
    public sealed record LogLine(PotLogEntry Entry, double? Minute);

    public async Task<ShowPotWorkAnswer?> HandleAsync(string code, CancellationToken cancel)
    {
        if (await db.Pots.AsNoTracking().SingleOrDefaultAsync(one => one.Code == code, cancel) is not { } pot)
            return null;
        var lot = await db.PlantLots.AsNoTracking().SingleAsync(one => one.Id == pot.LotId, cancel);
        var plant = await db.Materials.AsNoTracking().SingleAsync(one => one.Id == lot.PlantId, cancel);
        var sheet = await db.PotSheets.AsNoTracking().SingleOrDefaultAsync(one => one.PotId == pot.Id, cancel);
        var lotSheet = await db.LotSheets.AsNoTracking().SingleOrDefaultAsync(one => one.LotId == lot.Id, cancel);
        var timers = await db
            .PotTimers.AsNoTracking()
            .Counting()
            .Where(one => one.PotId == pot.Id)
            .OrderBy(one => one.DueAt)
            .ToListAsync(cancel);
        var drops = await db
            .PotDrops.AsNoTracking()
            .Counting()
            .Where(one => one.PotId == pot.Id)
            .OrderBy(one => one.Minute)
            .ToListAsync(cancel);
        var log = await db.PotLog.AsNoTracking().Where(one => one.PotId == pot.Id).OrderBy(one => one.At).ToListAsync(cancel);
        var repeated = sheet?.RepeatsPotId is { } id
            ? await db.Pots.AsNoTracking().SingleOrDefaultAsync(one => one.Id == id, cancel)
            : null;
        var repeatedSheet = repeated is null
            ? null
            : await db.PotSheets.AsNoTracking().SingleOrDefaultAsync(one => one.PotId == repeated.Id, cancel);
        var drawn = await db
            .Pots.AsNoTracking()
            .Counting()
            .Where(one => one.LotId == lot.Id)
            .Select(one => new { one.Code, one.PlantGrams })
            .ToListAsync(cancel);

        var row = PlantGuide.Find(plant.Name);
        var colourants = sheet?.Colourants ?? row?.Colourants ?? ColourantClass.Unknown;
        var form = sheet?.Form ?? FormOf(lot.Condition) ?? row?.Form ?? PlantForm.Fresh;
        var tissue = row?.Tissue ?? Tissue.Soft;
        var heat = PlantGuide.HeatFor(plant.Name, colourants);
        var counted = log.Where(entry => entry.Counts).ToList();
        List<(double Minute, double Celsius)> temperatures = sheet?.StartedAt is { } start
            ?
            [
                .. counted
                    .Where(entry => entry.Celsius is not null)
                    .Select(entry => ((entry.At - start).TotalMinutes, entry.Celsius!.Value)),
            ]
            : [];
        var mean = temperatures.Count > 0 ? temperatures.Average(one => one.Celsius) : heat.CelsiusTypical;

        var (curve, curveProblems) = Curve(drops, sheet, temperatures, heat, CurvePrior.For(colourants, tissue));
        var rate = await RateAsync(pot, sheet, mean, cancel);
        var (water, waterProblems) = Water(pot, sheet, counted, form, mean, rate);
        var hidden = HiddenIn(pot, sheet, counted, colourants);
        var left =
            lot.Grams is { } grams
            && LotRules.Left(grams, [.. drawn.Select(one => new LotDraw(one.Code, one.PlantGrams ?? 0))]).TryGet(out var rest)
                ? rest
                : (double?)null;
        var strained = counted.Where(entry => entry.Kind == LogKind.Strained).Select(entry => entry.Ml).FirstOrDefault();
        var units =
            sheet?.Strength is { } strength
            && strained is { } ml
            && pot.PlantGrams is { } plantGrams
            && ColourSums.UnitsPerGram(strength, ml, plantGrams).TryGet(out var perGram)
                ? perGram
                : (double?)null;
        List<string> cautions = [.. BaseAdvice.Cautions(sheet?.Base ?? row?.Base ?? PotBase.Water, sheet?.Metal ?? PotMetal.None)];
        if (
            sheet is { Base: PotBase.Spirit, SpiritPercent: { } percent }
            && pot.LiquidMl is { } spiritMl
            && PotSpirit
                .Of(spiritMl, percent, pot.PlantGrams ?? 0, form, temperatures.Count > 0 ? temperatures.Max(one => one.Celsius) : null)
                .TryGet(out var spirit)
        )
            cautions =
            [
                pot.PlantGrams is null
                    ? FormattableString.Invariant(
                        $"At most {spirit.PercentByVolume:0} % alcohol: the plant was not weighed, what its water takes off is not known."
                    )
                    : FormattableString.Invariant($"About {spirit.PercentByVolume:0} % alcohol once the plant's water is in it."),
                .. spirit.Remarks,
                .. cautions,
            ];
        return new(
            pot,
            lot,
            plant,
            sheet,
            lotSheet,
            colourants,
            form,
            tissue,
            heat,
            timers,
            drops,
            [.. log.Select(entry => new LogLine(entry, sheet?.StartedAt is { } zero ? (entry.At - zero).TotalMinutes : null))],
            curve,
            curveProblems,
            water,
            waterProblems,
            rate,
            hidden,
            repeated,
            repeated is null ? [] : HiddenAdditions.Differences(Setting(repeated, repeatedSheet), Setting(pot, sheet)),
            left,
            LotRules.Against(
                lotSheet?.Bought ?? false,
                Leave(lotSheet),
                PlantUse.Sale,
                lot.GatheredOn,
                DateOnly.FromDateTime(clock.GetLocalNow().DateTime)
            ),
            cautions,
            units,
            clock.GetUtcNow(),
            mean
        )
        {
            DropsTakenBack = await taken.DropsAsync(pot, cancel),
            TimersTakenBack = await taken.TimersAsync(pot, cancel),
        };
    }

    /// <summary>The leave that a lot's fields state: its words, or what it covers, or both.</summary>
    internal static GatheringLeave? Leave(LotSheet? sheet) =>
        sheet is null or { Covers: null, LeaveFrom: null }
            ? null
            : new(sheet.LeaveFrom ?? "the owner", sheet.Covers, sheet.LeaveUntil, sheet.LeaveWritten);

    internal static PlantForm? FormOf(string? condition) =>
        condition?.Trim().ToLowerInvariant() switch
        {
            "fresh" or "frozen" => PlantForm.Fresh,
            "dry" or "dried" => PlantForm.Dry,
            "seed" or "seeds" => PlantForm.Seed,
            _ => null,
        };

    /// <summary>What pot, spoon and water gave to a liquor without anybody adding it.</summary>
    internal static IReadOnlyList<HiddenAddition> HiddenIn(
        Pot pot,
        PotSheet? sheet,
        IReadOnlyList<PotLogEntry> counted,
        ColourantClass colourants
    ) =>
        HiddenAdditions
            .Of(
                Setting(pot, sheet),
                acid: counted.LastOrDefault(entry => entry.Ph is not null)?.Ph < 5 || colourants == ColourantClass.Anthocyanin,
                Math.Clamp(sheet?.HoursWarm ?? 0.5, 0, 1000)
            )
            .TryGet(out var found)
            ? found
            : [];

    private static PotSetting Setting(Pot pot, PotSheet? sheet) =>
        new(
            pot.Vessel ?? "the pot",
            sheet?.Metal ?? PotMetal.None,
            sheet?.EnamelChipped ?? false,
            sheet?.SpoonMetal ?? PotMetal.None,
            sheet is { Water: not null } or { HardnessMgPerL: not null } or { AlkalinityMgPerL: not null }
                ? new WaterSource(sheet.Water ?? "this", sheet.HardnessMgPerL, sheet.AlkalinityMgPerL)
                : null
        );

    private static (FitPotCurveAnswer?, IReadOnlyList<Problem>) Curve(
        List<PotDrop> drops,
        PotSheet? sheet,
        List<(double Minute, double Celsius)> temperatures,
        HeatGuide guide,
        CurvePrior prior
    )
    {
        List<(double, UncertainColour)> read =
        [
            .. drops
                .Where(drop => drop.Colour is not null)
                .Select(drop => (drop.Minute, UncertainColour.FromRadius(drop.Colour!.Value, drop.RadiusDe00 ?? 2))),
        ];
        if (read.Count == 0)
            return (null, []);
        var timed = LiquorStrength.Timed(read, sheet?.DropPaper ?? Paper.DrawingPaperGuess.Colour);
        if (!timed.TryGet(out var points))
            return (null, timed.Problems);
        var history =
            temperatures.Count > 0 ? HeatHistory.FromReadings(temperatures) : Outcome.Of(HeatHistory.Steady(guide.CelsiusTypical));
        if (!history.TryGet(out var heat))
            return (null, history.Problems);
        var fitted = new FitPotCurve().Handle(points, heat, prior, 30);
        return fitted.TryGet(out var answer) ? (answer, []) : (null, fitted.Problems);
    }

    private static (WaterSumAnswer?, IReadOnlyList<Problem>) Water(
        Pot pot,
        PotSheet? sheet,
        List<PotLogEntry> log,
        PlantForm form,
        double celsius,
        BoilOffRate rate
    )
    {
        var figures = new List<WaterFigure>();
        void Line(WaterLine line, double? ml, FigureSource source = FigureSource.Measured)
        {
            if (ml is { } known)
                figures.Add(new(line, known, source));
        }

        var topped = log.Where(entry => entry.Kind == LogKind.ToppedUp).Sum(entry => entry.Ml ?? 0);
        Line(WaterLine.In, pot.LiquidMl is { } poured ? poured + topped : null);
        Line(WaterLine.Out, log.Where(entry => entry.Kind == LogKind.Strained).Select(entry => entry.Ml).FirstOrDefault());
        Line(WaterLine.FromPlant, sheet?.FromPlantMl, FigureSource.Estimated);
        Line(WaterLine.BoiledOff, sheet?.BoiledOffMl, FigureSource.Estimated);
        Line(WaterLine.Held, sheet?.HeldMl, FigureSource.Estimated);
        Line(WaterLine.Spilt, sheet?.SpiltMl, FigureSource.Estimated);
        if (!figures.Exists(figure => figure.Line == WaterLine.In) || !figures.Exists(figure => figure.Line == WaterLine.Out))
            return (null, []);
        var closed = WaterSum.Close(
            figures,
            new PotFacts(
                pot.PlantGrams,
                form,
                sheet?.Pressed ?? false,
                sheet?.HoursWarm ?? 0,
                Math.Clamp(celsius, 0, 100),
                sheet?.HoursWarm is > 0 ? rate : null,
                sheet?.HeatKw
            )
        );
        return closed.TryGet(out var answer) ? (answer, []) : (null, closed.Problems);
    }

    /// <summary>The pot's boil-off rate, learned from all pots of the same vessel on the same ring.</summary>
    private async Task<BoilOffRate> RateAsync(Pot pot, PotSheet? sheet, double celsius, CancellationToken cancel)
    {
        var boils = await (
            from one in db.PotSheets.AsNoTracking()
            join other in db.Pots.Counting() on one.PotId equals other.Id
            where one.BoiledOffMl > 0 && one.HoursWarm > 0 && other.Id != pot.Id
            select new
            {
                one.BoiledOffMl,
                one.HoursWarm,
                one.Ring,
                one.LidOn,
                one.HeatKw,
                other.Vessel,
                other.LotId,
                other.Id,
            }
        ).ToListAsync(cancel);
        var ids = boils.Select(one => one.Id).ToList();
        var warm = (
            await db
                .PotLog.AsNoTracking()
                .Counting()
                .Where(entry => ids.Contains(entry.PotId) && entry.Celsius != null)
                .Select(entry => new { entry.PotId, entry.Celsius })
                .ToListAsync(cancel)
        )
            .GroupBy(entry => entry.PotId)
            .ToDictionary(group => group.Key, group => group.Average(entry => entry.Celsius!.Value));
        List<BoilOffRecord> records =
        [
            .. boils.Select(one => new BoilOffRecord(
                one.Vessel ?? "",
                one.Ring ?? "",
                one.LidOn,
                Math.Clamp(warm.GetValueOrDefault(one.Id, 90), 0, 100),
                one.HoursWarm!.Value,
                one.BoiledOffMl!.Value,
                one.HeatKw is > 0 ? one.HeatKw : null
            )),
        ];
        var asked = BoilOff.Predict(
            records,
            pot.Vessel ?? "",
            sheet?.Ring ?? "",
            sheet?.LidOn ?? false,
            Math.Clamp(celsius, 20, 100),
            sheet?.DiameterCm,
            sheet?.HeatKw
        );
        return asked.TryGet(out var rate) ? rate : new BoilOffRate(0.42, 0.2, 0.9, 0);
    }
}

public sealed record ShowPotWorkAnswer(
    Pot Pot,
    PlantLot Lot,
    Material Plant,
    PotSheet? Sheet,
    LotSheet? LotSheet,
    ColourantClass Colourants,
    PlantForm Form,
    Tissue Tissue,
    HeatGuide Heat,
    IReadOnlyList<PotTimer> Timers,
    IReadOnlyList<PotDrop> Drops,
    IReadOnlyList<ShowPotWork.LogLine> Log,
    FitPotCurveAnswer? Curve,
    IReadOnlyList<Problem> CurveProblems,
    WaterSumAnswer? Water,
    IReadOnlyList<Problem> WaterProblems,
    BoilOffRate Rate,
    IReadOnlyList<HiddenAddition> Hidden,
    Pot? Repeats,
    IReadOnlyList<string> Differences,
    double? LotLeftGrams,
    IReadOnlyList<string> AgainstSale,
    IReadOnlyList<string> Cautions,
    double? UnitsPerGram,
    DateTimeOffset Now,
    double MeanCelsius
)
{
    /// <summary>Drops that were taken back.</summary>
    public IReadOnlyList<TakenBackLine> DropsTakenBack { get; init; } = [];

    /// <summary>Timers that were taken back.</summary>
    public IReadOnlyList<TakenBackLine> TimersTakenBack { get; init; } = [];

    /// <summary>The liquor as strained, before any reducing.</summary>
    public double? StrainedMl =>
        Log.Where(line => line.Entry.Counts && line.Entry.Kind == LogKind.Strained).Select(line => line.Entry.Ml).FirstOrDefault();

    /// <summary>Minutes since the plant met the liquid.</summary>
    public double? MinuteNow => Sheet?.StartedAt is { } start ? (Now - start).TotalMinutes : null;
}

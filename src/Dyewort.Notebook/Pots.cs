using Dyewort.Quantities;

namespace Dyewort.Notebook;

/// <summary>One extraction: plant, liquid, vessel, heat and time; its yield is the liquor.</summary>
public sealed class Pot : Entry
{
    /// <summary>Such as "EB25-1": the plant's letters, the year, a number.</summary>
    public required string Code { get; init; }

    /// <summary>The lot of plant that went in.</summary>
    public required Guid LotId { get; set; }

    /// <summary>The day it was made.</summary>
    public required DateOnly MadeOn { get; set; }

    /// <summary>Grams of plant in the pot.</summary>
    public double? PlantGrams { get; set; }

    /// <summary>How much plant as it was said, where that is more than a number of grams: "½ head", "14 oz", "2 handfuls".</summary>
    public string? PlantSaid { get; set; }

    /// <summary>What it was filled with, in the maker's words.</summary>
    public string? Liquid { get; set; }

    /// <summary>Millilitres of that liquid.</summary>
    public double? LiquidMl { get; set; }

    /// <summary>How much liquid as it was said, where that is more than a number of millilitres: "6 cups".</summary>
    public string? LiquidSaid { get; set; }

    /// <summary>The vessel and what it is made of: a reactive pot is an addition nobody meant.</summary>
    public string? Vessel { get; set; }

    /// <summary>How it was made, in the maker's words.</summary>
    public string? How { get; set; }
}

/// <summary>What a line in a pot's log says.</summary>
public enum LogKind
{
    /// <summary>Something seen or done.</summary>
    Note,

    /// <summary>A temperature was read.</summary>
    Temperature,

    /// <summary>pH was tested.</summary>
    Ph,

    /// <summary>The liquor was strained and measured: the pot's yield.</summary>
    Strained,

    /// <summary>The liquor was boiled down and measured again.</summary>
    Reduced,

    /// <summary>Some of the liquor went somewhere else than into a sample or a batch.</summary>
    PouredAway,

    /// <summary>Liquid was poured on.</summary>
    ToppedUp,

    /// <summary>The pot foamed or boiled over.</summary>
    FoamedOver,
}

/// <summary>One line of a pot's log.</summary>
public sealed class PotLogEntry : Entry
{
    /// <summary>The pot.</summary>
    public required Guid PotId { get; init; }

    /// <summary>When it happened, UTC.</summary>
    public required DateTimeOffset At { get; set; }

    /// <summary>What it says.</summary>
    public required LogKind Kind { get; set; }

    /// <summary>Degrees Celsius, for a temperature.</summary>
    public double? Celsius { get; set; }

    /// <summary>pH, for a test.</summary>
    public double? Ph { get; set; }

    /// <summary>What that pH was read with; null where nobody said.</summary>
    public PhTool? PhBy { get; set; }

    /// <summary>Millilitres: what there was after straining or boiling down, or what was poured away.</summary>
    public double? Ml { get; set; }

    /// <summary>The maker's words.</summary>
    public string? Said { get; set; }
}

/// <summary>How much liquor a pot gave and how much is left.</summary>
public static class LiquorSum
{
    /// <summary>How far two readings of one volume may lie apart: a measuring jug is read to about one part in fifty (common practice, no
    /// source).</summary>
    public const double JugReads = 1.02;

    /// <summary>Millilitres that went into a pot, the plant's own juice with them: a gram gives less than a millilitre; a plant that was
    /// not weighed is taken for as much again as the liquid.</summary>
    /// <returns>Null where nobody said how much liquid there was.</returns>
    public static double? WentInMl(Pot pot)
    {
        ArgumentNullException.ThrowIfNull(pot);
        return pot.LiquidMl + (pot.PlantGrams ?? pot.LiquidMl);
    }

    /// <summary>True where more was drawn than two readings of one volume can lie apart.</summary>
    /// <param name="leftMl">What is left, millilitres; below zero where more was drawn than was measured.</param>
    /// <param name="measuredMl">The liquor as it was last measured, millilitres.</param>
    public static bool IsOverdrawn(double? leftMl, double? measuredMl) => leftMl < -(JugReads - 1) * (measuredMl ?? 0) - 1e-6;

    /// <summary>Millilitres left: the last measured volume, less all that was drawn after it was measured.</summary>
    /// <param name="log">The pot's log.</param>
    /// <param name="drawn">What was taken for samples and batches: when, and how many millilitres.</param>
    /// <returns>Null while nobody measured the liquor; may be below zero when more was drawn than was measured.</returns>
    public static double? LeftMl(IEnumerable<PotLogEntry> log, IEnumerable<(DateTimeOffset At, double Ml)> drawn)
    {
        var counted = log.Where(entry => entry.Counts).OrderBy(entry => entry.At).ToList();
        var measured = counted.LastOrDefault(entry => entry.Kind is LogKind.Strained or LogKind.Reduced && entry.Ml is not null);
        if (measured?.Ml is not { } ml)
            return null;
        var away = counted.Where(entry => entry.Kind == LogKind.PouredAway && entry.At >= measured.At).Sum(entry => entry.Ml ?? 0);
        return ml - away - drawn.Where(take => take.At >= measured.At).Sum(take => take.Ml);
    }

    /// <summary>The liquor as it was last measured, millilitres; null while nobody measured it.</summary>
    public static double? MeasuredMl(IEnumerable<PotLogEntry> log) =>
        log.Where(entry => entry.Counts && entry.Kind is LogKind.Strained or LogKind.Reduced)
            .OrderBy(entry => entry.At)
            .LastOrDefault()
            ?.Ml;
}

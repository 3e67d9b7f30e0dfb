using Dyewort.Colour;
using Dyewort.Pots;

namespace Dyewort.Notebook;

/// <summary>What a stranger must know to make a pot again, beyond plant, liquid and the log: one for each pot.</summary>
public sealed class PotSheet : Entry
{
    /// <summary>The pot.</summary>
    public required Guid PotId { get; init; }

    /// <summary>When the plant met the liquid, UTC: minute 0 of the drops; null until it is said.</summary>
    public DateTimeOffset? StartedAt { get; set; }

    /// <summary>What kind of liquid dissolves the colour.</summary>
    public PotBase? Base { get; set; }

    /// <summary>Strength of the spirit, % by volume, where it is spirit.</summary>
    public double? SpiritPercent { get; set; }

    /// <summary>The class of colourant; null takes what the table says of the plant.</summary>
    public ColourantClass? Colourants { get; set; }

    /// <summary>The state of the plant as weighed.</summary>
    public PlantForm? Form { get; set; }

    /// <summary>Whether the plant was pressed after straining.</summary>
    public bool Pressed { get; set; }

    /// <summary>The vessel to the brim, millilitres.</summary>
    public double? VesselMl { get; set; }

    /// <summary>Its inside, centimetres across.</summary>
    public double? DiameterCm { get; set; }

    /// <summary>What the vessel is inside.</summary>
    public PotMetal Metal { get; set; }

    /// <summary>Whether its enamel is chipped.</summary>
    public bool EnamelChipped { get; set; }

    /// <summary>What spoon and sieve are.</summary>
    public PotMetal SpoonMetal { get; set; }

    /// <summary>The ring or hob.</summary>
    public string? Ring { get; set; }

    /// <summary>Kilowatts reaching the liquor.</summary>
    public double? HeatKw { get; set; }

    /// <summary>Whether the lid lay on.</summary>
    public bool LidOn { get; set; }

    /// <summary>Where the water came from, such as "rain butt".</summary>
    public string? Water { get; set; }

    /// <summary>Its hardness as calcium carbonate, mg/L.</summary>
    public double? HardnessMgPerL { get; set; }

    /// <summary>Its alkalinity as calcium carbonate, mg/L.</summary>
    public double? AlkalinityMgPerL { get; set; }

    /// <summary>Hours warm.</summary>
    public double? HoursWarm { get; set; }

    /// <summary>Water and juice that the plant gave, millilitres.</summary>
    public double? FromPlantMl { get; set; }

    /// <summary>Gone as steam, millilitres.</summary>
    public double? BoiledOffMl { get; set; }

    /// <summary>Kept back by the plant, millilitres.</summary>
    public double? HeldMl { get; set; }

    /// <summary>Spilt, foamed over, taken for drops, millilitres.</summary>
    public double? SpiltMl { get; set; }

    /// <summary>Tinting strength of the liquor as strained, absorbance-like.</summary>
    public double? Strength { get; set; }

    /// <summary>The bare paper that the drops are on, where it was read.</summary>
    public Xyz? DropPaper { get; set; }

    /// <summary>The pot that this one repeats.</summary>
    public Guid? RepeatsPotId { get; set; }
}

/// <summary>Where a lot came from and what it may be used for: one for each lot.</summary>
public sealed class LotSheet : Entry
{
    /// <summary>The lot.</summary>
    public required Guid LotId { get; init; }

    /// <summary>Whether it was bought.</summary>
    public bool Bought { get; set; }

    /// <summary>Who sold it; private.</summary>
    public string? Supplier { get; set; }

    /// <summary>Who gave leave to gather it, in the maker's words; private.</summary>
    public string? LeaveFrom { get; set; }

    /// <summary>What the leave covers; null where that was not said.</summary>
    public PlantUse? Covers { get; set; }

    /// <summary>Last day of the leave.</summary>
    public DateOnly? LeaveUntil { get; set; }

    /// <summary>Whether the leave is in writing.</summary>
    public bool LeaveWritten { get; set; }

    /// <summary>A part of it weighed fresh, grams …</summary>
    public double? DriedFromGrams { get; set; }

    /// <summary>… and again bone dry, grams.</summary>
    public double? DriedToGrams { get; set; }
}

/// <summary>A timer at the stove: two stored instants, so that it runs on whatever happens to page, phone or program.</summary>
public sealed class PotTimer : Entry
{
    /// <summary>The pot.</summary>
    public required Guid PotId { get; init; }

    /// <summary>What it is for, such as "next drop".</summary>
    public required string Name { get; set; }

    /// <summary>When it was started, UTC.</summary>
    public required DateTimeOffset StartedAt { get; init; }

    /// <summary>When it is up, UTC.</summary>
    public required DateTimeOffset DueAt { get; set; }

    /// <summary>When somebody answered it, UTC; null while nobody has.</summary>
    public DateTimeOffset? AnsweredAt { get; set; }

    /// <summary>Time left at an instant; below zero once it is up.</summary>
    public TimeSpan Left(DateTimeOffset now) => DueAt - now;
}

/// <summary>A drop or dip of a pot on paper, with its minute.</summary>
public sealed class PotDrop : Entry
{
    /// <summary>The pot.</summary>
    public required Guid PotId { get; init; }

    /// <summary>Minutes since the plant met the liquid.</summary>
    public required double Minute { get; set; }

    /// <summary>Its colour, dry, once it was read.</summary>
    public Xyz? Colour { get; set; }

    /// <summary>ΔE₀₀ within which 95 of 100 readings lie.</summary>
    public double? RadiusDe00 { get; set; }

    /// <summary>What was seen, in the maker's words.</summary>
    public string? Said { get; set; }
}

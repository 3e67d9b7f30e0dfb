namespace Dyewort.Workshop;

/// <summary>What a <see cref="Thing"/> of the notebook is.</summary>
public enum ThingKind
{
    Lot,
    Pot,
    Trial,
    Jar,
    Chart,
    Swatch,
    Recipe,
    Batch,
    Bottle,
    Material,

    /// <summary>A line of a pot's log, by its key.</summary>
    LogLine,

    /// <summary>A timer of a pot, by its key.</summary>
    Timer,

    /// <summary>A drop of a pot, by its key.</summary>
    Drop,

    /// <summary>A house strip or card, by its key.</summary>
    Strip,

    /// <summary>All recipes.</summary>
    Recipes,

    /// <summary>All batches.</summary>
    Batches,

    /// <summary>All bottles; with a code, those of that batch.</summary>
    Bottles,
}

/// <summary>One entry of the notebook by its code. Where it is shown is a host's matter.</summary>
/// <param name="Kind">What it is.</param>
/// <param name="Code">Its code or key; of a trial, a jar or a swatch the code of the pot or chart it belongs to.</param>
/// <param name="Part">The trial's letter, the jar, or the swatch's cell.</param>
public sealed record Thing(ThingKind Kind, string Code = "", string Part = "")
{
    public static Thing Pot(string code) => new(ThingKind.Pot, code);

    public static Thing Trial(string pot, string letter) => new(ThingKind.Trial, pot, letter);

    public static Thing Jar(string pot, string jar) => new(ThingKind.Jar, pot, jar);

    public static Thing Chart(string code) => new(ThingKind.Chart, code);

    public static Thing Swatch(string chart, string cell) => new(ThingKind.Swatch, chart, cell);

    public static Thing Recipe(string code) => new(ThingKind.Recipe, code);

    public static Thing Batch(string code) => new(ThingKind.Batch, code);

    public static Thing Bottle(string code) => new(ThingKind.Bottle, code);
}

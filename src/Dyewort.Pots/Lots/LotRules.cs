using Dyewort.Quantities;

namespace Dyewort.Pots;

/// <summary>What gathered plant may be used for.</summary>
public enum PlantUse
{
    /// <summary>For oneself, for trials, as gifts.</summary>
    Personal,

    /// <summary>For anything that is sold, paid classes included.</summary>
    Sale,
}

/// <summary>Leave to gather.</summary>
/// <param name="From">Who gave it, in the maker's words; private.</param>
/// <param name="Covers">What it covers: sale covers personal use too; null where the maker has not said.</param>
/// <param name="Until">Last day it holds; null when no end was said.</param>
/// <param name="Written">Whether it is in writing.</param>
public sealed record GatheringLeave(string From, PlantUse? Covers, DateOnly? Until = null, bool Written = false);

/// <summary>Grams taken out of a lot.</summary>
/// <param name="For">The pot's code, or what else became of it.</param>
/// <param name="Grams">Grams as the lot was weighed (fresh for a fresh lot).</param>
public sealed record LotDraw(string For, double Grams);

/// <summary>A plant weighed fresh and again bone dry.</summary>
/// <param name="FreshGrams">Before, g.</param>
/// <param name="DryGrams">After, g.</param>
public sealed record DryingRecord(double FreshGrams, double DryGrams);

/// <summary>How many grams fresh make one gram dry.</summary>
/// <param name="Ratio">Fresh over dry.</param>
/// <param name="Low">Lower end of the 90 % band.</param>
/// <param name="High">Upper end.</param>
/// <param name="Records">How many own weighings it rests on.</param>
/// <param name="Source">Where it comes from, in a sentence.</param>
public sealed record FreshToDry(double Ratio, double Low, double High, int Records, string Source)
{
    /// <summary>Dry grams that a fresh weight stands for.</summary>
    public Band ToDry(double freshGrams) => new(freshGrams / Ratio, freshGrams / High, freshGrams / Low);

    /// <summary>Fresh grams that a dry weight stands for.</summary>
    public Band ToFresh(double dryGrams) => new(dryGrams * Ratio, dryGrams * Low, dryGrams * High);
}

/// <summary>Rules of a plant lot: may it be used, how much is left, what does it weigh dry.</summary>
public static class LotRules
{
    /// <summary>Why a lot may not be used for something on a day, in sentences; empty if nothing speaks against it.</summary>
    /// <param name="bought">Whether it was bought: then the invoice is its permission.</param>
    /// <param name="permission">Leave to gather, if any.</param>
    /// <param name="use">What it is to be used for.</param>
    /// <param name="gathered">The day it was gathered.</param>
    /// <param name="usedOn">The day it is to be used; only a permission that still holds may be gathered under again.</param>
    /// <remarks>Where picking for sale needs leave that picking for oneself does not: England and Wales, Theft Act 1968 s. 4(3), as quoted
    /// by a foraging site; elsewhere ask local rules.</remarks>
    public static IReadOnlyList<string> Against(bool bought, GatheringLeave? permission, PlantUse use, DateOnly? gathered, DateOnly usedOn)
    {
        if (bought)
            return [];
        var against = new List<string>();
        if (permission is null)
        {
            against.Add(
                use == PlantUse.Sale
                    ? "No permission is on file: what is sold needs the landowner's leave, even where picking for oneself is free. "
                        + "Ask, and ask local rules."
                    : "No permission is on file: note who said yes, or that none is needed here."
            );
            return against;
        }

        if (permission.Covers is null)
        {
            against.Add($"What “{permission.From}” covers is not said: choose own use or sale in the lot.");
            return against;
        }

        if (use == PlantUse.Sale && permission.Covers != PlantUse.Sale)
            against.Add(
                $"The permission from {permission.From} covers personal use, not sale: keep this lot out of bottles that are sold, "
                    + $"or ask again."
            );
        if (permission.Until is { } last && gathered > last)
            against.Add(Sentence.Of($"It was gathered on {gathered:yyyy-MM-dd}, after the permission ended on {last:yyyy-MM-dd}."));
        if (use == PlantUse.Sale && !permission.Written)
            against.Add("The permission is not in writing: get a line before selling.");
        if (permission.Until is { } over && usedOn > over && gathered is null)
            against.Add(
                Sentence.Of($"The permission ended on {over:yyyy-MM-dd}, and the day of gathering is not known: write it into the lot.")
            );
        if (permission.Until is { } end && usedOn > end && gathered <= end)
            against.Add(Sentence.Of($"The permission ended on {end:yyyy-MM-dd}: this lot may still be used, but no more may be gathered."));
        return against;
    }

    /// <summary>Grams left in a lot.</summary>
    /// <param name="grams">What the lot weighed.</param>
    /// <param name="draws">What was taken.</param>
    /// <returns>Refused when more was taken than there was (2 % weighing error allowed).</returns>
    public static Outcome<double> Left(double grams, IReadOnlyList<LotDraw> draws)
    {
        if (grams is not (>= 0 and <= 1e7))
            return Refused(Sentence.Bad("grams", $"A lot of {grams:0.#} g is outside 0 to 10,000,000 g.", "Give what it weighed."));
        if (draws.FirstOrDefault(draw => draw.Grams is not (>= 0 and <= 1e7)) is { } bad)
            return Refused(Sentence.Bad("draw", $"{bad.Grams:0.#} g for {bad.For} cannot be taken.", "Give grams, 0 or more."));
        var taken = draws.Sum(draw => draw.Grams);
        return taken <= grams * 1.02
            ? Outcome.Of(Math.Max(0, grams - taken))
            : Refused(
                Sentence.Bad(
                    "draw",
                    $"{taken:0.#} g were taken from a lot of {grams:0.#} g.",
                    "Weigh what is left, or correct the lot or a pot."
                )
            );

        static Outcome<double> Refused(Problem problem) => Outcome.Refused<double>([problem]);
    }

    /// <summary>Fresh to dry from the maker's own weighings, else by the rule of thumb.</summary>
    /// <param name="records">Weighings of this plant and part.</param>
    /// <remarks>Rule of thumb: fresh weight over 4 (one teacher's lake instructions), taken as 2.5 to 6.5.</remarks>
    public static Outcome<FreshToDry> Dry(IReadOnlyList<DryingRecord> records)
    {
        if (
            records.FirstOrDefault(record => !(record.DryGrams > 0 && record.FreshGrams >= record.DryGrams && record.FreshGrams <= 1e7)) is
            { } bad
        )
            return Outcome.Refused<FreshToDry>([
                Sentence.Bad(
                    "drying",
                    $"{bad.FreshGrams:0.##} g fresh and {bad.DryGrams:0.##} g dry cannot belong together.",
                    "Fresh weighs more than dry: check which is which."
                ),
            ]);
        var next = new LogNormalLearner(
            [.. records.Select(record => Math.Log(record.FreshGrams / record.DryGrams))],
            Math.Log(4),
            0.3,
            0.12
        );
        return Outcome.Of(
            records.Count == 0
                ? new FreshToDry(4, 2.5, 6.5, 0, "rule of thumb, one teacher's")
                : new FreshToDry(
                    next.Quantile(0.5),
                    Math.Max(1, next.Quantile(0.05)),
                    next.Quantile(0.95),
                    records.Count,
                    "your own drying weights"
                )
        );
    }

    /// <summary>Whether a plant is dry: its weight no longer changes between two weighings.</summary>
    /// <param name="weighings">Grams, in order of time.</param>
    /// <param name="scaleStep">The step of the scale, g.</param>
    public static bool IsDry(IReadOnlyList<double> weighings, double scaleStep) =>
        weighings.Count >= 2 && weighings[^1] > 0 && Math.Abs(weighings[^1] - weighings[^2]) <= Math.Max(scaleStep, 0.005 * weighings[^1]);

    /// <summary>Share of water still in a plant: (now − bone dry) / now, 0 to 1.</summary>
    public static double MoistureLeft(double nowGrams, double boneDryGrams) =>
        nowGrams > 0 ? Math.Clamp((nowGrams - boneDryGrams) / nowGrams, 0, 1) : 0;
}

using Dyewort.Quantities;
using Dyewort.Safety;

namespace Dyewort.Pots;

/// <summary>A pot of the past, as far as it teaches what the next will give.</summary>
/// <param name="Code">Its code.</param>
/// <param name="PlantGrams">Plant that went in, g.</param>
/// <param name="LiquidMillilitres">Liquid poured in, ml.</param>
/// <param name="StrainedMillilitres">Liquor strained out before any reducing, ml.</param>
/// <param name="Strength">Its strength as strained, where it was read.</param>
public sealed record PastPot(string Code, double PlantGrams, double LiquidMillilitres, double StrainedMillilitres, double? Strength = null);

/// <summary>What is wanted from a pot.</summary>
/// <param name="Plant">The plant's name.</param>
/// <param name="Bottles">How many bottles, 0 if <paramref name="LiquorMillilitres"/> says how much liquor.</param>
/// <param name="FillMillilitres">What goes into one, ml.</param>
/// <param name="LiquorMillilitres">Liquor wanted at the end, where no bottles are.</param>
/// <param name="KeptBackMillilitres">Kept for look-agains and matching, ml.</param>
/// <param name="FilterLoss">Share lost in filters, 0 to 0.5; 3 % is usual (common practice, no source).</param>
/// <param name="AdditionsMillilitresPer100">Gum water and other liquids added to 100 ml of liquor, ml.</param>
/// <param name="ReduceTo">Liquor after reducing over liquor strained, above 0 to 1; 1 does not reduce.</param>
/// <param name="WantedStrength">Strength wanted at the end; with past strengths it decides plant and reducing instead of
/// <paramref name="ReduceTo"/>.</param>
public sealed record PotWish(
    string Plant,
    int Bottles = 0,
    double FillMillilitres = 0,
    double LiquorMillilitres = 0,
    double KeptBackMillilitres = 0,
    double FilterLoss = 0.03,
    double AdditionsMillilitresPer100 = 0,
    double ReduceTo = 1,
    double? WantedStrength = null
);

/// <summary>With what it is to be made.</summary>
/// <param name="Form">The state of the plant; null takes the table's.</param>
/// <param name="Colourants">Its class; null takes the table's.</param>
/// <param name="GramsPer100Millilitres">Plant for 100 ml of liquid poured in; null takes the last pots', else the table's.</param>
/// <param name="PotMillilitres">The pot to the brim, ml; null asks no questions.</param>
/// <param name="FillShare">How full it may be, 0.2 to 0.9; null takes 66 %, and half for berries and alkaline pots, which foam.</param>
/// <param name="PlantOnHandGrams">What there is of the plant.</param>
/// <param name="Past">Pots of this plant in this state.</param>
/// <param name="BoilOff">The pot's boil-off rate, for the time of reducing.</param>
/// <param name="Base">The liquid; null takes the table's.</param>
/// <param name="Metal">The pot's metal.</param>
/// <param name="SpiritPercent">Strength of the spirit, % by volume, where the liquid is spirit.</param>
public sealed record PotMeans(
    PlantForm? Form = null,
    ColourantClass? Colourants = null,
    double? GramsPer100Millilitres = null,
    double? PotMillilitres = null,
    double? FillShare = null,
    double? PlantOnHandGrams = null,
    IReadOnlyList<PastPot>? Past = null,
    BoilOffRate? BoilOff = null,
    PotBase? Base = null,
    PotMetal Metal = PotMetal.None,
    double? SpiritPercent = null
);

/// <summary>One step of the way back from the bottles.</summary>
/// <param name="What">What it is.</param>
/// <param name="Millilitres">How much, ml.</param>
/// <param name="Why">How it follows.</param>
public sealed record PlanStep(string What, double Millilitres, string Why);

/// <summary>A pot planned backwards from its bottles.</summary>
/// <param name="Plant">The plant, as the table calls it where it knows it.</param>
/// <param name="Steps">Bottles, batch, liquor, strained liquor.</param>
/// <param name="PlantGrams">Plant that half of such pots would need, g, and the band that 8 of 10 lie in.</param>
/// <param name="SafePlantGrams">Plant that would have been enough in 8 of 10, g: pick this much.</param>
/// <param name="LiquidMillilitres">Liquid to pour on <paramref name="SafePlantGrams"/>, ml.</param>
/// <param name="StrainedMillilitres">Liquor to expect from it, ml.</param>
/// <param name="ReduceTo">Liquor after reducing over liquor strained.</param>
/// <param name="YieldSource">What the yield rests on, in a sentence.</param>
/// <param name="FillShare">How full the pot will be; null without a pot.</param>
/// <param name="Pots">In how many goes it must be made.</param>
/// <param name="Heat">Heat and time.</param>
/// <param name="Colourants">The class.</param>
/// <param name="Base">The liquid.</param>
/// <param name="BaseWhy">Why that one.</param>
/// <param name="Reducing">The reduction, where one is planned.</param>
/// <param name="Spirit">What the plant's water makes of the spirit, where the liquid is spirit of known strength.</param>
/// <param name="Hazards">What is known against the plant.</param>
/// <param name="Cautions">What to mind, in sentences.</param>
/// <param name="Warnings">What does not fit, in sentences.</param>
public sealed record PotPlan(
    string Plant,
    IReadOnlyList<PlanStep> Steps,
    Band PlantGrams,
    double SafePlantGrams,
    double LiquidMillilitres,
    double StrainedMillilitres,
    double ReduceTo,
    string YieldSource,
    double? FillShare,
    int Pots,
    HeatGuide Heat,
    ColourantClass Colourants,
    PotBase Base,
    string BaseWhy,
    ReductionPlan? Reducing,
    PotSpirit? Spirit,
    IReadOnlyList<PlantHazard> Hazards,
    IReadOnlyList<string> Cautions,
    IReadOnlyList<string> Warnings
);

/// <summary>Plans a pot backwards: bottles → batch → liquor → strained liquor → plant and liquid.</summary>
/// <remarks>The yield (ml strained per gram of plant, or colour units per gram) is learned from the maker's own pots; until there are
/// some it follows from the table's ratio and from what plants usually give and keep, with the spread of those figures.</remarks>
public static class PotPlanner
{
    private const double UsualScatter = 0.16;

    /// <summary>Plans a pot.</summary>
    public static Outcome<PotPlan> Plan(PotWish wish, PotMeans means)
    {
        var row = PlantGuide.Find(wish.Plant);
        var problems = Check(wish, means, row);
        if (problems.Count > 0)
            return Outcome.Refused<PotPlan>(problems);

        var form = means.Form ?? row?.Form ?? PlantForm.Dry;
        var colourants = means.Colourants ?? row?.Colourants ?? ColourantClass.Unknown;
        var liquid = means.Base ?? row?.Base ?? BaseAdvice.For(colourants)[0].Base;
        var past = means.Past ?? [];
        var warnings = new List<string>();

        var steps = new List<PlanStep>();
        var bottled = wish.Bottles > 0 ? wish.Bottles * wish.FillMillilitres : wish.LiquorMillilitres;
        if (wish.Bottles > 0)
            steps.Add(new("in bottles", bottled, Sentence.Of($"{wish.Bottles} × {wish.FillMillilitres:0.#} ml")));
        var filtered = (bottled + wish.KeptBackMillilitres) / (1 - wish.FilterLoss);
        steps.Add(
            new(
                "before filtering",
                filtered,
                Sentence.Of($"{wish.KeptBackMillilitres:0.#} ml kept back, {100 * wish.FilterLoss:0.#} % lost in filters")
            )
        );
        var liquor = filtered / (1 + (wish.AdditionsMillilitresPer100 / 100));
        if (wish.AdditionsMillilitresPer100 > 0)
            steps.Add(new("liquor", liquor, Sentence.Of($"{wish.AdditionsMillilitresPer100:0.#} ml of gum water and the like to 100 ml")));

        var ratio = means.GramsPer100Millilitres ?? RatioOf(past) ?? row?.Typical;
        var guess = ratio is { } known ? TableYield(form, known) : (double?)null;
        var volumes = Learn(past.Select(pot => pot.StrainedMillilitres / pot.PlantGrams), guess);
        var read = past.Where(pot => pot.Strength > 0).ToList();
        var byStrength = wish.WantedStrength is not null && read.Count > 0;
        if (wish.WantedStrength is not null && read.Count == 0)
            warnings.Add("No pot of this plant has a strength yet, so the plan goes by volume: take drops this time.");

        double reduceTo,
            middle,
            low,
            high,
            safe;
        string source;
        if (byStrength)
        {
            var units = Learn(read.Select(pot => pot.Strength!.Value * pot.StrainedMillilitres / pot.PlantGrams), null);
            double Needed(double chance) => wish.WantedStrength!.Value * liquor / units.Quantile(chance);
            (middle, low, high, safe) = (Needed(0.5), Needed(0.9), Needed(0.1), Needed(0.2));
            reduceTo = liquor / (middle * volumes.Quantile(0.5));
            source = Sentence.Of($"colour units per gram of {read.Count} of your own pots");
            if (reduceTo > 1)
            {
                warnings.Add(
                    Sentence.Of(
                        $"The liquor would come out {reduceTo:0.##} times too strong: thin it with "
                            + $"{liquor - (middle * volumes.Quantile(0.5)):0} ml of water, or pour on more to begin with."
                    )
                );
                reduceTo = 1;
            }
        }
        else
        {
            reduceTo = wish.ReduceTo;
            double Needed(double chance) => liquor / reduceTo / volumes.Quantile(chance);
            (middle, low, high, safe) = (Needed(0.5), Needed(0.9), Needed(0.1), Needed(0.2));
            source =
                past.Count > 0
                    ? Sentence.Of($"liquor per gram of {past.Count} of your own pots")
                    : "the table's ratio and what plants usually give and keep: nothing of yours yet";
        }

        var strained = liquor / reduceTo;
        if (reduceTo < 1)
            steps.Add(new("strained", strained, Sentence.Of($"reduced to {100 * reduceTo:0} %")));
        var water = 100 * safe / ratio!.Value;
        steps.Add(new("liquid poured in", water, Sentence.Of($"{ratio:0.#} g of plant to 100 ml, for {safe:0} g")));

        var heat = PlantGuide.HeatFor(wish.Plant, colourants);
        var foams =
            (form == PlantForm.Fresh && colourants is ColourantClass.Anthocyanin or ColourantClass.Betalain) || liquid == PotBase.Alkali;
        var mayFill = means.FillShare ?? (foams ? 0.5 : 0.66);
        var (full, pots) = Fit(means, form, safe, water, mayFill, foams, warnings);
        if (means.PlantOnHandGrams is { } onHand && onHand < safe)
        {
            warnings.Add(
                onHand >= middle
                    ? Sentence.Of($"{onHand:0} g are at hand: enough in about half of such pots, {safe:0} g would be safer.")
                    : Sentence.Of(
                        $"{onHand:0} g are at hand, about {100 * onHand / middle:0} % of what half of such pots need: plan fewer "
                            + $"bottles or find more."
                    )
            );
        }

        ReductionPlan? reducing = null;
        if (reduceTo < 1)
        {
            var rate =
                means.BoilOff
                ?? (
                    BoilOff.Predict([], "", "", lidOn: false, 96).TryGet(out var usual)
                        ? usual
                        : throw new InvalidOperationException("The usual rate is always known.")
                );
            if (Reduction.ToVolume(new PotToReduce(strained, rate), liquor).TryGet(out var plan))
                reducing = plan;
        }

        PotSpirit? spirit = null;
        if (liquid == PotBase.Spirit && means.SpiritPercent is { } percent)
        {
            var mixed = PotSpirit.Of(water, percent, safe, form, heat.CelsiusTypical);
            if (!mixed.TryGet(out spirit))
                return Outcome.Refused<PotPlan>(mixed.Problems);
            warnings.AddRange(spirit.Remarks);
        }

        var advice = BaseAdvice.For(colourants);
        var why = advice.Where(one => one.Base == liquid).Select(one => one.Why).FirstOrDefault() ?? "as you chose";
        if (colourants != ColourantClass.Unknown && advice.All(one => one.Base != liquid))
            warnings.Add($"This class of colour is usually drawn with {Word(advice[0].Base)}: {advice[0].Why}.");
        var hazards = PlantHazard.For(wish.Plant);
        List<string> cautions =
        [
            .. hazards.Select(hazard => $"{Capital(hazard.Plant)}: {hazard.Words}"),
            .. BaseAdvice.Cautions(liquid, means.Metal),
        ];
        if (heat.CelsiusCeiling < 100)
            cautions.Insert(
                hazards.Count,
                Sentence.Of($"Not above {heat.CelsiusCeiling:0} °C{(heat.Note.Length > 0 ? ": " + heat.Note : "")}.")
            );
        return Outcome.Of(
            new PotPlan(
                row?.Name ?? wish.Plant.Trim(),
                steps,
                new Band(middle, low, high),
                safe,
                water,
                strained,
                reduceTo,
                source,
                full,
                pots,
                heat,
                colourants,
                liquid,
                why,
                reducing,
                spirit,
                hazards,
                cautions,
                warnings
            )
        );
    }

    private static LogNormalLearner Learn(IEnumerable<double> figures, double? guess)
    {
        List<double> logs = [.. figures.Select(figure => Math.Log(figure))];
        var centre = guess is { } known ? Math.Log(known) : logs.Average();
        return new LogNormalLearner(logs, centre, logs.Count == 0 ? 1 : 0.1, logs.Count == 0 ? 0.3 : UsualScatter);
    }

    private static double? RatioOf(IReadOnlyList<PastPot> past) =>
        past.Count == 0 ? null : Math.Exp(past.Average(pot => Math.Log(100 * pot.PlantGrams / pot.LiquidMillilitres)));

    /// <summary>Millilitres strained per gram by the table's ratio: what is poured on, plus what the plant gives, less what it keeps and a
    /// tenth for steam.</summary>
    private static double TableYield(PlantForm form, double gramsPer100)
    {
        var poured = 100 / gramsPer100;
        var given = form == PlantForm.Fresh ? 0.5 : 0;
        var kept = form switch
        {
            PlantForm.Fresh => 0.1,
            PlantForm.Seed => 1.0,
            _ => 2.0,
        };
        return Math.Max(0.2 * poured, (0.9 * poured) + given - kept);
    }

    private static (double? Full, int Pots) Fit(
        PotMeans means,
        PlantForm form,
        double grams,
        double water,
        double mayFill,
        bool foams,
        List<string> warnings
    )
    {
        if (means.PotMillilitres is not { } brim)
            return (null, 1);

        // Fresh plant takes its weight in millilitres; dry plant swells into the liquid and lifts it by about 0.7 ml/g (common practice, no
        // source).
        var volume = water + (grams * (form == PlantForm.Fresh ? 1.0 : 0.7));
        var full = volume / brim;
        if (full <= mayFill)
            return (full, 1);
        var pots = (int)Math.Ceiling(volume / (brim * mayFill));
        warnings.Add(
            Sentence.Of(
                $"Plant and liquid make {volume:0} ml, {100 * full:0} % of this pot; {100 * mayFill:0} % is the "
                    + $"most{(foams ? ", it foams" : "")}: make it in {pots} goes, or take a pot of {volume / mayFill / 1000:0.#} litres."
            )
        );
        return (full, pots);
    }

    private static List<Problem> Check(PotWish wish, PotMeans means, PlantRatio? row)
    {
        var problems = new List<Problem>();
        if (string.IsNullOrWhiteSpace(wish.Plant))
            problems.Add(new("plant", "No plant is named.", "Say which plant, such as elderberry."));
        if (wish.Bottles is < 0 or > 100_000)
            problems.Add(Sentence.Bad("bottles", $"{wish.Bottles} bottles is outside 0 to 100,000.", "Say how many."));
        if (wish.Bottles > 0 && wish.FillMillilitres is not (> 0 and <= 5000))
            problems.Add(
                Sentence.Bad(
                    "fill",
                    $"{wish.FillMillilitres:0.#} ml in a bottle is outside 0 to 5000 ml.",
                    "Say what one bottle is filled with."
                )
            );
        if (wish.Bottles == 0 && wish.LiquorMillilitres is not (> 0 and <= 1e6))
            problems.Add(
                new("bottles", "Neither bottles nor liquor are wanted.", "Say how many bottles and their fill, or how many millilitres.")
            );
        if (wish.KeptBackMillilitres is not (>= 0 and <= 1e5))
            problems.Add(
                Sentence.Bad("keep-back", $"{wish.KeptBackMillilitres:0.#} ml kept back is outside 0 to 100,000 ml.", "Give millilitres.")
            );
        if (wish.FilterLoss is not (>= 0 and <= 0.5))
            problems.Add(
                Sentence.Bad(
                    "filter-loss",
                    $"A filter loss of {wish.FilterLoss:0.##} is outside 0 to 0.5.",
                    "Give the share, such as 0.03 for 3 %."
                )
            );
        if (wish.AdditionsMillilitresPer100 is not (>= 0 and <= 300))
            problems.Add(
                Sentence.Bad(
                    "additions",
                    $"{wish.AdditionsMillilitresPer100:0.#} ml to 100 ml is outside 0 to 300.",
                    "Give millilitres added to 100 ml of liquor."
                )
            );
        if (wish.ReduceTo is not (> 0.01 and <= 1))
            problems.Add(
                Sentence.Bad(
                    "reduce-to",
                    $"Reducing to {wish.ReduceTo:0.###} is outside 0.01 to 1.",
                    "Give liquor after over liquor before, such as 0.5."
                )
            );
        if (wish.WantedStrength is { } strength && strength is not (> 0 and <= 20))
            problems.Add(
                Sentence.Bad(
                    "strength",
                    $"A strength of {strength:0.###} is outside 0 to 20.",
                    "Give the strength a liquor of yours was read at."
                )
            );
        if (means.GramsPer100Millilitres is { } ratio && ratio is not (> 0 and <= 2000))
            problems.Add(
                Sentence.Bad("ratio", $"{ratio:0.##} g to 100 ml is outside 0 to 2000.", "Give grams of plant to 100 ml of liquid.")
            );
        if (means.PotMillilitres is { } brim && brim is not (> 0 and <= 1e6))
            problems.Add(Sentence.Bad("pot", $"A pot of {brim:0.#} ml is outside 0 to 1,000,000 ml.", "Give what it holds to the brim."));
        if (means.FillShare is { } share && share is not (>= 0.2 and <= 0.9))
            problems.Add(
                Sentence.Bad(
                    "fill-share",
                    $"Filling to {share:0.##} is outside 0.2 to 0.9.",
                    "Leave head-room: 0.5 for berries, 0.66 else."
                )
            );
        if (means.PlantOnHandGrams is { } onHand && onHand is not (>= 0 and <= 1e7))
            problems.Add(Sentence.Bad("on-hand", $"{onHand:0.#} g at hand is outside 0 to 10,000,000 g.", "Give grams."));
        foreach (var pot in means.Past ?? [])
        {
            if (
                !(
                    pot.PlantGrams > 0
                    && pot.LiquidMillilitres > 0
                    && pot.StrainedMillilitres > 0
                    && pot.PlantGrams + pot.LiquidMillilitres + pot.StrainedMillilitres < 1e8
                )
            )
                problems.Add(new("past", $"{pot.Code} has no plant, liquid or strained liquor.", "Leave it out or complete it."));
        }

        if (PlantHazard.For(wish.Plant).FirstOrDefault(known => known.Level == CareLevel.Stop) is { } deadly)
            return
            [
                new("plant", $"No pot of {wish.Plant.Trim()} is planned. Beware: {deadly.Words}", "Leave it out of the pot: it can kill."),
            ];
        if (means.GramsPer100Millilitres is null && means.Past is not { Count: > 0 } && row?.Typical is null && problems.Count == 0)
        {
            problems.Add(
                new(
                    "plant",
                    $"The table has no ratio for {wish.Plant.Trim()}, and no pot of yours says one."
                        + string.Concat(PlantHazard.For(wish.Plant).Take(1).Select(known => $" Beware: {known.Words}")),
                    row is null ? "Give grams of plant to 100 ml of liquid." : $"Give grams to 100 ml of liquid; makers say: {row.Note}."
                )
            );
        }

        return problems;
    }

    private static string Word(PotBase liquid) => liquid.ToString().ToLowerInvariant();

    private static string Capital(string word) => word.Length == 0 ? word : char.ToUpperInvariant(word[0]) + word[1..];
}

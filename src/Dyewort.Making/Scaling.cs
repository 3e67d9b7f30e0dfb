using System.Globalization;
using Dyewort.Chemistry;
using Dyewort.Quantities;

namespace Dyewort.Making;

/// <summary>One addition at the new volume.</summary>
/// <param name="Name">What is added.</param>
/// <param name="Entered">The recipe's own amount.</param>
/// <param name="Amount">The same unit at the new volume, not rounded to anything.</param>
/// <param name="Grams">Its mass; null when its spoon weight is unknown.</param>
/// <param name="Millilitres">Its volume as spooned or poured; null for a weighed powder whose spoon weight is unknown.</param>
/// <param name="Spoons">The nearest spoons that exist; null when it is too little for ⅛ teaspoon or is no matter for spoons.</param>
/// <param name="SpoonErrorPercent">What those spoons hold too much (+) or too little (−), in per cent; null with
/// <paramref name="Spoons"/>.</param>
/// <param name="Remark">What a maker should know about it; null when nothing.</param>
public sealed record ScaledLine(
    string Name,
    Amount Entered,
    Amount Amount,
    Mass? Grams,
    Volume? Millilitres,
    Spoons? Spoons,
    double? SpoonErrorPercent,
    string? Remark
)
{
    /// <summary>Lower end of what such a measure may weigh; null with <see cref="Grams"/>.</summary>
    public Mass? GramsLow { get; init; }

    /// <summary>Upper end.</summary>
    public Mass? GramsHigh { get; init; }

    /// <summary>What a kitchen scale can weigh of it.</summary>
    /// <param name="step">The smallest difference the scale shows, above zero.</param>
    /// <returns>The nearest multiple of that step and what it is too much (+) or too little (−), in per cent; null when the grams are
    /// unknown or zero, or the multiple is more than a tonne.</returns>
    public (Mass Weighed, double ErrorPercent)? OnAScale(Mass step)
    {
        if (Grams is not { Grams: > 0 and var grams })
            return null;
        var weighed = Math.Round(grams / step.Grams, MidpointRounding.AwayFromZero) * step.Grams;
        return weighed <= Mass.MaxGrams ? (Mass.FromGrams(weighed), 100 * ((weighed / grams) - 1)) : null;
    }
}

/// <summary>A volume near the wanted one at which everything that was spooned or counted comes out whole.</summary>
/// <param name="Volume">The volume.</param>
/// <param name="Lines">What is spooned or counted there, in words, in the recipe's order: “alum 4 tsp”.</param>
public sealed record WholeSpoons(Volume Volume, IReadOnlyList<string> Lines);

/// <summary>A recipe carried to another volume.</summary>
/// <param name="From">The recipe's volume of liquor.</param>
/// <param name="To">The new one.</param>
/// <param name="Factor">To divided by from.</param>
/// <param name="Lines">The additions in their order.</param>
/// <param name="Nearby">A volume within a tenth at which the spoons come out whole; null when there is none, or when they do
/// already.</param>
public sealed record ScaledRecipe(Volume From, Volume To, double Factor, IReadOnlyList<ScaledLine> Lines, WholeSpoons? Nearby)
{
    private const double Near = 0.1;

    /// <summary>Carries a recipe to another volume. The proportions stay; masses and volumes grow by the same factor.</summary>
    /// <param name="card">The recipe; its lines bring their spoon weights where they are known.</param>
    /// <param name="to">The new volume of liquor, above zero.</param>
    /// <param name="kind">Which teaspoon.</param>
    public static Outcome<ScaledRecipe> Make(RecipeCard card, Volume to, Teaspoon kind)
    {
        if (to.Millilitres <= 0)
            return Outcome.Refused<ScaledRecipe>("to", "The new volume is nothing.", "Type a volume, such as 1.5 L.");
        var factor = to.Millilitres / card.Volume.Millilitres;
        var lines = new List<ScaledLine>();
        foreach (var line in card.Lines)
        {
            if (line.Amount.Number * factor > 100_000)
                return Outcome.Refused<ScaledRecipe>(
                    "to",
                    $"That would take more than 100,000 {line.Amount.Unit.ToString().ToLowerInvariant()}s of {line.Name}.",
                    "Check the volume and its unit."
                );
            if (Scale(line, factor, kind) is not { } scaled)
                return Outcome.Refused<ScaledRecipe>(
                    "to",
                    $"That would take more than a tonne of {line.Name}.",
                    "Check the volume and its unit, and what the recipe says of it."
                );
            lines.Add(scaled);
        }

        return Outcome.Of(new ScaledRecipe(card.Volume, to, factor, lines, FindNearby(card, factor, kind)));
    }

    /// <returns>Null where it would weigh more than a tonne, or fill more than a thousand litres.</returns>
    private static ScaledLine? Scale(RecipeLine line, double factor, Teaspoon kind)
    {
        var amount = line.Amount.Times(factor);
        var weighed = (line.Weighs ?? NamedSubstance.Own(line.Name)).Weigh(amount, kind);
        if (!amount.Fits(1) || (weighed.GramsHigh ?? weighed.Grams) > Mass.MaxGrams || weighed.Millilitres > Volume.MaxMillilitres)
            return null;
        Mass? grams = weighed.Grams is { } mass ? Mass.FromGrams(mass) : null;
        Volume? millilitres = weighed.Millilitres is { } volume ? Volume.FromMillilitres(volume) : null;
        string? remark = null;
        Spoons? spoons = null;
        double? error = null;
        if (amount.Unit is AmountUnit.Piece)
        {
            var whole = Math.Round(amount.Number, MidpointRounding.AwayFromZero);
            var ranges = amount is { Least: { } least, Most: { } most } && Math.Floor(most) >= Math.Ceiling(least);
            if (!ranges && Math.Abs(whole - amount.Number) > 1e-6)
            {
                remark =
                    whole == 0
                        ? $"Less than half a {amount.Counted}: weigh a part of one."
                        : string.Create(
                            CultureInfo.InvariantCulture,
                            $"{whole:0} of them are {Percent(100 * ((whole / amount.Number) - 1))}."
                        );
            }
        }
        else if (amount.Unit is AmountUnit.Drop)
        {
            if (amount.Number > 40)
                remark = string.Create(
                    CultureInfo.InvariantCulture,
                    $"Rather measure {Figures.Say(millilitres!.Value.Millilitres, 2)} ml than count so many drops; drops differ by "
                        + $"dropper and liquid."
                );
            else if (Math.Abs(amount.Number - Math.Round(amount.Number)) > 0.05)
                remark = $"Count {Math.Round(amount.Number, MidpointRounding.AwayFromZero):0}.";
        }
        else if (millilitres is { } spooned && spooned.Millilitres > 0)
        {
            var teaspoons = spooned.Millilitres / KitchenMeasures.TeaspoonMillilitres(kind);
            spoons = Spoons.Nearest(teaspoons);
            error = spoons?.ErrorPercent(teaspoons);
            if (spoons is null)
                remark = "Less than a spoon can measure: weigh it, or dissolve a weighed amount in water and measure the solution.";
            else if (spoons.Scoops > 20)
                remark = "So many spoons are easily miscounted: weigh it.";
            else if (Math.Abs(error!.Value) > 5)
                remark = "The spoons miss by more than one part in twenty: weigh it.";
        }

        if (grams is null && remark is null && amount.Unit is not AmountUnit.Drop)
            remark = "Weigh one level teaspoon of it once, then grams can be said.";
        return new ScaledLine(line.Name, line.Amount, amount, grams, millilitres, spoons, error, remark)
        {
            GramsLow = weighed.GramsLow is { } low ? Mass.FromGrams(low) : null,
            GramsHigh = weighed.GramsHigh is { } high ? Mass.FromGrams(high) : null,
        };
    }

    private static string Percent(double percent) =>
        string.Create(CultureInfo.InvariantCulture, $"{Math.Abs(percent):0.#} % too {(percent > 0 ? "much" : "little")}");

    /// <summary>
    /// Amounts that people spoon are small fractions, so factors at which all are multiples of a spoon are the multiples of one number:
    /// the least common multiple of spoon ÷ amount over all lines. The coarsest spoon whose nearest such factor is within a tenth is taken.
    /// </summary>
    private static WholeSpoons? FindNearby(RecipeCard card, double factor, Teaspoon kind)
    {
        var lines = new List<(RecipeLine Line, Ratio Number, bool IsSpooned)>();
        foreach (var line in card.Lines)
        {
            if (line.Amount.Number <= 0)
                continue;
            double? number = line.Amount.Unit switch
            {
                AmountUnit.Teaspoon => line.Amount.Number,
                AmountUnit.Tablespoon => 3 * line.Amount.Number,
                AmountUnit.Pinch => line.Amount.Number / 16,
                AmountUnit.Dash => line.Amount.Number / 8,
                AmountUnit.Piece => line.Amount.Number,
                _ => null,
            };
            if (number is not { } counted)
                continue;
            if (line.Amount.SaidKind is { } said && said != kind)
                return null;
            if (Ratio.Of(counted) is not { } ratio)
                return null;
            lines.Add((line, ratio, line.Amount.Unit is not AmountUnit.Piece));
        }

        if (lines.Count == 0)
            return null;
        foreach (var spoon in new[] { new Ratio(1, 1), new Ratio(1, 2), new Ratio(1, 4), new Ratio(1, 8) })
        {
            Ratio? step = null;
            foreach (var (_, number, isSpooned) in lines)
            {
                var one = (isSpooned ? spoon : new Ratio(1, 1)).Over(number);
                step = step is { } sofar ? sofar.LeastCommonMultiple(one) : one;
                if (step is null)
                    break;
            }

            if (step is not { } found)
                continue;
            var nearest = Math.Max(1, Math.Round(factor / found.Value, MidpointRounding.AwayFromZero)) * found.Value;
            if (Math.Abs(nearest - factor) < 1e-9 * factor)
                return null;
            if (Math.Abs(nearest - factor) > Near * factor)
                continue;
            if (card.Volume.Millilitres * nearest > Volume.MaxMillilitres || lines.Exists(line => !line.Line.Amount.Fits(nearest)))
                return null;
            var volume = Volume.FromMillilitres(card.Volume.Millilitres * nearest);
            return new WholeSpoons(
                volume,
                [
                    .. lines.Select(line =>
                        $"{line.Line.Name} "
                        + $"{(line.IsSpooned ? Whole(line.Number.Value * nearest) : line.Line.Amount.Times(nearest).ToString())}"
                    ),
                ]
            );
        }

        return null;
    }

    private static string Whole(double teaspoons)
    {
        var eighths = (int)Math.Round(8 * teaspoons, MidpointRounding.AwayFromZero);
        return new Spoons(eighths / 24, eighths % 24).ToString();
    }

    /// <summary>A fraction of whole numbers, kept in lowest terms.</summary>
    private readonly record struct Ratio(long Top, long Bottom)
    {
        public double Value => (double)Top / Bottom;

        /// <summary>The fraction with a denominator of at most 96 that a typed amount means; null when it means none.</summary>
        public static Ratio? Of(double number)
        {
            for (long bottom = 1; bottom <= 96; bottom++)
            {
                var top = Math.Round(number * bottom);
                if (top >= 1 && Math.Abs((number * bottom) - top) < 1e-7)
                    return new Ratio((long)top, bottom);
            }

            return null;
        }

        public Ratio Over(Ratio other)
        {
            var (top, bottom) = (Top * other.Bottom, Bottom * other.Top);
            var common = GreatestCommonDivisor(top, bottom);
            return new Ratio(top / common, bottom / common);
        }

        /// <summary>Null when it would be beyond any pot.</summary>
        public Ratio? LeastCommonMultiple(Ratio other)
        {
            var top = Top / GreatestCommonDivisor(Top, other.Top) * other.Top;
            return top > 1_000_000_000 ? null : new Ratio(top, GreatestCommonDivisor(Bottom, other.Bottom));
        }

        private static long GreatestCommonDivisor(long first, long second) =>
            second == 0 ? first : GreatestCommonDivisor(second, first % second);
    }
}

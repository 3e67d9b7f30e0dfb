using Dyewort.Quantities;

namespace Dyewort.Notebook;

/// <summary>An amount as it was said, and what it weighs and takes up: what additions, recipes, batches and plans hold of it.</summary>
/// <remarks>The words, the number and the unit say the same; nothing reads the words again.</remarks>
public sealed record MeasuredAmount
{
    /// <summary>As it was entered: "¼ tsp".</summary>
    public required string Text { get; init; }

    /// <summary>The number in it, 0 to 100,000.</summary>
    public required double Number { get; init; }

    /// <summary>The unit in it.</summary>
    public required AmountUnit Unit { get; init; }

    /// <summary>What was counted, in the singular; null unless the unit is a piece.</summary>
    public string? Counted { get; init; }

    /// <summary>Which measures the words named; null where they left that to the notebook.</summary>
    public Teaspoon? Spoon { get; init; }

    /// <summary>Whose measures were meant on the day it was written, where the words left that to the notebook; null for what is the same
    /// in every kitchen.</summary>
    public Teaspoon? Kitchen { get; init; }

    /// <summary>The fewest of a range of pieces, "3-4 cloves"; null where no range was said.</summary>
    public double? Least { get; init; }

    /// <summary>The most of it.</summary>
    public double? Most { get; init; }

    /// <summary>Grams, when the amount could be carried to a mass.</summary>
    public double? Grams { get; init; }

    /// <summary>Lower end of what it may have weighed; null where nobody said.</summary>
    public double? GramsLow { get; init; }

    /// <summary>Upper end.</summary>
    public double? GramsHigh { get; init; }

    /// <summary>Millilitres as poured or levelled in a measure, when known.</summary>
    public double? Ml { get; init; }

    /// <summary>An amount with what is known of its weight.</summary>
    public static MeasuredAmount Of(Amount amount, double? grams, double? gramsLow = null, double? gramsHigh = null, double? ml = null)
    {
        ArgumentNullException.ThrowIfNull(amount);
        return new()
        {
            Text = amount.Text,
            Number = amount.Number,
            Unit = amount.Unit,
            Counted = amount.Counted,
            Spoon = amount.SaidKind,
            Kitchen = amount.Kitchen,
            Least = amount.Least,
            Most = amount.Most,
            Grams = grams,
            GramsLow = gramsLow,
            GramsHigh = gramsHigh,
            Ml = ml,
        };
    }

    /// <summary>The amount that was said.</summary>
    public Amount ToAmount() => Kitchen is { } kitchen ? Written().In(kitchen) : Written();

    /// <summary>Its words, with the kitchen it was meant in where that is not the reader's: “½ metric tsp”. <see cref="Amount.Parse"/>
    /// reads them back as they were meant.</summary>
    public string TextIn(Teaspoon kitchen) => ToAmount().TextIn(kitchen);

    private Amount Written() => Amount.Written(Text, Number, Unit, Counted, Spoon, Least, Most);

    /// <summary>This amount and another together: what two steps of one addition come to.</summary>
    /// <returns>In their own unit where both have one, else in grams; null where neither can be said.</returns>
    public MeasuredAmount? Plus(MeasuredAmount other)
    {
        ArgumentNullException.ThrowIfNull(other);
        var grams = Grams + other.Grams;
        var sum = ToAmount().Plus(other.ToAmount());
        if (sum is null && grams is >= 0 and <= 100_000)
            sum = Amount.Of(grams.Value, AmountUnit.Gram);
        if (sum is null)
            return null;
        var both = Of(sum, grams, GramsLow + other.GramsLow, GramsHigh + other.GramsHigh, Ml + other.Ml);
        return both.Fits(1) ? both : null;
    }

    /// <summary>What several steps of one addition come to, in the words of the only one where there is one.</summary>
    /// <param name="amounts">At least one.</param>
    /// <returns>Null where it cannot be said as one amount.</returns>
    public static MeasuredAmount? Sum(IEnumerable<MeasuredAmount> amounts) =>
        amounts.Select(one => (MeasuredAmount?)one).Aggregate((sum, next) => sum?.Plus(next!));

    /// <summary>True where so many times it is still an amount that can be written down: within an amount's number, a tonne and a
    /// thousand litres, at the upper end of what it may weigh.</summary>
    public bool Fits(double factor) =>
        ToAmount().Fits(factor) && (GramsHigh ?? Grams ?? 0) * factor <= Mass.MaxGrams && (Ml ?? 0) * factor <= Volume.MaxMillilitres;

    /// <summary>The same so many times over; the words stay as they were said where the factor is 1.</summary>
    public MeasuredAmount Times(double factor) =>
        Math.Abs(factor - 1) < 1e-9
            ? this
            : Of(ToAmount().Times(factor), Grams * factor, GramsLow * factor, GramsHigh * factor, Ml * factor);
}

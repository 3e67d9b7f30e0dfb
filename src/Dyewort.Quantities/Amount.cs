namespace Dyewort.Quantities;

/// <summary>How much, as a person says it: <c>1/4 tsp</c>, <c>1½ tbsp</c>, <c>2.5 g</c>, <c>a pinch</c>, <c>4 cloves</c>.</summary>
/// <remarks>
/// Keeps what was typed (<see cref="Text"/>) beside what it means (<see cref="Number"/> of <see cref="Unit"/>); nothing is converted until
/// a mass or a volume is asked for. A spoon is a level spoon. The number is 0 to 100,000 and never NaN; of “3-4 cloves” it is the middle,
/// 3.5, and the ends stand beside it.
/// Two amounts are equal when they mean the same, however they were typed.
/// </remarks>
public sealed class Amount : IEquatable<Amount>
{
    internal const double MaxNumber = 100_000;

    private Amount(string text, double number, AmountUnit unit, string? counted, Teaspoon? said, double? least = null, double? most = null)
    {
        Text = text;
        Number = number;
        Unit = unit;
        Counted = counted;
        SaidKind = said;
        Least = least;
        Most = most;
    }

    private Amount(Amount other, Teaspoon kitchen)
        : this(other.Text, other.Number, other.Unit, other.Counted, other.SaidKind, other.Least, other.Most) => Kitchen = kitchen;

    /// <summary>What was typed, without the spaces around it.</summary>
    public string Text { get; }

    /// <summary>How many of <see cref="Unit"/>.</summary>
    public double Number { get; }

    /// <summary>What it was measured with.</summary>
    public AmountUnit Unit { get; }

    /// <summary>What was counted, in the singular (“clove”), when the unit is <see cref="AmountUnit.Piece"/>; otherwise null.</summary>
    public string? Counted { get; }

    /// <summary>Which measures the text itself named (“imperial pint”); null where it left that to the notebook.</summary>
    public Teaspoon? SaidKind { get; }

    /// <summary>The fewest, where a range of pieces was said; otherwise null.</summary>
    public double? Least { get; }

    /// <summary>The most, where a range of pieces was said; otherwise null.</summary>
    public double? Most { get; }

    /// <summary>Whose measures were meant where the text left that to the notebook; null where the notebook of the day is to be asked, and
    /// for what is the same in every kitchen.</summary>
    public Teaspoon? Kitchen { get; }

    /// <summary>The same, meant in a kitchen: it stays what it was when the notebook's kitchen becomes another.</summary>
    public Amount In(Teaspoon kitchen) => SaidKind is null && KitchenMeasures.DependsOnKitchen(Unit) ? new(this, kitchen) : this;

    /// <summary>Whose measures it is in: what the text named, else what was meant on its day, else the notebook's.</summary>
    public Teaspoon KindIn(Teaspoon notebook) => SaidKind ?? Kitchen ?? notebook;

    /// <summary>Reads an amount.</summary>
    /// <param name="field">The field or option it stands in.</param>
    /// <param name="text">What was typed.</param>
    public static Outcome<Amount> Parse(string field, string? text) => AmountText.Read(field, text);

    /// <summary>Reads an amount; a number without a unit counts what the field counts.</summary>
    internal static Outcome<Amount> ParseBare(string field, string? text, AmountUnit? bare)
    {
        if (
            bare is not { } unit
            || !AmountText.Lead(field, text, "").TryGet(out var lead)
            || lead.After.Count > 0
            || lead.Number > MaxNumber * 10
        )
            return Parse(field, text);
        // A bare number of millilitres or grams may go further than an amount: 150000 ml is a vat.
        return Outcome.Of(new Amount((text ?? "").Trim(), lead.Number, unit, null, null));
    }

    /// <summary>An amount the program itself proposes; its text is its own wording.</summary>
    /// <param name="number">0 to 100,000.</param>
    /// <param name="unit">Any unit but <see cref="AmountUnit.Piece"/>.</param>
    /// <exception cref="ArgumentOutOfRangeException">The number is outside its range or NaN, or the unit is a piece.</exception>
    public static Amount Of(double number, AmountUnit unit)
    {
        if (number is not (>= 0 and <= MaxNumber))
            throw new ArgumentOutOfRangeException(nameof(number), number, "Allowed: 0 to 100,000.");
        if (unit is AmountUnit.Piece)
            throw new ArgumentOutOfRangeException(nameof(unit), unit, "A piece needs its name.");
        return new Amount(Say(number, unit, null, null), number, unit, null, null);
    }

    /// <summary>An amount as it was written down: what <see cref="Parse"/> made of its text, without reading it again.</summary>
    /// <param name="text">What was typed.</param>
    /// <param name="number">0 to 100,000.</param>
    /// <param name="unit">The unit.</param>
    /// <param name="counted">What was counted, for a piece.</param>
    /// <param name="said">Which measures the text named.</param>
    /// <param name="least">The fewest, where a range was said.</param>
    /// <param name="most">The most, where a range was said.</param>
    /// <exception cref="ArgumentOutOfRangeException">The number is outside its range or NaN.</exception>
    public static Amount Written(
        string text,
        double number,
        AmountUnit unit,
        string? counted,
        Teaspoon? said,
        double? least = null,
        double? most = null
    ) =>
        number is >= 0 and <= MaxNumber
            ? new(text, number, unit, counted, said, least, most)
            : throw new ArgumentOutOfRangeException(nameof(number), number, "Allowed: 0 to 100,000.");

    /// <summary>True for what is poured or dropped, and so adds to a volume.</summary>
    public bool IsPoured => Unit is AmountUnit.Millilitre or AmountUnit.Litre or AmountUnit.Drop;

    /// <summary>The volume it takes up.</summary>
    /// <param name="field">The field or option it stands in, for the refusal.</param>
    /// <param name="kind">The notebook's teaspoon; what the text named goes before it.</param>
    public Outcome<Volume> ToVolume(string field, Teaspoon kind)
    {
        if (KitchenMeasures.Millilitres(Unit, KindIn(kind)) is { } size)
            return Fits<Volume>(field, Number * size, Volume.FromMillilitres);
        return Outcome.Refused<Volume>(field, $"“{Text}” cannot be turned into a volume.", "Give a volume, such as 2 ml.");
    }

    /// <summary>What it weighs.</summary>
    /// <param name="field">The field or option it stands in, for the refusal.</param>
    /// <remarks>Only weights: what a spoon or a piece weighs depends on what is in it, and chemistry knows that.</remarks>
    public Outcome<Mass> ToMass(string field)
    {
        if (KitchenMeasures.Grams(Unit) is { } grams)
            return Fits<Mass>(field, Number * grams, Mass.FromGrams);
        return Outcome.Refused<Mass>(field, $"“{Text}” cannot be turned into grams.", "Give grams, such as 0.5 g.");
    }

    /// <summary>True where <see cref="Times"/> gives an amount, and one that a mass or a volume can be: no more than a tonne or a thousand
    /// litres.</summary>
    public bool Fits(double factor) =>
        IsInRange(Number * factor)
        && !(KitchenMeasures.Grams(Unit) * Number * factor > Mass.MaxGrams)
        && !(KitchenMeasures.Millilitres(Unit, SaidKind ?? Teaspoon.Metric) * Number * factor > Volume.MaxMillilitres);

    /// <summary>The same amount so many times over, in the unit it was entered in.</summary>
    /// <param name="factor">Zero or more.</param>
    /// <exception cref="ArgumentOutOfRangeException">The result is outside 0 to 100,000.</exception>
    public Amount Times(double factor)
    {
        var number = Number * factor;
        if (!IsInRange(number))
            throw new ArgumentOutOfRangeException(nameof(factor), factor, "The amount would leave 0 to 100,000.");
        var (least, most) = (Least * factor, Most * factor);
        var times = new Amount(Say(number, Unit, Counted, SaidKind, least, most), number, Unit, Counted, SaidKind, least, most);
        return Kitchen is { } kitchen ? times.In(kitchen) : times;
    }

    /// <summary>This amount and another together.</summary>
    /// <returns>In their own unit where both have one, in grams where both are weights; null where only what is in the spoon could say, and
    /// where it would leave 0 to 100,000.</returns>
    public Amount? Plus(Amount other)
    {
        ArgumentNullException.ThrowIfNull(other);
        var kind = SaidKind ?? Kitchen;
        if (Unit == other.Unit && Counted == other.Counted && kind == (other.SaidKind ?? other.Kitchen))
        {
            // A metric spoon that was named and one that was meant are one spoon; the sum names it where either did.
            var named = SaidKind is null && other.SaidKind is null ? null : kind;
            var sum = Number + other.Number;
            double? least = null,
                most = null;
            if (Least is not null || other.Least is not null)
                (least, most) = ((Least ?? Number) + (other.Least ?? other.Number), (Most ?? Number) + (other.Most ?? other.Number));
            if (!(sum <= MaxNumber))
                return null;
            var both = new Amount(Say(sum, Unit, Counted, named, least, most), sum, Unit, Counted, named, least, most);
            return named is null && Kitchen is { } kitchen ? both.In(kitchen) : both;
        }

        return KitchenMeasures.Grams(Unit) is { } mine && KitchenMeasures.Grams(other.Unit) is { } theirs
            ? (Number * mine) + (other.Number * theirs) is <= MaxNumber and var grams
                ? Of(grams, AmountUnit.Gram)
                : null
            : null;
    }

    /// <summary>Its words, with the kitchen it was meant in where that is not the notebook's: “½ metric tsp”.</summary>
    public string TextIn(Teaspoon notebook) =>
        Kitchen is { } meant && meant != notebook ? Say(Number, Unit, Counted, meant, Least, Most) : Text;

    /// <summary>Our wording of it: <c>½ tsp</c>, <c>24.4 g</c>, <c>1.5 L</c>, <c>4 cloves</c>; <see cref="Parse"/> reads it back.</summary>
    public override string ToString() => Say(Number, Unit, Counted, SaidKind, Least, Most);

    /// <inheritdoc/>
    public bool Equals(Amount? other) =>
        other is not null
        && Number.Equals(other.Number)
        && Unit == other.Unit
        && Counted == other.Counted
        && SaidKind == other.SaidKind
        && Kitchen == other.Kitchen
        && Least.Equals(other.Least)
        && Most.Equals(other.Most);

    /// <inheritdoc/>
    public override bool Equals(object? obj) => Equals(obj as Amount);

    /// <inheritdoc/>
    public override int GetHashCode() => HashCode.Combine(Number, Unit, Counted, SaidKind);

    internal static Amount Read(
        string text,
        double number,
        AmountUnit unit,
        string? counted,
        Teaspoon? said,
        double? least = null,
        double? most = null
    ) => new(text, number, unit, counted, said, least, most);

    private static bool IsInRange(double number) => number is >= 0 and <= MaxNumber;

    private static Outcome<T> Fits<T>(string field, double value, Func<double, T> make)
        where T : notnull =>
        value <= 1e6 ? Outcome.Of(make(value)) : Outcome.Refused<T>(field, "That is more than a tonne.", "Check the number and its unit.");

    private static string Say(double number, AmountUnit unit, string? counted, Teaspoon? said, double? least = null, double? most = null)
    {
        if (least is { } fewest && most is { } up && counted is not null)
            return $"{Figures.SayFraction(fewest)}–{Figures.SayFraction(up)} {(up <= 1 ? counted : AmountText.Plural(counted))}";
        var kind = said switch
        {
            Teaspoon.UsCustomary => "US ",
            Teaspoon.Imperial => "imperial ",
            Teaspoon.Metric => "metric ",
            _ => "",
        };
        var one = number <= 1;
        return unit switch
        {
            AmountUnit.Gram => $"{Figures.Say(number, 4)} g",
            AmountUnit.Kilogram => $"{Figures.Say(number, 4)} kg",
            AmountUnit.Milligram => $"{Figures.Say(number, 4)} mg",
            AmountUnit.Millilitre => $"{Figures.Say(number, 4)} ml",
            AmountUnit.Litre => $"{Figures.Say(number, 4)} L",
            AmountUnit.Ounce => $"{Figures.SayFraction(number)} oz",
            AmountUnit.Pound => $"{Figures.SayFraction(number)} lb",
            AmountUnit.Teaspoon => $"{Figures.SayFraction(number)} {kind}tsp",
            AmountUnit.Tablespoon => $"{Figures.SayFraction(number)} {kind}tbsp",
            AmountUnit.Cup => $"{Figures.SayFraction(number)} {kind}{(one ? "cup" : "cups")}",
            AmountUnit.FluidOunce => $"{Figures.SayFraction(number)} {kind}fl oz",
            AmountUnit.Pint => $"{Figures.SayFraction(number)} {kind}{(one ? "pint" : "pints")}",
            AmountUnit.Quart => $"{Figures.SayFraction(number)} {kind}{(one ? "quart" : "quarts")}",
            AmountUnit.Gallon => $"{Figures.SayFraction(number)} {kind}{(one ? "gallon" : "gallons")}",
            AmountUnit.Drop => $"{Figures.SayFraction(number)} {(one ? "drop" : "drops")}",
            AmountUnit.Pinch => $"{Figures.SayFraction(number)} {(one ? "pinch" : "pinches")}",
            AmountUnit.Dash => $"{Figures.SayFraction(number)} {(one ? "dash" : "dashes")}",
            _ => $"{Figures.SayFraction(number)} {(one ? counted : AmountText.Plural(counted!))}",
        };
    }
}

namespace Dyewort.Quantities;

/// <summary>How much plant, weighed, by the handful or counted: <c>400 g</c>, <c>2 handfuls</c>, <c>½ head</c>.</summary>
/// <remarks>
/// Grams are 0 to 1,000,000, and null for what was counted or measured with a cup: it is kept as it was said. A handful is taken as 30 g,
/// from 10 g of leaves or petals to 80 g of berries (common practice, no source).
/// </remarks>
/// <param name="Text">What was typed, without the spaces around it.</param>
/// <param name="Grams">Grams, where they are known or guessed.</param>
/// <param name="Low">Lower end of what a guess may be, grams; null where it was weighed.</param>
/// <param name="High">Upper end, grams.</param>
public sealed record PlantAmount(string Text, double? Grams, double? Low, double? High)
{
    /// <summary>Grams that a handful is taken as.</summary>
    public const double GramsPerHandful = 30;

    /// <summary>Grams in a small handful of something light.</summary>
    public const double LeastPerHandful = 10;

    /// <summary>Grams in a large handful of something heavy.</summary>
    public const double MostPerHandful = 80;

    private const string Kind = "an amount of plant";
    private const string Remedy = "Type grams, or say it as you would: 400 g, 14 oz, 2 handfuls, ½ head.";

    /// <summary>Reads an amount of plant; a bare number is grams.</summary>
    public static Outcome<PlantAmount> Parse(string field, string? text)
    {
        var typed = (text ?? "").Trim();
        if (typed.Length > 80)
            return Outcome.Refused<PlantAmount>(field, "That is too long for one amount.", Remedy);
        if (Mass.Parse(field, typed, AmountUnit.Gram) is var mass && mass.TryGet(out var weighed))
            return Outcome.Of(new PlantAmount(typed, weighed.Grams, null, null));
        if (AmountText.Words(typed) is not [var first, ..] || !AmountText.StartsANumber(first))
            return Outcome.Refused<PlantAmount>(field, $"“{typed}” does not say how many.", Remedy);
        if (Temperature.IsOne(typed) || Duration.IsOne(typed))
            return QuantityKind.Refuse<PlantAmount>(field, typed, Kind, "400 g or 2 handfuls", mass.Problems);
        if (!AmountText.LeadRange(field, typed, Remedy).TryGet(out var lead))
            return Outcome.Refused<PlantAmount>(mass.Problems);
        if (lead.Most == 0)
            return Outcome.Refused<PlantAmount>(field, $"“{typed}” is no plant at all.", Remedy);
        if (lead.Most * MostPerHandful > Mass.MaxGrams)
            return Outcome.Refused<PlantAmount>(field, $"“{typed}” is more than any pot holds.", "Check the number.");

        // Grams, ounces and pounds as a range say neither what was weighed nor what was counted.
        if (
            lead.After.Count == 0
            || Amount.Parse(field, $"1 {lead.After[0]}") is var unit
                && unit.TryGet(out var one)
                && KitchenMeasures.Grams(one.Unit) is not null
        )
            return Outcome.Refused<PlantAmount>(mass.Problems);
        return Outcome.Of(
            lead.After.Any(word => AmountText.Is(word, "handful") || AmountText.Is(word, "handfuls"))
                ? new PlantAmount(
                    typed,
                    (lead.Least + lead.Most) / 2 * GramsPerHandful,
                    lead.Least * LeastPerHandful,
                    lead.Most * MostPerHandful
                )
                : new PlantAmount(typed, null, null, null)
        );
    }
}

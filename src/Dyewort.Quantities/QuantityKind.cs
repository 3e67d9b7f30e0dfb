namespace Dyewort.Quantities;

/// <summary>Tells what kind of quantity a text is, so that a field that wants another kind can say so.</summary>
internal static class QuantityKind
{
    /// <summary>A refusal of a text that gives no quantity of the wanted kind.</summary>
    /// <param name="field">The field or option it stands in.</param>
    /// <param name="text">What was typed.</param>
    /// <param name="wanted">The wanted kind, such as "a volume".</param>
    /// <param name="example">Such as "1.5 L".</param>
    /// <param name="otherwise">What was wrong with it where it is of no other kind either.</param>
    public static Outcome<T> Refuse<T>(string field, string? text, string wanted, string example, IReadOnlyList<Problem> otherwise)
        where T : notnull
    {
        var typed = (text ?? "").Trim();
        return Of(typed) is { } kind && kind != wanted
            ? Outcome.Refused<T>(
                field,
                $"“{typed}” is {kind}; here {wanted} is wanted, such as {example}.",
                "Look whether it belongs into another field."
            )
            : Outcome.Refused<T>(otherwise);
    }

    /// <summary>"a weight", "a volume", "a count", "a temperature", "a length" or "a time"; null for what is none or is bare.</summary>
    private static string? Of(string typed)
    {
        if (Amount.Parse("", typed).TryGet(out var amount))
            return KitchenMeasures.Grams(amount.Unit) is not null ? Mass.Kind
                : amount.Unit is AmountUnit.Piece ? "a count"
                : Volume.Kind;
        if (!AmountText.Lead("", typed.TrimStart('-', '−', '+'), "").TryGet(out var lead) || lead.After.Count == 0)
            return null;
        return Temperature.IsOne(typed) ? Temperature.Kind
            : Length.IsOne(lead.After) ? Length.Kind
            : Duration.IsOne(typed) ? Duration.Kind
            : null;
    }
}

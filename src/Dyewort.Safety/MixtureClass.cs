namespace Dyewort.Safety;

/// <summary>An ingredient of a mixture.</summary>
/// <param name="Name">Everyday name.</param>
/// <param name="Key">Its key in the table of hazards; null where the list does not have it.</param>
/// <param name="Percent">Of the substance itself in the mixture, by weight, or by volume where <see cref="HazardList.IsByVolume"/> says so,
/// 0 to 100; null where nobody knows.</param>
public sealed record Ingredient(string Name, string? Key, double? Percent);

/// <summary>What the rules for mixtures make of what went in: a first reckoning; classifying is licensed work.</summary>
/// <remarks>
/// After UN GHS and Regulation (EC) 1272/2008, Annex I, part 3 and 4, from memory of the text: what adds up (skin, eyes, swallowing, water
/// life, fire) by the sum of each ingredient's share of its own limit, the rest by an ingredient that reaches its limit alone. Its
/// limit is the strength from which hazard_bands.csv gives it the statement or a worse one; where the table has only the worse one, the
/// generic ratios of Annex I stand in: 10 % corrosive or 3 % eye-damaging irritate from a third or a fifth of that, H412 follows H411 and
/// H411 follows H410 at a tenth, and what makes allergic is named from a tenth of its limit (EUH208). All is reckoned as if nothing had
/// reacted: acid and alkali that undo each other are judged too harshly, which is the way to err.
/// </remarks>
/// <param name="SignalWord">"Danger", "Warning" or "none".</param>
/// <param name="Codes">Statements of the mixture, worst first.</param>
/// <param name="Texts">Their words, without full stops.</param>
/// <param name="Allergens">Names of ingredients that may make allergic people react though the mixture carries no H317.</param>
/// <param name="NotReckoned">Names of ingredients that the list does not have, or whose amount nobody knows.</param>
public sealed record MixtureClass(
    string SignalWord,
    IReadOnlyList<string> Codes,
    IReadOnlyList<string> Texts,
    IReadOnlyList<string> Allergens,
    IReadOnlyList<string> NotReckoned
)
{
    /// <summary>What stands with every reckoning.</summary>
    public const string Caveat = "reckoned as if nothing had reacted; classifying is licensed work";

    /// <summary>What a statement without a limit of its own is taken for, per cent: the generic limit of eye irritation by an
    /// eye-damaging substance.</summary>
    private const double GenericPercent = 1;

    private static readonly (string Milder, string Worse, double Share)[] Follows =
    [
        ("H319", "H318", 1 / 3.0),
        ("H319", "H314", 1 / 5.0),
        ("H315", "H314", 1 / 5.0),
        ("H411", "H410", 1 / 10.0),
        ("H412", "H411", 1 / 10.0),
        ("H412", "H410", 1 / 100.0),
    ];

    /// <summary>Reckons a mixture.</summary>
    /// <param name="ingredients">What went in; what it was poured into counts as water.</param>
    /// <param name="ph">Its pH where it was measured; at 2 or below and at 11.5 or above it burns, whatever went in.</param>
    /// <exception cref="ArgumentOutOfRangeException">A percentage below 0, above 100, or NaN.</exception>
    public static MixtureClass Of(IReadOnlyList<Ingredient> ingredients, double? ph = null)
    {
        ArgumentNullException.ThrowIfNull(ingredients);
        if (ingredients.Any(one => one.Percent is not (null or (>= 0 and <= 100))))
            throw new ArgumentOutOfRangeException(nameof(ingredients), "Percentages are 0 to 100.");
        var known = ingredients
            .Where(one => one is { Key: not null, Percent: not null })
            .GroupBy(one => one.Key!)
            .Select(group => (Key: group.Key, Percent: group.Sum(one => one.Percent!.Value)))
            .ToList();
        var watery =
            known.Where(one => HazardList.At(one.Key).Is("oil") || HazardList.At(one.Key).Is("flammable")).Sum(one => one.Percent) < 50;
        var found = new List<StatementRule>();
        foreach (var rule in HazardList.StatementCodes.Select(HazardList.Rule))
        {
            // What is mostly water is not oily enough to run into the lungs (H304); EUH208 is found by itself below.
            if (rule.Code == "EUH208" || (rule.Code == "H304" && watery))
                continue;
            var shares = known.Select(one => Limit(one.Key, rule) is { } limit ? one.Percent / limit : 0).ToList();
            if (rule.IsSummed ? shares.Sum() >= 1 - 1e-9 : shares.Exists(share => share >= 1 - 1e-9))
                found.Add(rule);
        }

        if (ph is <= 2 or >= 11.5 && !found.Exists(rule => rule.Code == "H314"))
            found.Add(HazardList.Rule("H314"));
        var codes = found.Select(rule => rule.Code).ToHashSet();
        var standing = found
            .Where(rule => !rule.Worse.Any(codes.Contains))
            .OrderBy(rule =>
                rule.SignalWord switch
                {
                    "Danger" => 0,
                    "Warning" => 1,
                    _ => 2,
                }
            )
            .ToList();
        var allergic = HazardList.Rule("H317");
        return new(
            standing.Exists(rule => rule.SignalWord == "Danger") ? "Danger"
                : standing.Exists(rule => rule.SignalWord == "Warning") ? "Warning"
                : "none",
            [.. standing.Select(rule => rule.Code)],
            [.. standing.Select(rule => rule.Words)],
            codes.Contains("H317")
                ? []
                :
                [
                    .. ingredients
                        .Where(one =>
                            one is { Key: { } key, Percent: { } percent } && Limit(key, allergic) is { } limit && percent >= limit / 10
                        )
                        .Select(one => one.Name),
                ],
            [.. ingredients.Where(one => one.Key is null || one.Percent is null).Select(one => one.Name).Distinct()]
        );
    }

    /// <summary>The strength from which a thing brings a statement into a mixture, per cent; null where it never does.</summary>
    private static double? Limit(string key, StatementRule rule)
    {
        var own = HazardList.From(key, [rule.Code, .. rule.Worse]);

        // Where the table says from where the milder statement holds, it goes before the generic ratio.
        if (HazardList.From(key, [rule.Code]) is null)
        {
            foreach (var (milder, worse, share) in Follows)
            {
                if (milder == rule.Code && HazardList.From(key, [worse]) * share is { } follows && !(own < follows))
                    own = follows;
            }
        }

        return own is 0 ? GenericPercent : own;
    }
}

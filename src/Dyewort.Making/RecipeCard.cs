using System.Text.Json;
using System.Text.RegularExpressions;
using Dyewort.Chemistry;
using Dyewort.Quantities;

namespace Dyewort.Making;

/// <summary>One addition on a card.</summary>
/// <param name="Name">What is added.</param>
/// <param name="Amount">How much, as it was entered.</param>
/// <param name="Weighs">What is spooned or counted, so that its grams are known; null when nobody looked it up.</param>
public sealed record RecipeLine(string Name, Amount Amount, NamedSubstance? Weighs = null);

/// <summary>A recipe as it is written on a card: so much liquor, then the additions in their order.</summary>
/// <param name="Name">What it is called; may be empty.</param>
/// <param name="Volume">Liquor that the amounts belong to, above zero.</param>
/// <param name="Lines">Additions in order; may be none.</param>
public sealed partial record RecipeCard(string Name, Volume Volume, IReadOnlyList<RecipeLine> Lines)
{
    private const string Remedy = "Write it like “90ml: bicarbonate of soda=1/4 tsp, alum=2 g”.";
    private static readonly JsonSerializerOptions Options = new(JsonSerializerDefaults.Web);

    /// <summary>Reads <c>90ml: bicarbonate of soda=1/4 tsp, alum=2 g</c>, or the same as JSON:
    /// <c>{"name":"Dusk","volume":"90ml","additions":[{"name":"alum","amount":"2 g"}]}</c>.</summary>
    /// <param name="field">The field or option it stands in.</param>
    /// <param name="text">What was typed, or a file's content.</param>
    /// <param name="kind">Which teaspoon, for a volume given in spoons or cups.</param>
    public static Outcome<RecipeCard> Parse(string field, string? text, Teaspoon kind = Teaspoon.Metric)
    {
        var typed = (text ?? "").Trim();
        if (typed.Length == 0)
            return Outcome.Refused<RecipeCard>(field, "There is no recipe.", Remedy);
        if (typed.Length > 20_000)
            return Outcome.Refused<RecipeCard>(field, "That is too long for a recipe.", Remedy);
        if (typed[0] == '{')
            return ParseJson(field, typed, kind);
        var colon = typed.IndexOf(':', StringComparison.Ordinal);
        if (colon < 0)
            return Outcome.Refused<RecipeCard>(field, "The recipe does not say what volume it is for.", Remedy);
        var rest = typed[(colon + 1)..].Trim();
        // A comma separates only where a name and “=” follow, so that “2,5 g” stays whole.
        var parts = rest.Length == 0 ? [] : Separator().Split(rest);
        var lines = new List<(string? Name, string? Amount)>();
        foreach (var part in parts)
        {
            var sides = part.Split('=');
            if (sides.Length != 2)
                return Outcome.Refused<RecipeCard>(field, $"“{part.Trim()}” was not understood.", Remedy);
            lines.Add((sides[0], sides[1]));
        }

        return Make(field, "", typed[..colon], lines, kind);
    }

    /// <summary>The card with the steps of one addition summed where it stands first: in its own unit, or in grams where its weight is
    /// known; what cannot be summed keeps its lines.</summary>
    /// <param name="kind">Which teaspoon.</param>
    public RecipeCard Summed(Teaspoon kind)
    {
        var lines = new List<RecipeLine>();
        foreach (var line in Lines)
        {
            var first = lines.FindIndex(one => string.Equals(one.Name, line.Name, StringComparison.OrdinalIgnoreCase));
            if (first >= 0 && (lines[first].Amount.Plus(line.Amount) ?? Weight(lines[first], line, kind)) is { } sum)
                lines[first] = lines[first] with { Amount = sum, Weighs = lines[first].Weighs ?? line.Weighs };
            else
                lines.Add(line);
        }

        return this with
        {
            Lines = lines,
        };
    }

    private static Amount? Weight(RecipeLine one, RecipeLine other, Teaspoon kind) =>
        one.Weighs?.Weigh(one.Amount, kind).Grams + other.Weighs?.Weigh(other.Amount, kind).Grams is >= 0 and <= 100_000 and var grams
            ? Amount.Of(grams, AmountUnit.Gram)
            : null;

    /// <summary>The card in one line, as <see cref="Parse"/> reads it.</summary>
    public override string ToString() => $"{Volume}: {string.Join(", ", Lines.Select(line => $"{line.Name}={line.Amount}"))}";

    private static Outcome<RecipeCard> ParseJson(string field, string json, Teaspoon kind)
    {
        FileShape? file;
        try
        {
            file = JsonSerializer.Deserialize<FileShape>(json, Options);
        }
        catch (JsonException problem)
        {
            return Outcome.Refused<RecipeCard>(field, $"The recipe is not readable JSON (line {problem.LineNumber + 1}).", Remedy);
        }

        return Make(field, file?.Name ?? "", file?.Volume, [.. (file?.Additions ?? []).Select(line => (line?.Name, line?.Amount))], kind);
    }

    private static Outcome<RecipeCard> Make(
        string field,
        string name,
        string? volumeText,
        IReadOnlyList<(string? Name, string? Amount)> parts,
        Teaspoon kind
    )
    {
        var problems = new List<Problem>();
        var volume = Volume.Parse(field, volumeText, kind);
        problems.AddRange(volume.Problems);
        var lines = new List<RecipeLine>();
        foreach (var (part, amountText) in parts)
        {
            if (string.IsNullOrWhiteSpace(part))
            {
                problems.Add(new(field, "An addition has no name.", Remedy));
                continue;
            }

            var amount = Amount.Parse(field, amountText);
            if (amount.TryGet(out var much))
                lines.Add(new(part.Trim(), much));
            else
                problems.AddRange(amount.Problems.Select(problem => problem with { What = $"{part.Trim()}: {problem.What}" }));
        }

        if (volume.TryGet(out var liquor) && liquor.Millilitres <= 0)
            problems.Add(new(field, "A recipe for no liquor cannot be carried to another volume.", Remedy));
        return problems.Count > 0 ? Outcome.Refused<RecipeCard>(problems) : Outcome.Of(new RecipeCard(name.Trim(), liquor, lines));
    }

    private sealed record FileLine(string? Name, string? Amount);

    private sealed record FileShape(string? Name, string? Volume, IReadOnlyList<FileLine?>? Additions);

    [GeneratedRegex("[,;](?=[^,;=]*=)", RegexOptions.CultureInvariant, 1000)]
    private static partial Regex Separator();
}

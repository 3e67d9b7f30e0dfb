using Dyewort.Quantities;

namespace Dyewort.Making;

/// <summary>Short codes that can be read from a cap, said on the telephone and typed with wet hands.</summary>
/// <remarks>
/// Three signs for the batch, a dash, two for the bottle, one to check: “AAC-AD7”. The 23 signs leave out those that hands and eyes mix up
/// (O Q 0, I L 1, S 5, B 8, Z 2, U). The check sign makes the sum of sign values times 1 to 6 divisible by 23; 23 is prime and every weight
/// differs, so one misread sign or two signs swapped anywhere never pass. Batches 1 to 12,167, bottles 1 to 529 of a batch. Our own code.
/// </remarks>
public static class BottleCode
{
    /// <summary>The signs, in order of value.</summary>
    public const string Signs = "ACDEFGHJKMNPRTVWXY34679";

    /// <summary>The highest batch number that has a code.</summary>
    public const int LastBatch = 23 * 23 * 23;

    /// <summary>The highest bottle number of a batch that has a code.</summary>
    public const int LastBottle = 23 * 23;

    /// <summary>The batch's part of its bottles' codes.</summary>
    /// <param name="batch">1 to 12,167.</param>
    /// <exception cref="ArgumentOutOfRangeException">Outside that range.</exception>
    public static string ForBatch(int batch) =>
        batch is >= 1 and <= LastBatch
            ? Write(batch - 1, 3)
            : throw new ArgumentOutOfRangeException(nameof(batch), batch, "Allowed: 1 to 12,167.");

    /// <summary>A bottle's code.</summary>
    /// <param name="batch">1 to 12,167.</param>
    /// <param name="bottle">1 to 529, its number in the batch.</param>
    /// <exception cref="ArgumentOutOfRangeException">Outside those ranges.</exception>
    public static string ForBottle(int batch, int bottle)
    {
        if (bottle is < 1 or > LastBottle)
            throw new ArgumentOutOfRangeException(nameof(bottle), bottle, "Allowed: 1 to 529.");
        var code = ForBatch(batch) + Write(bottle - 1, 2);
        var check = Signs.First(sign => Sum(code + sign) == 0);
        return $"{code[..3]}-{code[3..]}{check}";
    }

    /// <summary>Reads a bottle's code as somebody typed it: small letters, missing or extra dashes and blanks do not matter.</summary>
    /// <param name="field">The field or option it stands in.</param>
    /// <param name="text">What was typed.</param>
    public static Outcome<(int Batch, int Bottle)> Parse(string field, string? text)
    {
        var typed = (text ?? "").Trim();
        var code = string.Concat(typed.Where(sign => sign is not ('-' or ' ' or '–' or '.'))).ToUpperInvariant();
        if (code.Length > 20)
            return Outcome.Refused<(int, int)>(field, "That is too long for a bottle's code.", "It has six signs, such as AAC-AD7.");
        foreach (var sign in code)
        {
            if (!Signs.Contains(sign, StringComparison.Ordinal))
                return Outcome.Refused<(int, int)>(
                    field,
                    $"“{sign}” is never used in a bottle's code.",
                    "Look again: codes leave out O, Q, 0, I, L, 1, S, 5, B, 8, Z, 2 and U."
                );
        }

        if (code.Length != 6)
            return Outcome.Refused<(int, int)>(field, $"“{typed}” has {code.Length} signs.", "A bottle's code has six, such as AAC-AD7.");
        return Sum(code) == 0
            ? Outcome.Of((Read(code[..3]) + 1, Read(code[3..5]) + 1))
            : Outcome.Refused<(int, int)>(
                field,
                $"“{typed}” does not check: a sign is misread or two are swapped.",
                "Look at the cap again."
            );
    }

    /// <summary>The code as labels print it.</summary>
    /// <param name="code">Six signs, with or without dash.</param>
    public static string Tidy(string code)
    {
        var plain = string.Concat(code.Where(char.IsLetterOrDigit)).ToUpperInvariant();
        return plain.Length == 6 ? $"{plain[..3]}-{plain[3..]}" : code;
    }

    private static string Write(int value, int length) =>
        string.Concat(Enumerable.Range(0, length).Select(place => Signs[value / (int)Math.Pow(23, length - 1 - place) % 23]));

    private static int Read(string signs) =>
        signs.Aggregate(0, (value, sign) => (value * 23) + Signs.IndexOf(sign, StringComparison.Ordinal));

    private static int Sum(string code) =>
        code.Select((sign, place) => Signs.IndexOf(sign, StringComparison.Ordinal) * (place + 1)).Sum() % 23;
}

using System.Globalization;
using Dyewort.Quantities;

namespace Dyewort.Workshop;

/// <summary>Reads the text of a form's fields and gathers every problem, so that a maker sees all of them at once.</summary>
public sealed class Entered
{
    private readonly List<Problem> problems = [];

    public IReadOnlyList<Problem> Problems => problems;

    public bool Sound => problems.Count == 0;

    public void Refuse(string field, string what, string remedy) => problems.Add(new(field, what, remedy));

    /// <summary>The value of an outcome, or <c>default</c> with its problems noted.</summary>
    public T? Take<T>(Outcome<T> outcome)
        where T : notnull
    {
        if (outcome.TryGet(out var value))
            return value;
        problems.AddRange(outcome.Problems);
        return default;
    }

    /// <summary>Words that must be there.</summary>
    public string Words(string field, string? text, string name, int longest = 120)
    {
        var words = OptionalWords(field, text, longest);
        if (words is null && problems.TrueForAll(problem => problem.Field != field))
            Refuse(field, $"{name} is missing.", "Type a few words.");
        return words ?? "";
    }

    public string? OptionalWords(string field, string? text, int longest = 2000)
    {
        var trimmed = text?.Trim();
        if (string.IsNullOrEmpty(trimmed))
            return null;
        if (trimmed.Length <= longest)
            return trimmed;
        Refuse(field, $"This is {trimmed.Length} characters long; {longest} fit.", "Say it shorter, or put the rest in a note.");
        return null;
    }

    /// <summary>A number that must be there, both ends allowed.</summary>
    public double Number(string field, string? text, string name, string unit, double least, double most, string example)
    {
        var number = OptionalNumber(field, text, unit, least, most, example);
        if (number is null && problems.TrueForAll(problem => problem.Field != field))
            Refuse(field, $"{name} is missing.", $"Type {unit}, such as {example}.");
        return number ?? double.NaN;
    }

    public double? OptionalNumber(string field, string? text, string unit, double least, double most, string example)
    {
        var trimmed = text?.Trim();
        if (string.IsNullOrEmpty(trimmed))
            return null;

        // Half of the world types a comma.
        var plain = trimmed.Contains('.', StringComparison.Ordinal) ? trimmed : trimmed.Replace(',', '.');
        if (
            !double.TryParse(
                plain,
                NumberStyles.AllowDecimalPoint | NumberStyles.AllowLeadingSign,
                CultureInfo.InvariantCulture,
                out var number
            ) || !double.IsFinite(number)
        )
        {
            Refuse(field, $"“{Short(trimmed)}” is not a number.", $"Type {unit}, such as {example}.");
            return null;
        }

        if (number >= least && number <= most)
            return number;
        Refuse(
            field,
            string.Create(CultureInfo.InvariantCulture, $"{Short(trimmed)} {unit} is outside {least:0.###} to {most:0.###}."),
            "Check the number and its unit."
        );
        return null;
    }

    /// <summary>A whole number that must be there.</summary>
    public int Whole(string field, string? text, string name, int least, int most, int example)
    {
        if (
            int.TryParse(text?.Trim(), NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture, out var number)
            && number >= least
            && number <= most
        )
            return number;
        Refuse(
            field,
            string.IsNullOrWhiteSpace(text)
                ? $"{name} is missing."
                : $"“{Short(text.Trim())}” is not a whole number from {least} to {most}.",
            $"Type a whole number, such as {example}."
        );
        return least;
    }

    /// <summary>A day written as 2025-09-06; the day given when the field is empty.</summary>
    public DateOnly Day(string field, string? text, DateOnly otherwise)
    {
        var trimmed = text?.Trim();
        if (string.IsNullOrEmpty(trimmed))
            return otherwise;
        if (
            DateOnly.TryParseExact(trimmed, "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.None, out var day)
            && day.Year is >= 1900 and < 2200
        )
            return day;
        Refuse(field, $"“{Short(trimmed)}” is not a day.", "Write year, month and day, such as 2025-09-06.");
        return otherwise;
    }

    /// <summary>One of an enumeration's names.</summary>
    public T OneOf<T>(string field, string? text, T otherwise)
        where T : struct, Enum
    {
        var trimmed = text?.Trim();
        if (string.IsNullOrEmpty(trimmed))
            return otherwise;
        if (Enum.TryParse<T>(trimmed, ignoreCase: true, out var value) && Enum.IsDefined(value))
            return value;
        Refuse(field, $"“{Short(trimmed)}” is not one of the choices.", $"Choose one of: {string.Join(", ", Enum.GetNames<T>())}.");
        return otherwise;
    }

    private static string Short(string text) => text.Length <= 40 ? text : text[..40] + "…";
}

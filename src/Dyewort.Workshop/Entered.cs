using System.Globalization;
using Dyewort.Notebook;
using Dyewort.Quantities;

namespace Dyewort.Workshop;

/// <summary>Reads the text of a form's fields and gathers every problem, so that a maker sees all of them at once.</summary>
/// <param name="kitchen">Whose spoons, cups and pints are meant where a text does not say.</param>
/// <param name="asked">The form, where it can be asked once more about what is doubtful; null where it cannot.</param>
public sealed class Entered(Teaspoon kitchen = Teaspoon.Metric, IDoubtable? asked = null)
{
    private readonly List<Problem> problems = [];
    private readonly List<string> understood = [];

    public IReadOnlyList<Problem> Problems => problems;

    /// <summary>How quantities were understood where that is not what stands in the field: “6 cups” is 1.42 L.</summary>
    public IReadOnlyList<string> Understood => understood;

    public bool Sound => problems.Count == 0;

    public void Refuse(string field, string what, string remedy) => problems.Add(new(field, what, remedy));

    /// <summary>Asks once more about what hardly anybody means; a yes lets it through.</summary>
    /// <param name="doubt">What is doubtful, as a sentence; null where nothing is.</param>
    /// <exception cref="InvalidOperationException">The form has no way to say yes.</exception>
    public void Doubt(string? doubt)
    {
        if (asked is null)
            throw new InvalidOperationException("A form that cannot be asked must not be doubted.");
        if (doubt is not null && string.IsNullOrWhiteSpace(asked.Meant) && problems.TrueForAll(problem => problem.What != doubt))
            Refuse(nameof(asked.Meant), doubt, "Check the number and its unit; if it is so, tick “Yes, I mean that”.");
    }

    /// <summary>The value of an outcome, or <c>default</c> with its problems noted.</summary>
    public T? Take<T>(Outcome<T> outcome)
        where T : notnull
    {
        if (outcome.TryGet(out var value))
            return value;
        problems.AddRange(outcome.Problems);
        return default;
    }

    /// <summary>What was made of the fields, with how their quantities were understood.</summary>
    public Outcome<T> Made<T>(T value)
        where T : notnull => Outcome.Of(value, understood);

    /// <summary>A weight as people say it; a bare number is grams.</summary>
    /// <param name="least">Grams.</param>
    /// <param name="most">Grams.</param>
    /// <param name="name">What the field asks for, where it must be filled.</param>
    /// <returns>Grams; null where nothing was typed or it was refused.</returns>
    public double? Mass(string field, string? text, double least = 0, double most = 1e6, string? name = null) =>
        Quantity(
            field,
            text,
            name,
            "a weight, such as 400 g",
            typed => Take(Quantities.Mass.Parse(field, typed, AmountUnit.Gram), mass => mass.Grams),
            grams => Quantities.Mass.FromGrams(Math.Clamp(grams, 0, 1e6)).ToString(),
            "g",
            least,
            most
        );

    /// <summary>A volume as people say it; a bare number is millilitres.</summary>
    /// <param name="least">Millilitres.</param>
    /// <param name="most">Millilitres.</param>
    /// <param name="name">What the field asks for, where it must be filled.</param>
    /// <returns>Millilitres; null where nothing was typed or it was refused.</returns>
    public double? Volume(string field, string? text, double least = 0, double most = 1e6, string? name = null) =>
        Quantity(
            field,
            text,
            name,
            "a volume, such as 90 ml or 1.5 L",
            typed => Take(Quantities.Volume.Parse(field, typed, kitchen, AmountUnit.Millilitre), volume => volume.Millilitres),
            ml => Quantities.Volume.FromMillilitres(Math.Clamp(ml, 0, 1e6)).ToString(),
            "ml",
            least,
            most
        );

    /// <summary>A temperature as people say it; a bare number is Celsius.</summary>
    /// <param name="least">°C.</param>
    /// <param name="most">°C.</param>
    /// <returns>°C; null where nothing was typed or it was refused.</returns>
    public double? Temperature(string field, string? text, double least = -50, double most = 300) =>
        Quantity(
            field,
            text,
            null,
            "degrees, such as 72 °C or 160 °F",
            typed => Take(Quantities.Temperature.Parse(field, typed), temperature => temperature.Celsius),
            celsius => Quantities.Temperature.FromCelsius(Math.Clamp(celsius, -50, 300)).ToString(),
            "°C",
            least,
            most
        );

    /// <summary>A length as people say it.</summary>
    /// <param name="least">Millimetres.</param>
    /// <param name="most">Millimetres.</param>
    /// <param name="centimetres">True where a bare number is centimetres, as the field says; else it is millimetres.</param>
    /// <returns>Millimetres; null where nothing was typed or it was refused.</returns>
    public double? Length(string field, string? text, double least = 0, double most = 1e5, bool centimetres = false) =>
        Quantity(
            field,
            text,
            null,
            centimetres ? "a length, such as 24 cm or 9½ in" : "a length, such as 38.1 mm or 1½ in",
            typed => Take(Quantities.Length.Parse(field, typed, centimetres ? 10 : 1), length => length.Millimetres),
            mm => centimetres ? $"{Figures.Say(mm / 10)} cm" : $"{Figures.Say(mm, 4)} mm",
            centimetres ? "cm" : "mm",
            least,
            most
        );

    /// <summary>How long something took, as people say it; a bare number is hours.</summary>
    /// <param name="least">Hours.</param>
    /// <param name="most">Hours.</param>
    /// <returns>Hours; null where nothing was typed or it was refused.</returns>
    public double? Hours(string field, string? text, double least = 0, double most = 1e6) =>
        Quantity(
            field,
            text,
            null,
            "a time, such as 45 min or 1 h 30",
            typed => Take(Duration.Parse(field, typed, TimeSpan.FromHours(1)), time => time.TotalHours),
            hours => Duration.Say(TimeSpan.FromHours(hours)),
            "h",
            least,
            most
        );

    /// <summary>The same where a bare number is minutes.</summary>
    /// <param name="least">Minutes.</param>
    /// <param name="most">Minutes.</param>
    /// <param name="name">What the field asks for, where it must be filled.</param>
    /// <returns>Minutes; null where nothing was typed or it was refused.</returns>
    public double? Minutes(string field, string? text, double least = 0, double most = 1e5, string? name = null) =>
        Quantity(
            field,
            text,
            name,
            "a time, such as 15 min or 1 h 30",
            typed => Take(Duration.Parse(field, typed, TimeSpan.FromMinutes(1)), time => time.TotalMinutes),
            minutes => Duration.Say(TimeSpan.FromMinutes(minutes)),
            "min",
            least,
            most
        );

    /// <summary>How much plant, as people say it: weighed, by the handful, or counted; a bare number is grams.</summary>
    /// <returns>Null where nothing was typed or it was refused.</returns>
    public PlantAmount? Plant(string field, string? text)
    {
        var typed = text?.Trim();
        if (string.IsNullOrEmpty(typed) || Take(PlantAmount.Parse(field, typed)) is not { } plant)
            return null;
        if (plant.Grams is < 0.1)
        {
            Refuse(field, $"“{Short(typed)}” is less than 0.1 g of plant.", "Check the number and its unit.");
            return null;
        }

        if (plant is { Grams: { } guess, Low: { } low, High: { } high })
            understood.Add(
                InvariantText.Of($"“{typed}” is taken as {Figures.Say(guess)} g, {Figures.Say(low)} to {Figures.Say(high)} g ")
                    + "(common practice, no source): weigh one of yours."
            );
        else if (plant.Grams is { } grams)
            Understand(typed, Quantities.Mass.FromGrams(grams).ToString(), "g", grams);
        else
            understood.Add($"“{typed}” is kept as you said it; what it weighs is not known.");
        return plant;
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

        if (Figures.Read(trimmed, most) is not { } number)
        {
            Refuse(
                field,
                Figures.IsThousands(trimmed)
                    ? $"“{Short(trimmed)}” can be read with a decimal comma or with one for thousands."
                    : $"“{Short(trimmed)}” is not a number.",
                $"Type {unit}, such as {example}."
            );
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

    /// <summary>A pH from 0 to 14; null where the field is empty.</summary>
    public double? Ph(string field, string? text)
    {
        var trimmed = text?.Trim();
        if (string.IsNullOrEmpty(trimmed))
            return null;
        if (Figures.Read(trimmed, 14) is not { } ph)
            Refuse(field, $"“{Short(trimmed)}” is not a pH.", "Type a number from 0 to 14, such as 3.5.");
        else if (ph is >= 0 and <= 14)
            return ph;
        else
            Refuse(field, $"No pH is {Short(trimmed)}: the scale goes from 0 to 14.", "Read the strip or the meter once more.");
        return null;
    }

    private double? Quantity(
        string field,
        string? text,
        string? name,
        string wanted,
        Func<string, double?> read,
        Func<double, string> say,
        string own,
        double least,
        double most
    )
    {
        var typed = text?.Trim();
        if (string.IsNullOrEmpty(typed))
        {
            if (name is not null)
                Refuse(field, $"{name} is missing.", $"Type {wanted}.");
            return null;
        }

        if (read(typed) is not { } value)
            return null;
        if (!(value >= least && value <= most))
        {
            Refuse(field, $"“{Short(typed)}” ({say(value)}) is outside {say(least)} to {say(most)}.", "Check the number and its unit.");
            return null;
        }

        Understand(typed, say(value), own, value);
        return value;
    }

    private double? Take<T>(Outcome<T> outcome, Func<T, double> number)
        where T : struct
    {
        if (outcome.TryGet(out var value))
            return number(value);
        problems.AddRange(outcome.Problems);
        return null;
    }

    /// <summary>Notes how a text was understood, unless it says the very same.</summary>
    private void Understand(string typed, string means, string own, double value)
    {
        var bare = double.TryParse(
            typed,
            NumberStyles.AllowDecimalPoint | NumberStyles.AllowLeadingSign,
            CultureInfo.InvariantCulture,
            out _
        );
        var said = Tight(bare ? typed + own : typed);
        // Who thinks in litres types 1.5 into a field of millilitres.
        if (said.Equals(Tight(means), StringComparison.OrdinalIgnoreCase) && !(bare && own == "ml" && value < 10))
            return;
        var figures = typed.All(sign =>
            char.IsAsciiDigit(sign) || sign is '.' or ',' or '-' or '/' or ' ' || char.GetNumericValue(sign) >= 0
        );
        understood.Add(figures ? $"“{Short(typed)}” without a unit is {means}." : $"“{Short(typed)}” is {means}.");
    }

    private static string Tight(string text) => text.Replace(" ", "", StringComparison.Ordinal);

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

    /// <summary>The same for something that happened: refused when it lies more than a day ahead, which no time zone explains; doubted when
    /// it lies many years back.</summary>
    /// <param name="otherwise">The day that stands there: it is not doubted again.</param>
    /// <param name="today">The clock's day.</param>
    public DateOnly PastDay(string field, string? text, DateOnly otherwise, DateOnly today)
    {
        var day = Day(field, text, otherwise);
        if (string.IsNullOrWhiteSpace(text) || day <= today.AddDays(1))
        {
            if (asked is not null && day != otherwise)
                Doubt(Doubtful.Day(day, today));
            return day;
        }

        Refuse(
            field,
            string.Create(CultureInfo.InvariantCulture, $"{day:yyyy-MM-dd} has not come yet; today is {today:yyyy-MM-dd}."),
            "Check the year, the month and the day."
        );
        return otherwise;
    }

    /// <summary>The same where an empty field stays empty.</summary>
    /// <param name="was">The day that stands there; null where there is none.</param>
    public DateOnly? OptionalPastDay(string field, string? text, DateOnly today, DateOnly? was = null) =>
        string.IsNullOrWhiteSpace(text) ? null : PastDay(field, text, was ?? today, today);

    /// <summary>When something happened, written as 2025-09-06 14:30 or as 14:30, in the clock's own zone; now when the field is
    /// empty.</summary>
    /// <param name="clock">The clock; a time alone is the last time that it showed it.</param>
    /// <returns>UTC.</returns>
    public DateTimeOffset At(string field, string? text, TimeProvider clock)
    {
        ArgumentNullException.ThrowIfNull(clock);
        var now = clock.GetUtcNow();
        var here = clock.GetLocalNow();
        var typed = text?.Trim();
        if (string.IsNullOrEmpty(typed))
            return now;
        DateTime local;
        if (TimeOnly.TryParseExact(typed, ["H:mm", "H.mm"], CultureInfo.InvariantCulture, DateTimeStyles.None, out var time))
        {
            local = here.Date + time.ToTimeSpan();
            if (local > here.DateTime)
                local = local.AddDays(-1);
        }
        else if (
            !DateTime.TryParseExact(
                typed,
                ["yyyy-MM-dd'T'HH:mm", "yyyy-MM-dd'T'HH:mm:ss", "yyyy-MM-dd H:mm", "yyyy-MM-dd"],
                CultureInfo.InvariantCulture,
                DateTimeStyles.None,
                out local
            ) || local.Year is < 1900 or >= 2200
        )
        {
            Refuse(field, $"“{Short(typed)}” is not a time.", "Write the day and the time, such as 2025-09-06 14:30, or 14:30 alone.");
            return now;
        }

        var at = new DateTimeOffset(local, clock.LocalTimeZone.GetUtcOffset(local)).ToUniversalTime();
        if (at <= now.AddDays(1))
        {
            if (asked is not null)
                Doubt(Doubtful.Day(DateOnly.FromDateTime(local), DateOnly.FromDateTime(here.DateTime)));
            understood.Add(string.Create(CultureInfo.InvariantCulture, $"“{Short(typed)}” is {local:d MMM yyyy, HH:mm}."));
            return at;
        }

        Refuse(
            field,
            string.Create(CultureInfo.InvariantCulture, $"{local:yyyy-MM-dd HH:mm} has not come yet; it is {here:yyyy-MM-dd HH:mm}."),
            "Check the day and the time."
        );
        return now;
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

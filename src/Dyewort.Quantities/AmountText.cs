using System.Globalization;
using System.Text;
using System.Text.RegularExpressions;

namespace Dyewort.Quantities;

/// <summary>Turns what people type into an amount, word by word, so that a refusal can name the word.</summary>
internal static partial class AmountText
{
    private const string Remedy = "Type a number and a unit, such as 1/4 tsp, 2.5 g, 90 ml or 3 drops.";

    private static readonly Dictionary<char, string> VulgarFractions = new()
    {
        ['¼'] = "1/4",
        ['½'] = "1/2",
        ['¾'] = "3/4",
        ['⅓'] = "1/3",
        ['⅔'] = "2/3",
        ['⅛'] = "1/8",
        ['⅜'] = "3/8",
        ['⅝'] = "5/8",
        ['⅞'] = "7/8",
        ['⅕'] = "1/5",
        ['⅖'] = "2/5",
        ['⅗'] = "3/5",
        ['⅘'] = "4/5",
        ['⅙'] = "1/6",
        ['⅚'] = "5/6",
        ['⅒'] = "1/10",
    };

    private static readonly Dictionary<string, double> NumberWords = new(StringComparer.OrdinalIgnoreCase)
    {
        ["a"] = 1,
        ["an"] = 1,
        ["one"] = 1,
        ["two"] = 2,
        ["three"] = 3,
        ["four"] = 4,
        ["five"] = 5,
        ["six"] = 6,
        ["seven"] = 7,
        ["eight"] = 8,
        ["nine"] = 9,
        ["ten"] = 10,
        ["eleven"] = 11,
        ["twelve"] = 12,
        ["dozen"] = 12,
    };

    private static readonly Dictionary<string, double> FractionWords = new(StringComparer.OrdinalIgnoreCase)
    {
        ["half"] = 1.0 / 2,
        ["halves"] = 1.0 / 2,
        ["quarter"] = 1.0 / 4,
        ["quarters"] = 1.0 / 4,
        ["third"] = 1.0 / 3,
        ["thirds"] = 1.0 / 3,
        ["eighth"] = 1.0 / 8,
        ["eighths"] = 1.0 / 8,
    };

    private static readonly Dictionary<string, AmountUnit> Units = Table(
        (AmountUnit.Gram, "g gram grams gramme grammes gm gms"),
        (AmountUnit.Kilogram, "kg kgs kilo kilos kilogram kilograms kilogramme kilogrammes"),
        (AmountUnit.Milligram, "mg milligram milligrams milligramme milligrammes"),
        (AmountUnit.Ounce, "oz ozs ounce ounces"),
        (AmountUnit.Pound, "lb lbs pound pounds"),
        (AmountUnit.Millilitre, "ml mls millilitre millilitres milliliter milliliters cc ccm"),
        (AmountUnit.Litre, "l litre litres liter liters ltr"),
        (AmountUnit.Teaspoon, "tsp tsps teaspoon teaspoons teaspoonful teaspoonfuls teaspoonsful"),
        (AmountUnit.Tablespoon, "tbsp tbsps tbs tbl tblsp tablespoon tablespoons tablespoonful tablespoonfuls tablespoonsful"),
        (AmountUnit.Cup, "cup cups cupful cupfuls"),
        (AmountUnit.FluidOunce, "floz"),
        (AmountUnit.Pint, "pint pints pt pts"),
        (AmountUnit.Quart, "quart quarts qt qts"),
        (AmountUnit.Gallon, "gallon gallons gal gals"),
        (AmountUnit.Drop, "drop drops"),
        (AmountUnit.Pinch, "pinch pinches"),
        (AmountUnit.Dash, "dash dashes")
    );

    private static readonly Dictionary<string, (AmountUnit Unit, double Factor)> ScaledUnits = new(StringComparer.OrdinalIgnoreCase)
    {
        ["cl"] = (AmountUnit.Millilitre, 10),
        ["centilitre"] = (AmountUnit.Millilitre, 10),
        ["centilitres"] = (AmountUnit.Millilitre, 10),
        ["dl"] = (AmountUnit.Millilitre, 100),
        ["decilitre"] = (AmountUnit.Millilitre, 100),
        ["decilitres"] = (AmountUnit.Millilitre, 100),
    };

    /// <summary>Things a maker counts into a jar: plural → singular.</summary>
    private static readonly Dictionary<string, string> Counted = new(StringComparer.OrdinalIgnoreCase)
    {
        ["cloves"] = "clove",
        ["pieces"] = "piece",
        ["leaves"] = "leaf",
        ["berries"] = "berry",
        ["pods"] = "pod",
        ["sticks"] = "stick",
        ["galls"] = "gall",
        ["nails"] = "nail",
        ["tablets"] = "tablet",
        ["slices"] = "slice",
        ["skins"] = "skin",
        ["stones"] = "stone",
        ["petals"] = "petal",
        ["flowers"] = "flower",
        ["crystals"] = "crystal",
        ["lumps"] = "lump",
        ["coins"] = "coin",
        ["shells"] = "shell",
        ["husks"] = "husk",
        ["hulls"] = "hull",
        ["heads"] = "head",
        ["bulbs"] = "bulb",
        ["bunches"] = "bunch",
        ["roots"] = "root",
        ["sprigs"] = "sprig",
        ["stems"] = "stem",
        ["cones"] = "cone",
        ["fruits"] = "fruit",
    };

    private static readonly HashSet<string> CountedSingulars = new(Counted.Values, StringComparer.OrdinalIgnoreCase);

    private static readonly Dictionary<string, (string What, string Remedy)> Unclear = new(StringComparer.OrdinalIgnoreCase)
    {
        ["spoon"] = ("“spoon” does not say which one.", "Write tsp or tbsp."),
        ["spoons"] = ("“spoons” does not say which ones.", "Write tsp or tbsp."),
        ["spoonful"] = ("“spoonful” does not say which spoon.", "Write tsp or tbsp."),
        ["gr"] = ("“gr” can be read as gram or as grain.", "Write g."),
        ["heaped"] = ("A “heaped” spoon holds no fixed amount.", "Level it with a knife and count level spoons."),
        ["heaping"] = ("A “heaping” spoon holds no fixed amount.", "Level it with a knife and count level spoons."),
        ["rounded"] = ("A “rounded” spoon holds no fixed amount.", "Level it with a knife and count level spoons."),
        ["scant"] = ("A “scant” spoon holds no fixed amount.", "Level it with a knife and count level spoons."),
        ["handful"] = ("A “handful” is a different amount in every hand.", "Weigh it, and type grams."),
        ["handfuls"] = ("A “handful” is a different amount in every hand.", "Weigh it, and type grams."),
        ["splash"] = ("A “splash” is a different amount every time.", "Measure it, and type ml or drops."),
        ["some"] = ("“some” is not a number.", Remedy),
        ["few"] = ("“few” is not a number.", Remedy),
    };

    /// <summary>Reads one amount, or several that are said to go together: "1 tbsp + 1 tsp".</summary>
    public static Outcome<Amount> Read(string field, string? text)
    {
        var whole = ReadOne(field, text);
        return !whole.TryGet(out _) && Parts(text) is { } parts ? Sum(field, text!.Trim(), parts) : whole;
    }

    /// <summary>What is said to go together: "1 tbsp + 1 tsp", "1 lb plus 2 oz"; null where it is one amount.</summary>
    internal static IReadOnlyList<string>? Parts(string? text) =>
        text?.Trim() is { Length: <= 80 } typed
        && SumSign().Split(typed) is { Length: > 1 } parts
        && Array.TrueForAll(parts, part => part.Length > 0)
            ? parts
            : null;

    /// <summary>Reads a text that may be a sum, and adds up what its parts are.</summary>
    /// <param name="text">What was typed.</param>
    /// <param name="read">Reads one part.</param>
    /// <param name="add">Adds two; refuses what leaves the range.</param>
    internal static Outcome<T> ReadSum<T>(string? text, Func<string?, Outcome<T>> read, Func<T, T, Outcome<T>> add)
        where T : notnull
    {
        var whole = read(text);
        if (whole.TryGet(out _) || Parts(text) is not { } parts)
            return whole;
        var sum = read(parts[0]);
        foreach (var part in parts.Skip(1))
        {
            if (!sum.TryGet(out var so) || !read(part).TryGet(out var next))
                return whole;
            sum = add(so, next);
        }

        return sum;
    }

    private static Outcome<Amount> Sum(string field, string typed, IReadOnlyList<string> parts)
    {
        Amount? sum = null;
        foreach (var part in parts)
        {
            var read = ReadOne(field, part);
            if (!read.TryGet(out var next))
                return read;
            sum = sum is null ? next : Together(sum, next);
            if (sum is null)
                return Refuse(field, $"“{typed}” does not add up without knowing what is in it.", "Give it in one unit.");
        }

        return Outcome.Of(Amount.Read(typed, sum!.Number, sum.Unit, sum.Counted, sum.SaidKind, sum.Least, sum.Most));
    }

    /// <summary>Two amounts in the smaller of their units, where that is the same in every kitchen that may be meant; null where it is
    /// not.</summary>
    private static Amount? Together(Amount one, Amount other)
    {
        if (one.Plus(other) is { } sum)
            return sum;
        if (one.SaidKind != other.SaidKind || one.Least is not null || other.Least is not null)
            return null;
        var (large, small) = Size(one, Teaspoon.Metric) >= Size(other, Teaspoon.Metric) ? (one, other) : (other, one);
        Teaspoon[] kitchens = one.SaidKind is { } said ? [said] : Enum.GetValues<Teaspoon>();
        var ratios = kitchens.Select(kitchen => Size(large, kitchen) / Size(small, kitchen)).ToList();
        if (ratios[0] is not { } ratio || ratios.Exists(next => next is not { } same || Math.Abs(same - ratio) > 1e-6 * ratio))
            return null;
        var number = (large.Number * Math.Round(ratio, 6)) + small.Number;
        return number <= Amount.MaxNumber ? Amount.Read(large.Text, number, small.Unit, null, one.SaidKind) : null;
    }

    private static double? Size(Amount amount, Teaspoon kitchen) => KitchenMeasures.Millilitres(amount.Unit, kitchen);

    [GeneratedRegex(@"\s*\+\s*|\s+(?:plus|and)\s+", RegexOptions.IgnoreCase | RegexOptions.ExplicitCapture, 1000)]
    private static partial Regex SumSign();

    private static Outcome<Amount> ReadOne(string field, string? text)
    {
        var typed = (text ?? "").Trim();
        if (typed.Length == 0)
            return Refuse(field, "There is no amount.", Remedy);
        if (typed.Length > 80)
            return Refuse(field, "That is too long for one amount.", Remedy);
        if (typed[0] is '-' or '−' or '–')
            return Refuse(field, $"“{typed}” is less than nothing.", "An amount is zero or more.");

        var words = Words(typed);
        var place = 0;
        if (!TakeNumber(field, words, ref place).TryGet(out var number, out var problem))
            return Outcome.Refused<Amount>([problem]);
        double? upTo = null;
        if (AtRange(words, place))
        {
            place++;
            if (!TakeNumber(field, words, ref place).TryGet(out var upper, out problem))
                return Outcome.Refused<Amount>([problem]);
            upTo = upper;
        }

        if (Math.Max(number, upTo ?? 0) > Amount.MaxNumber)
            return Refuse(field, $"“{typed}” is more than any pot holds.", "Check the number and its unit.");
        var range = string.Join("", words.Take(place));

        SkipArticle(words, ref place);
        if (At(words, place) is { } level && Is(level, "level"))
            place++;
        Teaspoon? said = null;
        if (At(words, place) is { } maybeKind && KindOf(maybeKind) is { } kind)
        {
            said = kind;
            place++;
            if (At(words, place) is { } levelToo && Is(levelToo, "level"))
                place++;
        }

        if (At(words, place) is not { } word)
            return Refuse(field, $"“{typed}” has a number but no unit.", Remedy);
        if (Unclear.TryGetValue(word, out var unclear))
            return Refuse(field, unclear.What, unclear.Remedy);
        if (!TakeUnit(words, ref place, out var unit, out var factor, out var counted))
            return Refuse(field, $"“{word}” is not a unit that is known here.", Remedy);
        // Three or four cloves is how cloves are counted; two to three grams is nothing that was weighed.
        if (upTo is not null && unit is not AmountUnit.Piece)
            return Refuse(field, $"“{range}” is a range.", "Give the one amount that went in.");
        if (upTo <= number)
            return Refuse(field, $"“{range}” does not rise.", "Write the smaller number first, such as 3-4 cloves.");
        number *= factor;

        // "a teaspoon and a half"
        if (
            At(words, place) is { } and
            && Is(and, "and")
            && At(words, place + 1) is { } one
            && Is(one, "a")
            && At(words, place + 2) is { } part
            && FractionWords.TryGetValue(part, out var more)
        )
        {
            number += more;
            place += 3;
        }

        if (At(words, place) is { } unitLevel && Is(unitLevel, "level"))
            place++;
        if (At(words, place) is { } left)
            return Refuse(field, $"“{left}” was not understood in “{typed}”.", "Type one number and one unit, such as 1/4 tsp.");
        if (said is not null && KitchenMeasures.Millilitres(unit, Teaspoon.Metric) == KitchenMeasures.Millilitres(unit, Teaspoon.Imperial))
            said = null;
        return Outcome.Of(
            upTo is { } most
                ? Amount.Read(typed, (number + most) / 2, unit, counted, said, number, most)
                : Amount.Read(typed, number, unit, counted, said)
        );
    }

    /// <summary>The number that a text begins with, and the words that follow it; none for a bare number.</summary>
    internal static Outcome<(double Number, IReadOnlyList<string> After)> Lead(string field, string? text, string remedy)
    {
        var read = LeadRange(field, text, remedy);
        if (!read.TryGet(out var lead))
            return Outcome.Refused<(double, IReadOnlyList<string>)>(read.Problems);
        return lead.Least.Equals(lead.Most)
            ? Outcome.Of((lead.Least, lead.After))
            : Outcome.Refused<(double, IReadOnlyList<string>)>(field, $"“{text?.Trim()}” is a range.", "Give the one that was measured.");
    }

    /// <summary>The same for one number or two: "3", "3-4", "three or four".</summary>
    internal static Outcome<(double Least, double Most, IReadOnlyList<string> After)> LeadRange(string field, string? text, string remedy)
    {
        var typed = (text ?? "").Trim();
        var words = typed.Length is > 0 and <= 80 ? Words(typed) : [];
        if (words.Count == 0 || !StartsANumber(words[0]))
            return Outcome.Refused<(double, double, IReadOnlyList<string>)>(
                field,
                typed.Length > 80 ? "That is too long for one amount." : $"“{typed}” is not a number.",
                remedy
            );
        var place = 0;
        if (!TakeNumber(field, words, ref place).TryGet(out var least, out var problem))
            return Outcome.Refused<(double, double, IReadOnlyList<string>)>([problem]);
        var most = least;
        if (AtRange(words, place))
        {
            place++;
            if (!TakeNumber(field, words, ref place).TryGet(out most, out problem))
                return Outcome.Refused<(double, double, IReadOnlyList<string>)>([problem]);
        }

        // “1e308” is no one of a thing called “e”.
        if (
            At(words, place) is { } power
            && Is(power, "e")
            && At(words, place + 1) is { } digits
            && (StartsANumber(digits) || digits == "-")
        )
            return Outcome.Refused<(double, double, IReadOnlyList<string>)>(field, $"“{typed}” is written with a power of ten.", remedy);
        SkipArticle(words, ref place);
        return Outcome.Of((least, most, (IReadOnlyList<string>)[.. words.Skip(place)]));
    }

    public static string Plural(string singular)
    {
        foreach (var (plural, one) in Counted)
        {
            if (one == singular)
                return plural;
        }

        return singular;
    }

    internal static bool Is(string word, string other) => word.Equals(other, StringComparison.OrdinalIgnoreCase);

    /// <summary>True for what a number can begin with: a figure, or a word such as “half” or “three”.</summary>
    internal static bool StartsANumber(string word) =>
        char.IsAsciiDigit(word[0]) || word[0] is '.' or ',' || NumberWords.ContainsKey(word) || FractionWords.ContainsKey(word);

    /// <summary>"half a teaspoon", "three quarters of an hour".</summary>
    private static void SkipArticle(List<string> words, ref int place)
    {
        if (At(words, place) is { } of && Is(of, "of"))
            place++;
        if (At(words, place) is { } article && (Is(article, "a") || Is(article, "an")))
            place++;
    }

    /// <summary>"3-4", "3 to 4", "three or four".</summary>
    private static bool AtRange(List<string> words, int place) =>
        At(words, place) is { } sign
        && (sign is "-" or "~" || Is(sign, "to") || Is(sign, "or"))
        && At(words, place + 1) is { } upper
        && StartsANumber(upper);

    private static Outcome<Amount> Refuse(string field, string what, string remedy) => Outcome.Refused<Amount>(field, what, remedy);

    private static string? At(IReadOnlyList<string> words, int place) => place < words.Count ? words[place] : null;

    private static Teaspoon? KindOf(string word) =>
        word.ToUpperInvariant() switch
        {
            "US" or "U.S" or "AMERICAN" => Teaspoon.UsCustomary,
            "IMPERIAL" or "IMP" or "UK" or "BRITISH" => Teaspoon.Imperial,
            "METRIC" => Teaspoon.Metric,
            _ => null,
        };

    /// <summary>Splits into runs of digits (with their point, comma or slash) and runs of letters.</summary>
    internal static List<string> Words(string typed)
    {
        var spread = new StringBuilder();
        foreach (var sign in typed)
        {
            if (VulgarFractions.TryGetValue(sign, out var fraction))
                spread.Append(' ').Append(fraction).Append(' ');
            else
                spread.Append(
                    sign switch
                    {
                        '⁄' or '∕' => '/',
                        '–' or '−' => '-',
                        _ => char.IsWhiteSpace(sign) ? ' ' : sign,
                    }
                );
        }

        var words = new List<string>();
        var word = new StringBuilder();
        var kind = 0;
        void End()
        {
            if (word.Length > 0)
                words.Add(kind == 2 ? word.ToString().TrimEnd('.') : word.ToString());
            word.Clear();
        }

        var signs = spread.ToString().Replace(" / ", "/", StringComparison.Ordinal);
        foreach (var sign in signs)
        {
            var next =
                sign == ' ' ? 0
                : char.IsAsciiDigit(sign) || (sign is '.' or ',' or '/' && kind != 2) ? 1
                : char.IsLetter(sign) || (sign == '.' && kind == 2) ? 2
                : 3;
            if (next != kind || next == 3)
                End();
            kind = next;
            if (next != 0)
                word.Append(sign);
        }

        End();
        return words;
    }

    private static (double Number, Problem? Problem) Wrong(string field, string what, string remedy) =>
        (0, new Problem(field, what, remedy));

    private static (double Number, Problem? Problem) TakeNumber(string field, List<string> words, ref int place)
    {
        var first = words[place];
        if (NumberWords.TryGetValue(first, out var counted))
        {
            place++;
            // "a few", "a heaped teaspoon" and "a handful" say no number; "a quarter" and "three quarters" are fractions.
            if (At(words, place) is { } fraction && FractionWords.TryGetValue(fraction, out var part))
            {
                place++;
                return (counted * part, null);
            }

            if (At(words, place) is { } dozen && Is(dozen, "dozen"))
            {
                place++;
                return (counted * 12, null);
            }

            if (At(words, place) is { } hundred && (Is(hundred, "hundred") || Is(hundred, "thousand")))
            {
                place++;
                return (counted * (Is(hundred, "hundred") ? 100 : 1000), null);
            }

            return TakeAndPart(words, ref place, counted);
        }

        if (FractionWords.TryGetValue(first, out var share))
        {
            place++;
            return (share, null);
        }

        if (!char.IsAsciiDigit(first[0]) && first[0] is not ('.' or ','))
        {
            return Unclear.TryGetValue(first, out var unclear)
                ? Wrong(field, unclear.What, unclear.Remedy)
                : Wrong(field, $"“{first}” is not a number.", Remedy);
        }

        var number = Figure(field, first);
        if (number.Problem is not null)
            return number;
        place++;
        if (At(words, place) is { } second && char.IsAsciiDigit(second[0]))
        {
            if (
                first.Contains('/', StringComparison.Ordinal)
                || !second.Contains('/', StringComparison.Ordinal)
                || first.AsSpan().ContainsAny('.', ',')
            )
                return Wrong(field, $"“{first} {second}” is not one number.", Remedy);
            var more = Figure(field, second);
            if (more.Problem is not null)
                return more;
            if (more.Number >= 1)
                return Wrong(field, $"“{second}” is not a part of one.", Remedy);
            place++;
            return (number.Number + more.Number, null);
        }

        return TakeAndPart(words, ref place, number.Number);
    }

    /// <summary>"one and a half teaspoons", "1 and 1/2 tsp".</summary>
    private static (double Number, Problem? Problem) TakeAndPart(List<string> words, ref int place, double whole)
    {
        if (At(words, place) is not { } and || !(Is(and, "and") || and is "&" or "+"))
            return (whole, null);
        var next = place + 1;
        if (At(words, next) is { } article && Is(article, "a"))
            next++;
        if (At(words, next) is not { } part)
            return (whole, null);
        if (FractionWords.TryGetValue(part, out var share))
        {
            place = next + 1;
            return (whole + share, null);
        }

        if (part.Contains('/', StringComparison.Ordinal) && Figure("", part) is { Problem: null, Number: < 1 } figure)
        {
            place = next + 1;
            return (whole + figure.Number, null);
        }

        return (whole, null);
    }

    private static (double Number, Problem? Problem) Figure(string field, string word)
    {
        if (word.Split('/') is [var top, var bottom])
        {
            if (
                top.Length > 0
                && bottom.Length > 0
                && top.All(char.IsAsciiDigit)
                && bottom.All(char.IsAsciiDigit)
                && double.Parse(bottom, CultureInfo.InvariantCulture) is > 0 and < 1e6 and var below
                && double.Parse(top, CultureInfo.InvariantCulture) is < 1e9 and var above
            )
                return (above / below, null);
            return Wrong(field, $"“{word}” is not a fraction.", "Type it like 1/4.");
        }

        // 1,500 is fifteen hundred to one reader and one and a half to the next; a thousandfold dose is not a thing to guess at.
        if (
            word.Split(',') is [{ Length: >= 1 and <= 3 } thousands, { Length: 3 } hundreds]
            && thousands[0] != '0'
            && (thousands + hundreds).All(char.IsAsciiDigit)
        )
            return Wrong(
                field,
                $"“{word}” can be read as {thousands}.{hundreds} or as {thousands}{hundreds}.",
                "Write it without the comma, or with a point."
            );
        return double.TryParse(word.Replace(',', '.'), NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out var number)
            ? (number, null)
            : Wrong(field, $"“{word}” is not a number.", Remedy);
    }

    private static bool TakeUnit(List<string> words, ref int place, out AmountUnit unit, out double factor, out string? counted)
    {
        var word = words[place];
        factor = 1;
        counted = null;
        if (
            (Is(word, "fl") || Is(word, "fluid"))
            && At(words, place + 1) is { } ounce
            && Units.TryGetValue(ounce, out unit)
            && unit is AmountUnit.Ounce
        )
        {
            unit = AmountUnit.FluidOunce;
            place += 2;
            return true;
        }

        // A capital T is a tablespoon and a small t a teaspoon to those who use them at all.
        if (word is "t" or "T")
        {
            unit = word == "t" ? AmountUnit.Teaspoon : AmountUnit.Tablespoon;
            place++;
            return true;
        }

        if (ScaledUnits.TryGetValue(word, out var scaled))
        {
            (unit, factor) = scaled;
            place++;
            return true;
        }

        if (Units.TryGetValue(word, out unit))
        {
            place++;
            return true;
        }

        unit = AmountUnit.Piece;
        counted =
            Counted.TryGetValue(word, out var singular) ? singular
            : CountedSingulars.Contains(word) ? word.ToLowerInvariant()
            : null;
        place++;
        return counted is not null;
    }

    private static bool TryGet(
        this (double Number, Problem? Problem) taken,
        out double number,
        [System.Diagnostics.CodeAnalysis.NotNullWhen(false)] out Problem? problem
    )
    {
        (number, problem) = taken;
        return problem is null;
    }

    private static Dictionary<string, AmountUnit> Table(params (AmountUnit Unit, string Names)[] rows)
    {
        var table = new Dictionary<string, AmountUnit>(StringComparer.OrdinalIgnoreCase);
        foreach (var (unit, names) in rows)
        {
            foreach (var name in names.Split(' '))
                table[name] = unit;
        }

        return table;
    }
}

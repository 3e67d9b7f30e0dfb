using System.Globalization;
using Dyewort.Quantities;
using Dyewort.Response;
using Dyewort.Workshop;
using Dyewort.Workshop.Response;

namespace Dyewort.Cli.Commands.Response;

/// <summary>Reads what a maker types about jars, additions and colours beside a table of trials.</summary>
internal static class TypedJar
{
    /// <summary>An addition and its amount, such as "alum=1/4 tsp" or "copperas=0.2 g", as the trials name it.</summary>
    public static (string Name, Amount Amount)? Measure(
        this Entered entered,
        string field,
        string? text,
        TrialSource trials,
        string example = "alum=1/4 tsp"
    )
    {
        var sign = (text ?? "").LastIndexOf('=');
        if (sign <= 0)
        {
            entered.Refuse(field, $"“{text}” does not say how much of what.", $"Write it as \"{example}\".");
            return null;
        }

        return entered.Take(Amount.Parse(field, text![(sign + 1)..].Trim())) is { } amount
            ? (trials.Named(text[..sign].Trim()), amount)
            : null;
    }

    /// <summary>The same in grams.</summary>
    public static (string Name, double Grams)? Addition(
        this Entered entered,
        string field,
        string? text,
        TrialSource trials,
        string example = "alum=1/4 tsp"
    )
    {
        if (entered.Measure(field, text, trials, example) is not var (name, amount))
            return null;
        var weighed = trials.Weigh(field, name, amount);
        if (weighed.TryGet(out var mass))
            return (name, mass.Grams);
        entered.Take(weighed);
        return null;
    }

    /// <summary>A volume that must be there, with its unit or as bare millilitres.</summary>
    public static Volume Volume(this Entered entered, string field, string? text, string what, string example)
    {
        var before = entered.Problems.Count;
        var read = entered.Volume(field, text);
        if (read is > 0 and { } ml)
            return Dyewort.Quantities.Volume.FromMillilitres(ml);
        if (entered.Problems.Count == before)
            entered.Refuse(field, $"{what} volume is missing.", $"Add {field} {example}.");
        return default;
    }

    /// <summary>Doses in g/L, such as "copperas=4", by the names of the trials.</summary>
    public static Doses Doses(this Entered entered, string field, IReadOnlyList<string> texts, TrialSource trials, string example)
    {
        Doses doses = [];
        foreach (var text in texts)
        {
            if (entered.Number(field, text, trials, "g/L", example) is { } dose)
                doses = doses.With(dose.Name, dose.Number);
        }

        return doses;
    }

    private static (string Name, double Number)? Number(
        this Entered entered,
        string field,
        string? text,
        TrialSource trials,
        string unit,
        string example
    )
    {
        var sign = (text ?? "").LastIndexOf('=');
        if (
            sign > 0
            && double.TryParse(
                text![(sign + 1)..].Trim().Replace(unit, "", StringComparison.OrdinalIgnoreCase).Trim(),
                NumberStyles.AllowDecimalPoint,
                CultureInfo.InvariantCulture,
                out var number
            )
            && number is > 0 and <= 2000
        )
            return (trials.Named(text[..sign].Trim()), number);
        entered.Refuse(field, $"“{text}” is not an addition and its {unit}.", $"Write it as \"{example}\".");
        return null;
    }

    /// <summary>A jar: a sample of the table, with further additions or with additions alone.</summary>
    public static TrialPoint? Jar(
        this Entered entered,
        TrialSource trials,
        string plant,
        string? sample,
        IReadOnlyList<string> inJar,
        Volume volume,
        string? ph
    )
    {
        var point = new TrialPoint { Sample = "", Plant = plant };
        if (!string.IsNullOrWhiteSpace(sample))
        {
            if (
                trials.Table.Points.FirstOrDefault(one =>
                    one.Wash > 0 && string.Equals(one.Sample, sample.Trim(), StringComparison.OrdinalIgnoreCase)
                )
                is not { } known
            )
            {
                entered.Refuse("--jar", $"There is no sample “{sample}” in the trials.", "Give its code as the trials write it.");
                return null;
            }

            point = known with { Wash = 1, Coats = 1 };
        }

        if (inJar.Count > 0)
        {
            if (volume.Millilitres <= 0)
                return null;
            var doses = point.GramsPerLitre;
            foreach (var text in inJar)
            {
                if (entered.Addition("--in", text, trials) is { } added)
                    doses = doses.Plus(added.Name, 1000 * added.Grams / volume.Millilitres);
            }

            point = point with { Sample = "", GramsPerLitre = doses, Ph = null };
        }

        return entered.OptionalNumber("--ph", ph, "pH", -1, 15, "4.5") is { } tested ? point with { Ph = tested } : point;
    }
}

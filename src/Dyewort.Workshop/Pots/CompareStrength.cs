using System.Text.Json.Serialization;
using Dyewort.Pots;
using Dyewort.Quantities;

namespace Dyewort.Workshop.Pots;

/// <summary>The strength of liquors from drops or washes, and how they compare.</summary>
public sealed class CompareStrength : IUseCase
{
    /// <param name="csv">Columns liquor, L, a, b; name, wash (1:3 or 0.25) and u95 where known.</param>
    /// <param name="paper">The bare paper's colour, as typed.</param>
    /// <param name="yields">Liquor → (strained ml, plant g), as "EB25-1=790ml/900g".</param>
    public Outcome<CompareStrengthAnswer> Handle(string csv, string? paper, IReadOnlyList<string> yields)
    {
        var entered = new Entered();
        var bare = ReadDrops.Paper(entered, paper);
        var table = CsvText.Read("drops", csv, ["l", "a", "b"], ["liquor", "name", "wash", "u95"]);
        if (!table.TryGet(out var rows))
            return Outcome.Refused<CompareStrengthAnswer>([.. entered.Problems, .. table.Problems]);
        var problems = new List<Problem>();
        var painted = ReadDrops.Painted(rows, problems);
        var known = yields.Select(text => Yield(entered, text)).OfType<(string Liquor, double Ml, double Grams)>().ToList();
        if (!entered.Sound || problems.Count > 0)
            return Outcome.Refused<CompareStrengthAnswer>([.. entered.Problems, .. problems]);

        var groups = painted
            .GroupBy(one => one.Liquor ?? "the liquor")
            .Select(group => (Name: group.Key, Drops: group.Select(one => one.Painted).ToList()))
            .ToList();
        var lines = new List<CompareStrengthLine>();
        var remarks = new List<string>();
        foreach (var (name, drops) in groups)
        {
            double? PerGram(LiquorStrength strength) =>
                known
                    .Where(one => one.Liquor == name)
                    .Select(one => (double?)(ColourSums.Units(strength.Strength, one.Ml) / one.Grams))
                    .FirstOrDefault();
            if (lines.Count == 0)
            {
                var own = LiquorStrength.Of(drops, bare);
                if (!own.TryGet(out var first))
                    return Outcome.Refused<CompareStrengthAnswer>(own.Problems);
                lines.Add(new(name, first, 1, 0, PerGram(first)));
                remarks.AddRange(first.Remarks);
                continue;
            }

            var compared = LiquorStrength.Compare(drops, groups[0].Drops, bare);
            if (!compared.TryGet(out var ratio))
                return Outcome.Refused<CompareStrengthAnswer>(compared.Problems);
            lines.Add(new(name, ratio.First, ratio.Ratio, ratio.Uncertainty, PerGram(ratio.First)));
            remarks.AddRange(ratio.Remarks.Except(remarks).ToList());
        }

        if (known.Find(one => groups.TrueForAll(group => group.Name != one.Liquor)) is { Liquor: { } stray })
            return Outcome.Refused<CompareStrengthAnswer>("yield", $"There are no drops of “{stray}”.", "Name a liquor of the table.");
        return Outcome.Of(new CompareStrengthAnswer(lines, remarks));
    }

    private static (string Liquor, double Ml, double Grams)? Yield(Entered entered, string text)
    {
        var (name, rest) = text.IndexOf('=', StringComparison.Ordinal) is var sign and > 0 ? (text[..sign], text[(sign + 1)..]) : ("", "");
        var parts = rest.Split('/');
        if (parts.Length != 2)
        {
            entered.Refuse("yield", $"“{text}” does not say how much liquor from how much plant.", "Write it as EB25-1=790ml/900g.");
            return null;
        }

        return entered.Volume("yield", parts[0]) is { } ml && entered.Mass("yield", parts[1]) is { } grams and > 0
            ? (name, ml, grams)
            : null;
    }
}

public sealed record CompareStrengthAnswer(IReadOnlyList<CompareStrengthLine> Liquors, IReadOnlyList<string> Remarks)
{
    /// <summary>How strong the second liquor is against the first, of a table that holds two.</summary>
    [JsonIgnore]
    public StrengthRatio SecondToFirst =>
        new(Liquors[1].RatioToFirst, Liquors[1].RatioUncertainty, Liquors[1].Strength, Liquors[0].Strength, []);
}

/// <param name="Liquor">Its name.</param>
/// <param name="Strength">Its strength.</param>
/// <param name="RatioToFirst">How many times as strong as the first liquor; 1 for itself.</param>
/// <param name="RatioUncertainty">Standard deviation of that.</param>
/// <param name="UnitsPerGram">Colour units per gram of plant, where volume and plant are known.</param>
public sealed record CompareStrengthLine(
    string Liquor,
    LiquorStrength Strength,
    double RatioToFirst,
    double RatioUncertainty,
    double? UnitsPerGram
);

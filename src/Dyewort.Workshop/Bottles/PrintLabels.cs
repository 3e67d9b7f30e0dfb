using System.Globalization;
using System.Text.Json;
using Dyewort.Colour;
using Dyewort.Making;
using Dyewort.Print;
using Dyewort.Quantities;
using Dyewort.Safety;

namespace Dyewort.Workshop.Bottles;

/// <summary>Makes sheets of bottle labels.</summary>
public sealed class PrintLabels(TimeProvider clock) : IUseCase
{
    private const int MostLabels = 2000;
    private static readonly JsonSerializerOptions Options = new(JsonSerializerDefaults.Web);

    public Outcome<PrintLabelsAnswer> Handle(PrintLabelsForm form)
    {
        var read = Read(form.Bottles);
        return read.TryGet(out var facts) ? Handle(facts, form) : Outcome.Refused<PrintLabelsAnswer>(read.Problems);
    }

    /// <summary>The same for bottles that are known already.</summary>
    public Outcome<PrintLabelsAnswer> Handle(IReadOnlyList<LabelFacts> bottles, PrintLabelsForm form)
    {
        var front = Sheet("front", form.Front, LabelSheet.UsualFront);
        var cap = Sheet("cap", form.Cap, LabelSheet.UsualCap);
        if (!front.TryGet(out var frontSheet) || !cap.TryGet(out var capSheet))
            return Outcome.Refused<PrintLabelsAnswer>([.. front.Problems, .. cap.Problems]);
        if (bottles.Count > MostLabels)
            return Outcome.Refused<PrintLabelsAnswer>(
                "bottles",
                $"{bottles.Count} bottles are more than {MostLabels}.",
                "Print them in parts."
            );
        if (
            bottles.GroupBy(bottle => bottle.Code, StringComparer.OrdinalIgnoreCase).FirstOrDefault(group => group.Count() > 1) is { } twice
        )
            return Outcome.Refused<PrintLabelsAnswer>(
                "bottles",
                $"Two bottles have the code “{twice.Key}”.",
                "Give every bottle a code of its own."
            );
        var labels = bottles.Select(LabelText.Of).ToList();
        var drawn = LabelsPdf.Draw(
            labels,
            form.NoFronts ? null : frontSheet,
            form.NoCaps ? null : capSheet,
            form.Used,
            DateOnly.FromDateTime(clock.GetUtcNow().UtcDateTime)
        );
        return drawn.TryGet(out var pdf)
            ? Outcome.Of(new PrintLabelsAnswer(pdf, labels))
            : Outcome.Refused<PrintLabelsAnswer>(drawn.Problems);
    }

    private static Outcome<LabelSheet> Sheet(string field, string? json, LabelSheet usual) =>
        string.IsNullOrWhiteSpace(json) ? Outcome.Of(usual) : LabelSheet.Parse(field, json);

    private static Outcome<IReadOnlyList<LabelFacts>> Read(string? json)
    {
        const string Remedy = "Use a list such as [{\"code\":\"AAC-AD7\",\"name\":\"Dusk\",\"made\":\"2025-10-18\"}].";
        FileShape? file;
        try
        {
            var text = (json ?? "").Trim();
            file = text.StartsWith('[')
                ? new FileShape { Bottles = JsonSerializer.Deserialize<List<FileBottle?>>(text, Options) }
                : JsonSerializer.Deserialize<FileShape>(text, Options);
        }
        catch (JsonException problem)
        {
            return Outcome.Refused<IReadOnlyList<LabelFacts>>(
                "bottles",
                $"The bottles are not readable JSON (line {problem.LineNumber + 1}).",
                Remedy
            );
        }

        if (file?.Bottles is not { Count: > 0 } bottles)
            return Outcome.Refused<IReadOnlyList<LabelFacts>>("bottles", "There is no bottle to label.", Remedy);
        var problems = new List<Problem>();
        var facts = new List<LabelFacts>();
        foreach (var (bottle, number) in bottles.Select((bottle, index) => (bottle, index + 1)))
        {
            var known = problems.Count;
            var fact = Facts(bottle ?? new FileBottle(), file, number, problems);
            if (problems.Count == known)
                facts.Add(fact!);
            if (problems.Count >= 5)
                break;
        }

        return problems.Count > 0 ? Outcome.Refused<IReadOnlyList<LabelFacts>>(problems) : Outcome.Of<IReadOnlyList<LabelFacts>>(facts);
    }

    private static LabelFacts? Facts(FileBottle bottle, FileBottle shared, int number, List<Problem> problems)
    {
        var code = (bottle.Code ?? "").Trim();
        var name = (bottle.Name ?? shared.Name ?? "").Trim();
        if (code.Length is 0 or > 20)
            problems.Add(
                new("bottles", $"Bottle {number} has no code, or one of more than 20 signs.", "Give every bottle a short code of its own.")
            );
        var inside = (bottle.Contains ?? shared.Contains ?? [])
            .Concat((bottle.Additions ?? shared.Additions ?? []).Select(addition => addition.Name))
            .OfType<string>();
        if (Caution.WhyNever(inside) is { } never)
            problems.Add(new("bottles", $"Bottle {number} gets no label. {never}", "Do not bottle it."));
        if (name.Length is 0 or > 80)
            problems.Add(new("bottles", $"Bottle {number} has no name, or one of more than 80 signs.", "Give it the ink's name."));
        var made = Day(bottle.Made ?? shared.Made, number, problems);
        var keepBy = Day(bottle.KeepBy ?? shared.KeepBy, number, problems);
        if ((bottle.KeepMonths ?? shared.KeepMonths) is { } months)
        {
            if (months is < 1 or > 120)
                problems.Add(new("bottles", $"Bottle {number} cannot keep for {months} months.", "Give 1 to 120 months."));
            else if (made is { } day)
                keepBy ??= Keeping.KeepBy(day, months);
        }

        Xyz? colour = null;
        if ((bottle.Colour ?? shared.Colour) is { Length: > 0 } typed)
        {
            var read = ColourText.Parse("bottles", typed);
            if (read.TryGet(out var known))
                colour = known.Colour;
            else
                problems.AddRange(read.Problems);
        }

        var additions = bottle.Additions ?? shared.Additions ?? [];
        var contents = Contents(additions, bottle.Per ?? shared.Per ?? "100 ml")
            .Concat(
                (bottle.Contains ?? shared.Contains ?? [])
                    .Where(one => !string.IsNullOrWhiteSpace(one))
                    .Select(one => new LabelContent(one!.Trim(), Caution.HazardOf(null, one.Trim())))
            );
        var liquor = bottle.Liquor ?? shared.Liquor;
        var plants =
            bottle.Plants ?? shared.Plants ?? (liquor is not null && PlantHazard.Listed(liquor).Count > 0 ? [liquor] : (string?[])[]);
        var steps = additions
            .Where(addition => !string.IsNullOrWhiteSpace(addition.Name))
            .Select(addition => (addition.Name!.Trim(), (addition.Amount ?? "").Trim()))
            .ToList();
        return new LabelFacts
        {
            Name = name,
            Code = code,
            Recipe =
                bottle.Recipe
                ?? shared.Recipe
                ?? LabelText.RecipeWords(bottle.Liquor ?? shared.Liquor, steps, bottle.Per ?? shared.Per ?? "100 ml"),
            ChartPosition = bottle.Chart ?? shared.Chart,
            Colour = colour,
            MadeOn = made,
            KeepBy = keepBy,
            Volume = bottle.Volume ?? shared.Volume,
            Place = bottle.Place ?? shared.Place,
            Link = (bottle.Link ?? shared.Link)?.Replace("{code}", code, StringComparison.Ordinal),
            Contents = [.. contents],
            Plants = [.. plants.Where(one => !string.IsNullOrWhiteSpace(one)).Select(one => one!.Trim())],
            Caution = bottle.Caution ?? shared.Caution,
        };
    }

    /// <summary>What was added, with its share of the ink where the amounts can be weighed.</summary>
    private static IEnumerable<LabelContent> Contents(IReadOnlyList<FileAddition> additions, string per)
    {
        var named = additions.Where(addition => !string.IsNullOrWhiteSpace(addition.Name)).ToList();
        var liquor = Quantities.Volume.Parse("per", per).TryGet(out var volume) ? volume.Millilitres : 0;
        var weighed = named.ConvertAll(addition =>
            Amount.Parse("additions", addition.Amount).TryGet(out var amount)
                ? KnownMaterials.Measured(addition.Name!.Trim()).Weigh(amount, Teaspoon.Metric, factor: 1)
                : null
        );
        var inkMl = liquor + weighed.Where(one => one?.ToAmount().IsPoured == true).Sum(one => one!.Ml ?? 0);
        return named.Zip(
            weighed,
            (addition, amount) =>
                new LabelContent(addition.Name!.Trim(), Caution.HazardOf(null, addition.Name.Trim()))
                {
                    GramsPer100Ml = liquor > 0 ? 100 * amount?.Grams / inkMl : null,
                    MlPer100Ml = liquor > 0 && amount?.ToAmount().IsPoured == true ? 100 * amount.Ml / inkMl : null,
                }
        );
    }

    private static DateOnly? Day(string? text, int number, List<Problem> problems)
    {
        if (string.IsNullOrWhiteSpace(text))
            return null;
        if (
            DateOnly.TryParseExact(text.Trim(), "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.None, out var day)
            && day.Year is > 1900 and < 2200
        )
            return day;
        problems.Add(new("bottles", $"Bottle {number}: “{text}” is not a day.", "Write year, month and day, such as 2025-10-18."));
        return null;
    }

    private sealed record FileAddition(string? Name, string? Amount);

    private record FileBottle
    {
        public string? Code { get; init; }

        public string? Name { get; init; }

        public string? Recipe { get; init; }

        public string? Liquor { get; init; }

        public IReadOnlyList<FileAddition>? Additions { get; init; }

        public string? Per { get; init; }

        public string? Chart { get; init; }

        public string? Colour { get; init; }

        public string? Made { get; init; }

        public string? KeepBy { get; init; }

        public int? KeepMonths { get; init; }

        public string? Volume { get; init; }

        public string? Place { get; init; }

        /// <summary>"{code}" in it stands for the bottle's code.</summary>
        public string? Link { get; init; }

        public IReadOnlyList<string?>? Contains { get; init; }

        /// <summary>What its liquor was made of; where nothing is said, what the liquor's words name.</summary>
        public IReadOnlyList<string?>? Plants { get; init; }

        public string? Caution { get; init; }
    }

    private sealed record FileShape : FileBottle
    {
        public List<FileBottle?>? Bottles { get; init; }
    }
}

/// <param name="Pdf">The sheets.</param>
/// <param name="Labels">What they say.</param>
public sealed record PrintLabelsAnswer(byte[] Pdf, IReadOnlyList<LabelText> Labels);

public sealed record PrintLabelsForm
{
    /// <summary>The bottles as JSON: a list of them, or one object with what they share and a list "bottles".</summary>
    public string? Bottles { get; init; }

    /// <summary>A label sheet's description as JSON; the usual one when empty.</summary>
    public string? Front { get; init; }

    /// <summary>A label sheet's description as JSON; the usual one when empty.</summary>
    public string? Cap { get; init; }

    public bool NoFronts { get; init; }

    public bool NoCaps { get; init; }

    /// <summary>Labels already gone from the first sheet.</summary>
    public int Used { get; init; }
}

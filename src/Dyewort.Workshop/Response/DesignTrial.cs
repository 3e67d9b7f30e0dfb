using System.Globalization;
using Dyewort.Colour;
using Dyewort.Print;
using Dyewort.Quantities;
using Dyewort.Response;
using Dyewort.Workshop.Pots;
using Dyewort.Workshop.Readings;
using Dyewort.Workshop.Trials;

namespace Dyewort.Workshop.Response;

/// <summary>Plans a trial of one or more additions from a table of trials, and prints its tags and its sheet.</summary>
public sealed class DesignTrial(ModelShelf shelf, TimeProvider clock) : IUseCase
{
    /// <param name="form">What to plan.</param>
    /// <param name="trials">What was painted; null where nothing was yet.</param>
    public Outcome<DesignTrialAnswer> Handle(DesignTrialForm form, TrialSource? trials)
    {
        ArgumentNullException.ThrowIfNull(form);
        var entered = new Entered();
        var sample = entered.Millilitres("--sample", form.Sample) ?? 30;
        var left = entered.Millilitres("--left", form.Liquor);
        ResponseModel? model = null;
        var warnings = new List<string>();
        if (trials is not null)
        {
            warnings.AddRange(trials.Table.Warnings);
            var fitted = shelf.Of(trials.Table, form.Plant);
            if (fitted.TryGet(out var known))
                model = known;
            else if (form.Next)
                return Outcome.Refused<DesignTrialAnswer>(fitted.Problems);
            else
                warnings.AddRange(fitted.Problems.Select(problem => problem.ToString()));
        }
        else if (form.Next)
        {
            return Outcome.Refused<DesignTrialAnswer>(
                "--next",
                "Not enough trials yet: nothing was painted.",
                "Start with --design ADDITION,ADDITION."
            );
        }

        string[] names =
        [
            .. form.Additions.Select(name => name.Trim()).Where(name => name.Length > 0).Select(name => trials?.Named(name) ?? name),
        ];
        IReadOnlyList<string> all = names.Length > 0 || model is null ? names : model.Additions;
        var smallest = Doses.None;
        var measures = new Dictionary<string, string>(StringComparer.OrdinalIgnoreCase);
        foreach (var spoon in form.Spoons.OrderBy(text => text.Contains('=', StringComparison.Ordinal)))
        {
            var named = spoon.Contains('=', StringComparison.Ordinal);
            foreach (var text in named ? [spoon] : all.Select(name => $"{name}={spoon}"))
            {
                if (entered.Addition("--spoon", text, trials, "alum=1/8 tsp") is not { } measure)
                    continue;
                smallest = smallest.With(measure.Name, measure.Grams);
                measures[measure.Name] = text[(text.LastIndexOf('=') + 1)..].Trim();
            }
        }

        var limits = entered.Doses("--limit", form.Limits, trials, "copperas=4");

        Lab? wanted = null;
        if (!string.IsNullOrWhiteSpace(form.Wanted) && entered.Take(ColourText.Parse("--towards", form.Wanted)) is { } colour)
            wanted = Lab.FromXyz(colour.Colour);
        if (!entered.Sound)
            return Outcome.Refused<DesignTrialAnswer>(entered.Problems);
        var bench = new BenchLimits
        {
            SampleMillilitres = sample,
            LiquorMillilitres = left,
            Jars = form.Jars,
            SmallestGrams = smallest,
            MostGramsPerLitre = SafeDoses.Of(all, trials, model, limits),
        };
        var outcome = form.Next
            ? TrialDesigner.Next(model!, names, bench, form.Count, wanted)
            : TrialDesigner.Spread(model, names, bench, form.Count);
        if (!outcome.TryGet(out var design))
            return Outcome.Refused<DesignTrialAnswer>(outcome.Problems);
        return Outcome.Of(
            new DesignTrialAnswer(
                design,
                model?.Plant ?? form.Plant,
                measures,
                Caution.Lines(design.Samples.SelectMany(one => one.Additions).Select(one => one.Name)),
                warnings
            )
        );
    }

    /// <summary>How an addition is measured out, such as "3 × 1/8 tsp (1.8 g)".</summary>
    public static string Say(PlannedAddition addition, IReadOnlyDictionary<string, string> measures)
    {
        ArgumentNullException.ThrowIfNull(addition);
        ArgumentNullException.ThrowIfNull(measures);
        var grams = string.Create(CultureInfo.InvariantCulture, $"{addition.Grams:0.###} g");
        return measures.TryGetValue(addition.Name, out var measure) && !measure.EndsWith('g')
            ? $"{addition.Measures} × {measure} ({grams})"
            : grams;
    }

    /// <summary>Tags for the jars, as a PDF.</summary>
    public Outcome<byte[]> Tags(DesignTrialAnswer answer)
    {
        ArgumentNullException.ThrowIfNull(answer);
        var liquor = string.Create(
            CultureInfo.InvariantCulture,
            $"{answer.Design.SampleMillilitres:0.#} ml{(answer.Plant.Length > 0 ? $" of {answer.Plant}" : "")}"
        );
        return new PrintJarTags(clock).Handle(
            [
                .. answer.Design.Samples.Select(sample => new JarTag(
                    Code(sample),
                    liquor,
                    sample.Additions.Count == 0
                        ? ["nothing: the plain liquor"]
                        : [.. sample.Additions.Select(one => $"{one.Name} {Say(one, answer.Measures)}")]
                )),
            ],
            null
        );
    }

    /// <summary>A sheet with one cell per jar, its number under it, as a PDF and as the layout that reads its photo.</summary>
    public Outcome<PrintSheetAnswer> Sheet(DesignTrialAnswer answer, string? page, string? chart)
    {
        ArgumentNullException.ThrowIfNull(answer);
        var count = answer.Design.Samples.Count;
        var columns = Math.Min(4, count);
        var rows = (count + columns - 1) / columns;
        var cells = Enumerable.Range(0, columns * rows).Select(i => $"{(char)('A' + (i % columns))}{(i / columns) + 1}").ToArray();
        return new PrintSheet(clock).Handle(
            new()
            {
                Cells = $"{columns}x{rows}",
                Page = string.IsNullOrWhiteSpace(page)
                    ? count <= 24
                        ? "A5"
                        : "A4"
                    : page,
                Chart = chart,
                Title = answer.Plant.Length > 0 ? $"Trial of {answer.Plant}" : "Trial",
                Blank = string.Join(',', cells.Skip(count)),
                Captions = answer
                    .Design.Samples.Select((sample, i) => (sample, i))
                    .ToDictionary(one => cells[one.i], one => Code(one.sample)),
            }
        );
    }

    /// <summary>What stands on a jar's tag and under its cell.</summary>
    public static string Code(PlannedSample sample) => string.Create(CultureInfo.InvariantCulture, $"N{sample?.Number}");
}

/// <param name="Design">The plan.</param>
/// <param name="Measures">What the smallest measure of each addition is called.</param>
public sealed record DesignTrialAnswer(
    TrialDesign Design,
    string Plant,
    IReadOnlyDictionary<string, string> Measures,
    IReadOnlyList<string> Cautions,
    IReadOnlyList<string> Warnings
);

public sealed record DesignTrialForm
{
    /// <summary>The additions; empty for all that were tested.</summary>
    public IReadOnlyList<string> Additions { get; init; } = [];

    public int Count { get; init; } = 8;

    /// <summary>True for the samples that teach most next, false for a spread over the doses.</summary>
    public bool Next { get; init; }

    /// <summary>A colour to learn about; empty for all of them.</summary>
    public string? Wanted { get; init; }

    public string Plant { get; init; } = "";

    public string? Sample { get; init; }

    public string? Liquor { get; init; }

    public int Jars { get; init; } = 60;

    /// <summary>Smallest measures: "alum=1/8 tsp", or "1/8 tsp" for every addition.</summary>
    public IReadOnlyList<string> Spoons { get; init; } = [];

    /// <summary>Limits in g/L: "copperas=4".</summary>
    public IReadOnlyList<string> Limits { get; init; } = [];
}

using System.Globalization;
using Dyewort.Chemistry;
using Dyewort.Quantities;

namespace Dyewort.Workshop.Chemistry;

/// <summary>Says what a jar of liquor and additions holds: pH with its interval, what dissolved, what did not, and what to look out
/// for.</summary>
public sealed class DescribeJar : IUseCase
{
    /// <summary>More additions than this are a slip.</summary>
    private const int MostAdditions = 40;

    private readonly SubstanceCatalogue catalogue;

    public DescribeJar()
        : this(SubstanceCatalogue.Standard) { }

    /// <summary>With the maker's own substances and spoon weights.</summary>
    public DescribeJar(SubstanceCatalogue catalogue) => this.catalogue = catalogue;

    public Outcome<DescribeJarAnswer> Handle(DescribeJarForm form)
    {
        ArgumentNullException.ThrowIfNull(form);
        var spoon = TeaspoonWords.Parse(form.Teaspoon);
        var kind = spoon.TryGet(out var known) ? known : Teaspoon.Metric;
        var volume = Volume(form.Volume, kind);
        var temperature = Celsius(form.Temperature);
        var liquor = Liquid(form);
        var portions = Portions(form.Additions, kind);
        var problems = new List<Problem>([
            .. spoon.Problems,
            .. volume.Problems,
            .. temperature.Problems,
            .. liquor.Problems,
            .. portions.Problems,
        ]);
        if (
            problems.Count > 0
            || !volume.TryGet(out var millilitres)
            || !temperature.TryGet(out var celsius)
            || !liquor.TryGet(out var filled)
            || !portions.TryGet(out var added)
        )
            return Outcome.Refused<DescribeJarAnswer>(problems);
        var contents = new JarContents
        {
            LiquorMillilitres = millilitres,
            Liquor = filled,
            Portions = added,
        };
        if (string.IsNullOrWhiteSpace(form.JarPh))
            return Handle(contents, celsius);
        var reading = Note("jar-ph", form.JarPh, form.PhTool);
        if (!reading.TryGet(out var read))
            return Outcome.Refused<DescribeJarAnswer>(reading.Problems);
        if (filled.Buffer is not { } before)
            return Outcome.Refused<DescribeJarAnswer>(
                "jar-ph",
                "A pH read in the jar teaches nothing about pure water.",
                "Name the plant whose liquor it is, or leave the pH out."
            );
        var after = before.Learn(read[0] with { Sample = contents, Celsius = celsius });
        var answered = Handle(contents with { Liquor = Liquor.Of(after) }, celsius);
        return answered.TryGet(out var answer) ? Outcome.Of(answer with { Learnt = after.Words(before) }) : answered;
    }

    /// <summary>The same from a jar that is already in the room's own types, as a sample's page has it.</summary>
    public static Outcome<DescribeJarAnswer> Handle(JarContents contents, double celsius = 20)
    {
        var outcome = JarReport.Of(contents, celsius);
        return outcome.TryGet(out var report)
            ? Outcome.Of(new DescribeJarAnswer(contents, report, celsius))
            : Outcome.Refused<DescribeJarAnswer>(outcome.Problems);
    }

    /// <summary>How much more of the kitchen's acids or alkalis takes a jar to a pH; empty where none was asked for.</summary>
    public IReadOnlyList<string> Reaching(DescribeJarAnswer answer, string? goal)
    {
        ArgumentNullException.ThrowIfNull(answer);
        if (string.IsNullOrWhiteSpace(goal))
            return [];
        if (
            !double.TryParse(goal.Trim().Replace(',', '.'), NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out var ph)
            || ph is not (>= 1 and <= 13.5)
        )
            return ["The pH wanted must be a number between 1 and 13.5."];
        if (!answer.Report.IsPhKnown)
            return [$"How much it takes is not known: add a little at a time, stir, and test with a strip."];
        var options = Reach.Options(answer.Contents, ph, answer.Celsius);
        return options.Count > 0
            ? [.. options.Select(option => option.Words)]
            : [Say($"Nothing usual of the kitchen takes this jar to pH {ph:0.0}.")];
    }

    /// <summary>Reads “name=AMOUNT”.</summary>
    public Outcome<Portion> Portion(string field, string? text, Teaspoon spoon)
    {
        var typed = text ?? "";
        var at = typed.LastIndexOf('=');
        if (at <= 0 || at == typed.Length - 1)
            return Outcome.Refused<Portion>(field, $"“{typed}” is not an addition.", "Write it as name=amount, such as \"alum=1/4 tsp\".");
        var named = catalogue.Find(field, typed[..at]);
        var amount = Amount.Parse(field, typed[(at + 1)..]);
        if (!named.TryGet(out var substance) || !amount.TryGet(out var much))
            return Outcome.Refused<Portion>([.. named.Problems, .. amount.Problems]);
        return Dyewort.Chemistry.Portion.Measured(field, substance, much, spoon);
    }

    private Outcome<IReadOnlyList<Portion>> Portions(IReadOnlyList<string> additions, Teaspoon spoon)
    {
        if (additions.Count > MostAdditions)
            return Outcome.Refused<IReadOnlyList<Portion>>(
                "add",
                $"{additions.Count} additions are more than one jar gets.",
                $"Give at most {MostAdditions}."
            );
        var problems = new List<Problem>();
        var portions = new List<Portion>();
        foreach (var text in additions)
        {
            var outcome = Portion("add", text, spoon);
            if (outcome.TryGet(out var portion))
                portions.Add(portion);
            else
                problems.AddRange(outcome.Problems);
        }

        return problems.Count > 0 ? Outcome.Refused<IReadOnlyList<Portion>>(problems) : Outcome.Of<IReadOnlyList<Portion>>(portions);
    }

    private static Outcome<double> Volume(string? text, Teaspoon spoon)
    {
        if (string.IsNullOrWhiteSpace(text))
            return Outcome.Refused<double>("volume", "The volume of the liquor is missing.", "Give it, such as 90 ml.");
        var amount = Amount.Parse("volume", text);
        if (!amount.TryGet(out var much))
            return Outcome.Refused<double>(amount.Problems);
        var volume = much.ToVolume("volume", spoon);
        if (!volume.TryGet(out var size))
            return Outcome.Refused<double>(volume.Problems);
        return size.Millilitres is > 0 and <= 1e6
            ? Outcome.Of(size.Millilitres)
            : Outcome.Refused<double>("volume", $"A jar of {text.Trim()} cannot be computed.", "Give more than 0 and at most 1000 litres.");
    }

    private static Outcome<double> Celsius(string? text)
    {
        if (string.IsNullOrWhiteSpace(text))
            return Outcome.Of(20.0);
        var bare = text.Trim().TrimEnd('C', 'c').TrimEnd().TrimEnd('°').TrimEnd();
        return
            double.TryParse(
                bare,
                NumberStyles.AllowDecimalPoint | NumberStyles.AllowLeadingSign,
                CultureInfo.InvariantCulture,
                out var celsius
            ) && celsius is >= 0 and <= 100
            ? Outcome.Of(celsius)
            : Outcome.Refused<double>(
                "temperature",
                $"“{text.Trim()}” is not a temperature between 0 and 100 °C.",
                "Give degrees Celsius, such as 20."
            );
    }

    private static Outcome<Liquor> Liquid(DescribeJarForm form)
    {
        var name = (form.Liquor ?? "").Trim();
        var isTap =
            name.Contains("tap", StringComparison.OrdinalIgnoreCase)
            || !string.IsNullOrWhiteSpace(form.Hardness)
            || !string.IsNullOrWhiteSpace(form.Alkalinity);
        var isWater =
            name.Length == 0
            || string.Equals(name, "water", StringComparison.OrdinalIgnoreCase)
            || string.Equals(name, "pure water", StringComparison.OrdinalIgnoreCase)
            || string.Equals(name, "distilled water", StringComparison.OrdinalIgnoreCase)
            || string.Equals(name, "rain water", StringComparison.OrdinalIgnoreCase)
            || isTap;
        var note = Note("liquor-ph", form.LiquorPh, form.PhTool);
        if (!note.TryGet(out var readings))
            return Outcome.Refused<Liquor>(note.Problems);
        if (isTap && (isWater || name.Length == 0))
        {
            // Without figures of its own, tap water of middling hardness (common practice, no source).
            var hardness = Milligrams("hardness", form.Hardness, 150);
            var alkalinity = Milligrams("alkalinity", form.Alkalinity, 120);
            return hardness.TryGet(out var hard) && alkalinity.TryGet(out var alkaline)
                ? Outcome.Of(Liquor.Tap(hard, alkaline))
                : Outcome.Refused<Liquor>([.. hardness.Problems, .. alkalinity.Problems]);
        }

        if (isWater)
        {
            return readings.Count == 0
                ? Outcome.Of(Liquor.PureWater)
                : Outcome.Refused<Liquor>(
                    "liquor-ph",
                    "Pure water has no pH of its own to start from.",
                    "Name the plant whose liquor it is, or leave the pH out."
                );
        }

        var found = ExtractBuffer.Find("liquor", name);
        return found.TryGet(out var extract)
            ? Outcome.Of(Liquor.Of(readings.Aggregate(extract, (belief, one) => belief.Learn(one))))
            : Outcome.Refused<Liquor>(found.Problems);
    }

    private static Outcome<IReadOnlyList<PhNote>> Note(string field, string? text, string? tool)
    {
        if (string.IsNullOrWhiteSpace(text))
            return Outcome.Of<IReadOnlyList<PhNote>>([]);
        if (!double.TryParse(text, NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out var ph) || ph is not (>= 0 and <= 14))
            return Outcome.Refused<IReadOnlyList<PhNote>>(field, $"“{text}” is not a pH.", "Give a number between 0 and 14.");
        return (tool ?? "").Trim().ToLowerInvariant() switch
        {
            "" or "strip" or "strips" or "paper" => Outcome.Of<IReadOnlyList<PhNote>>([PhNote.Read(ph, Dyewort.Quantities.PhTool.Strip)]),
            "meter" => Outcome.Of<IReadOnlyList<PhNote>>([PhNote.Read(ph, Dyewort.Quantities.PhTool.Meter)]),
            "guess" => Outcome.Of<IReadOnlyList<PhNote>>([PhNote.Read(ph, Dyewort.Quantities.PhTool.Guess)]),
            _ => Outcome.Refused<IReadOnlyList<PhNote>>("ph-tool", $"“{tool}” is not a way to read pH.", "Use strip, meter or guess."),
        };
    }

    private static Outcome<double> Milligrams(string field, string? text, double usual)
    {
        if (string.IsNullOrWhiteSpace(text))
            return Outcome.Of(usual);
        return
            double.TryParse(text, NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out var value) && value is >= 0 and <= 1000
            ? Outcome.Of(value)
            : Outcome.Refused<double>(
                field,
                $"“{text}” is not between 0 and 1000 mg/L.",
                "Give milligrams per litre as calcium carbonate, as on the water company's sheet."
            );
    }

    private static string Say(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}

/// <summary>The jar, what is said about it, and the way it got there.</summary>
/// <param name="Contents">What is in it.</param>
/// <param name="Report">Numbers and remarks.</param>
/// <param name="Celsius">Temperature.</param>
public sealed record DescribeJarAnswer(JarContents Contents, JarReport Report, double Celsius)
{
    /// <summary>What a pH read in the jar taught about the liquor; empty where none was read.</summary>
    public string Learnt { get; init; } = "";

    /// <summary>What each usual paper may make of it.</summary>
    public IReadOnlyList<string> OnPapers =>
        [
            .. PaperReserve
                .Usual.Select(paper => paper.Predict(Contents, celsius: Celsius))
                .Select(outcome => outcome.TryGet(out var dried) ? dried.Words : outcome.Problems[0].What),
        ];

    /// <summary>What to do before it goes down a drain, if it may.</summary>
    public IReadOnlyList<string> TippingAway => Waste.Of(Contents, Celsius).Words;

    /// <summary>pH, interval and remarks as a page or a terminal shows them.</summary>
    public JarWords Words => JarWords.Of(this);
}

/// <summary>What was typed.</summary>
public sealed record DescribeJarForm
{
    /// <summary>Liquor in the jar: 90ml, 1 cup.</summary>
    public string? Volume { get; init; }

    /// <summary>Each as name=AMOUNT, in the order they went in.</summary>
    public IReadOnlyList<string> Additions { get; init; } = [];

    /// <summary>water, tap water, or a plant.</summary>
    public string? Liquor { get; init; }

    /// <summary>°C; 20 when empty.</summary>
    public string? Temperature { get; init; }

    /// <summary>metric (5 ml), US or imperial.</summary>
    public string? Teaspoon { get; init; }

    /// <summary>Tap water's hardness, mg/L as calcium carbonate.</summary>
    public string? Hardness { get; init; }

    /// <summary>Tap water's alkalinity, mg/L as calcium carbonate.</summary>
    public string? Alkalinity { get; init; }

    /// <summary>pH read in the liquor before anything was added.</summary>
    public string? LiquorPh { get; init; }

    /// <summary>pH read in the jar after the additions.</summary>
    public string? JarPh { get; init; }

    /// <summary>strip or meter.</summary>
    public string? PhTool { get; init; }
}

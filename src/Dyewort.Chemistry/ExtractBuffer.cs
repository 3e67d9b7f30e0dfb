using System.Globalization;
using Dyewort.Chemistry.Solving;
using Dyewort.Numerics;
using Dyewort.Quantities;

namespace Dyewort.Chemistry;

/// <summary>A pH a maker noted.</summary>
/// <param name="Ph">0 to 14.</param>
/// <param name="Uncertainty">Standard deviation, > 0.</param>
/// <param name="AcidMillimolesPerLitre">Strong acid added before the reading, mmol per litre of liquor; negative for alkali. 0 for the
/// liquor as it is.</param>
public sealed record PhNote(double Ph, double Uncertainty, double AcidMillimolesPerLitre = 0)
{
    /// <summary>What had been added to the liquor when the pH was read; null for the liquor as it is.</summary>
    public JarContents? Sample { get; init; }

    /// <summary>Temperature of the reading, °C.</summary>
    public double Celsius { get; init; } = 20;

    /// <summary>A reading in a sample: what was added, and the pH after it fizzed.</summary>
    public static PhNote InSample(JarContents sample, double ph, PhTool tool, double celsius = 20) =>
        Read(ph, tool) with
        {
            Sample = sample,
            Celsius = celsius,
        };

    /// <summary>True for a reading in the liquor itself, nothing added.</summary>
    internal bool OfLiquor => Sample is null && AcidMillimolesPerLitre == 0;

    /// <summary>The pH that a possible liquor would have shown.</summary>
    internal double Expected(ExtractPoint point) =>
        Sample is { } sample && Jar.Equilibrate(sample with { Liquor = new Liquor.Exact(point) }, Celsius).TryGet(out var state)
            ? state.Ph
            : point.PhAfter(AcidMillimolesPerLitre / 1000);

    /// <summary>A reading with the tool's usual uncertainty.</summary>
    public static PhNote Read(double ph, PhTool tool, double acidMillimolesPerLitre = 0) =>
        new(ph, tool.Uncertainty(), acidMillimolesPerLitre);
}

/// <summary>One possible liquor: its pH and how much unknown acid it holds.</summary>
/// <param name="Ph">pH before anything is added.</param>
/// <param name="AcidMolesPerLitre">Sum of the unknown weak acids, mol/L.</param>
internal readonly record struct ExtractPoint(double Ph, double AcidMolesPerLitre)
{
    /// <summary>The pseudo-acids in equal parts, with as much potassium (or chloride) as gives the pH at low ionic strength.</summary>
    public Dictionary<string, double> Totals(double strongAcidMolesPerLitre = 0)
    {
        var each = AcidMolesPerLitre / Constants.ExtractAcids.Count;
        var totals = new Dictionary<string, double>();
        var negative = Anions(Ph, AcidMolesPerLitre);
        foreach (var (component, _) in Constants.ExtractAcids)
            totals[component] = each;
        totals["H+"] = AcidMolesPerLitre - negative + strongAcidMolesPerLitre;
        var potassium = negative;
        if (potassium > 0)
            totals["K+"] = potassium;
        if (potassium < 0)
        {
            totals["Cl-"] = -potassium;
        }

        if (strongAcidMolesPerLitre > 0)
            totals["Cl-"] = totals.GetValueOrDefault("Cl-") + strongAcidMolesPerLitre;
        if (strongAcidMolesPerLitre < 0)
            totals["Na+"] = -strongAcidMolesPerLitre;
        return totals;
    }

    /// <summary>pH after a strong acid or alkali, at low ionic strength, without solids: quick enough for a grid.</summary>
    public double PhAfter(double strongAcidMolesPerLitre)
    {
        var goal = Anions(Ph, AcidMolesPerLitre) - strongAcidMolesPerLitre;
        var acid = AcidMolesPerLitre;
        // More acid or alkali than any pH of the scale balances: its end is told.
        return Bisection.Narrow(-1, 15, 1e-13, ph => Anions(ph, acid) < goal).Middle;
    }

    /// <summary>Anion charge less free protons plus hydroxide, mol/L.</summary>
    private static double Anions(double ph, double acid)
    {
        var h = Math.Pow(10, -ph);
        var sum = Math.Pow(10, ph - 14) - h;
        foreach (var (_, logK) in Constants.ExtractAcids)
            sum += acid / Constants.ExtractAcids.Count / (1 + (h * Math.Pow(10, logK)));
        return sum;
    }
}

/// <summary>What is believed about a plant liquor's acidity: a prior per kind of plant, sharpened by every pH noted.</summary>
/// <remarks>Priors are common practice and values from memory, as the table says; they are wide on purpose.</remarks>
public sealed class ExtractBuffer
{
    private const int PhSteps = 15;
    private const int AcidSteps = 11;
    private static readonly Lazy<List<ExtractKind>> Table = new(() =>
        [.. TextTable.Embedded(typeof(Jar), "extracts.csv").Rows.Select(ExtractKind.Of)]
    );

    private readonly ExtractPoint[] points;
    private readonly double[] weights;
    private readonly IReadOnlyList<PhNote> notes;
    private readonly ExtractKind believed;

    private ExtractBuffer(ExtractKind kind, ExtractKind believed, ExtractPoint[] points, double[] weights, IReadOnlyList<PhNote> notes)
    {
        (Kind, this.believed, this.points, this.weights, this.notes) = (kind, believed, points, weights, notes);
        var (ph, logAcid) = (0.0, 0.0);
        for (var i = 0; i < points.Length; i++)
        {
            ph += weights[i] * points[i].Ph;
            logAcid += weights[i] * Math.Log(points[i].AcidMolesPerLitre);
        }

        Typical = new(ph, Math.Exp(logAcid));
    }

    /// <summary>Parts whose liquor is not that of the part the tables know a plant for.</summary>
    private static readonly HashSet<string> OtherParts = new(StringComparer.Ordinal)
    {
        "bark",
        "blossom",
        "blossoms",
        "cone",
        "cones",
        "hip",
        "hips",
        "hull",
        "hulls",
        "husk",
        "husks",
        "kernel",
        "kernels",
        "peel",
        "pit",
        "pits",
        "rind",
        "root",
        "roots",
        "seed",
        "seeds",
        "shoots",
        "stalk",
        "stalks",
        "stem",
        "stems",
        "stone",
        "stones",
        "tops",
        "twig",
        "twigs",
        "wood",
    };

    private static ExtractKind AnyPlant => Kinds.First(kind => kind.Name == "any plant");

    /// <summary>The kinds of plant with a prior.</summary>
    public static IReadOnlyList<ExtractKind> Kinds => Table.Value;

    /// <summary>The kind this started from.</summary>
    public ExtractKind Kind { get; }

    /// <summary>How many pH notes it has learnt from.</summary>
    public int NoteCount => notes.Count + Earlier;

    /// <summary>Notes that it had learnt from before it was made.</summary>
    private int Earlier { get; init; }

    /// <summary>Mean pH of the liquor as it is.</summary>
    public double Ph => Typical.Ph;

    /// <summary>Standard deviation of that pH.</summary>
    public double PhUncertainty => Spread(point => point.Ph);

    /// <summary>How much alkali moves it by one pH unit near its own pH, mmol/L; geometric mean.</summary>
    public double BufferMillimolesPerLitrePerPh => 1000 * Buffering(Typical);

    /// <summary>Factor either way on <see cref="BufferMillimolesPerLitrePerPh"/>, one standard deviation; at least 1.</summary>
    public double BufferFactor => Math.Exp(Spread(point => Math.Log(Buffering(point))));

    internal ExtractPoint Typical { get; }

    /// <summary>The prior for a kind of plant.</summary>
    public static ExtractBuffer Prior(ExtractKind kind)
    {
        ArgumentNullException.ThrowIfNull(kind);
        var grid = new ExtractPoint[PhSteps * AcidSteps];
        var belief = new double[grid.Length];
        for (var i = 0; i < PhSteps; i++)
        {
            // From −3 to 3 standard deviations.
            var a = -3 + (6.0 * i / (PhSteps - 1));
            for (var j = 0; j < AcidSteps; j++)
            {
                var b = -3 + (6.0 * j / (AcidSteps - 1));
                grid[(i * AcidSteps) + j] = new(
                    kind.Ph + (a * kind.PhSpread),
                    kind.AcidMillimolesPerLitre / 1000 * Math.Exp(b * Math.Log(kind.AcidFactor))
                );
                belief[(i * AcidSteps) + j] = Math.Exp(-0.5 * ((a * a) + (b * b)));
            }
        }

        return new(kind, kind, grid, Normalised(belief), []);
    }

    /// <summary>The prior for a plant; for one that no kind names, that of any plant.</summary>
    public static ExtractBuffer OfPlant(string? plant) => Find("plant", plant).TryGet(out var known) ? known : Prior(AnyPlant);

    /// <summary>What somebody else has learned of a liquor of a kind.</summary>
    /// <param name="kind">The kind it was believed to be of.</param>
    /// <param name="ph">Its pH, mean.</param>
    /// <param name="phUncertainty">Standard deviation, above 0.</param>
    /// <param name="acidMillimolesPerLitre">Sum of its weak acids, geometric mean, above 0.</param>
    /// <param name="acidFactor">Factor either way, one standard deviation, above 1.</param>
    /// <param name="notes">From how many pH that was learned.</param>
    public static ExtractBuffer Of(
        ExtractKind kind,
        double ph,
        double phUncertainty,
        double acidMillimolesPerLitre,
        double acidFactor,
        int notes
    )
    {
        ArgumentNullException.ThrowIfNull(kind);
        var narrowed = kind with
        {
            Ph = ph,
            PhSpread = phUncertainty,
            AcidMillimolesPerLitre = acidMillimolesPerLitre,
            AcidFactor = acidFactor,
        };
        var grid = Prior(narrowed);
        return new(narrowed, narrowed, grid.points, grid.weights, []) { Earlier = notes };
    }

    /// <summary>Finds the kind a plant belongs to.</summary>
    public static Outcome<ExtractBuffer> Find(string field, string? plant)
    {
        var words = (plant ?? "").Trim().ToLowerInvariant();
        foreach (var kind in Kinds)
        {
            if (
                kind.Plants.Any(name => words == name || Singular(words) == Singular(name))
                || string.Equals(words, kind.Name, StringComparison.OrdinalIgnoreCase)
            )
                return Outcome.Of(Prior(kind));
        }

        // The last word says what it is: plum bark is a bark, and a hip of a rose no petal. Of names that end alike the longer says more.
        var bare = string.Join(' ', words.Split([' ', ',', ';', '/', '(', ')', '-'], StringSplitOptions.RemoveEmptyEntries));
        var within = (
            from kind in Kinds
            from name in kind.Plants
            from said in new[] { bare, Singular(bare) }
            let at = words.Length > 2 ? $" {said} ".LastIndexOf($" {name} ", StringComparison.Ordinal) : -1
            where at >= 0
            let rest = said[Math.Min(said.Length, at + name.Length)..]
            orderby rest.Length, name.Length descending
            select (kind, rest)
        ).FirstOrDefault();
        if (within.kind is { } named)
            return Outcome.Of(Prior(within.rest.Split(' ').Any(OtherParts.Contains) ? AnyPlant : named));
        foreach (var kind in Kinds)
        {
            if (words.Length > 2 && kind.Plants.Any(name => $" {name} ".Contains($" {Singular(words)} ", StringComparison.Ordinal)))
                return Outcome.Of(Prior(kind));
        }

        return Outcome.Refused<ExtractBuffer>(
            field,
            $"No acidity is known for a liquor of “{plant}”.",
            $"Use “water”, or one of: {string.Join(", ", Kinds.Select(kind => kind.Plants[0]))}; or give its measured pH."
        );

        static string Singular(string name) =>
            name.EndsWith("ies", StringComparison.Ordinal) ? name[..^3] + "y"
            : name.EndsWith('s') ? name[..^1]
            : name;
    }

    /// <summary>A liquor of which only a measured pH is known.</summary>
    public static ExtractBuffer Measured(PhNote note)
    {
        ArgumentNullException.ThrowIfNull(note);
        return Prior(AnyPlant).Learn(note);
    }

    /// <summary>Sharpens the belief by a pH that was noted. What was read in the liquor itself stands, however unusual: its doubt is the
    /// tool's. What was read after something was stirred in may be another chemistry than ours, and cannot wipe out all belief.</summary>
    public ExtractBuffer Learn(PhNote note)
    {
        ArgumentNullException.ThrowIfNull(note);
        if (!(note.Ph is >= 0 and <= 14))
            throw new ArgumentOutOfRangeException(nameof(note), note.Ph, "A pH lies between 0 and 14.");
        if (!(note.Uncertainty > 0))
            throw new ArgumentOutOfRangeException(nameof(note), note.Uncertainty, "A reading's uncertainty is above 0.");
        if (note.OfLiquor)
        {
            IReadOnlyList<PhNote> all = [.. notes, note];
            var anchored = Kind.Read([.. all.Where(one => one.OfLiquor).Select(one => (one.Ph, one.Uncertainty))]);
            var prior = Prior(anchored);
            return all.Where(one => !one.OfLiquor)
                .Aggregate(
                    new ExtractBuffer(Kind, anchored, prior.points, prior.weights, [.. all.Where(one => one.OfLiquor)])
                    {
                        Earlier = Earlier,
                    },
                    (buffer, one) => buffer.Learn(one)
                );
        }

        var next = new double[weights.Length];
        for (var i = 0; i < points.Length; i++)
        {
            var expected = note.Expected(points[i]);
            var off = (note.Ph - expected) / note.Uncertainty;
            // A wild reading must not wipe out all belief: the tails are those of a Student t with four degrees of freedom.
            next[i] = weights[i] * Math.Pow(1 + (off * off / 4), -2.5);
        }

        return Refined(Normalised(next), note);
    }

    /// <summary>The update in words: what was believed, what was read, what is believed now.</summary>
    public string Words(ExtractBuffer? before = null)
    {
        var now = string.Create(
            CultureInfo.InvariantCulture,
            $"pH {Ph:0.0} ± {2 * PhUncertainty:0.0}, moved one unit by about {BufferMillimolesPerLitrePerPh:0.#} mmol of alkali per "
                + $"litre (between {BufferMillimolesPerLitrePerPh / (BufferFactor * BufferFactor):0.#} and "
                + $"{BufferMillimolesPerLitrePerPh * BufferFactor * BufferFactor:0.#})"
        );
        if (before is null)
            return NoteCount == 0
                ? $"Not tested yet. Liquors of this kind ({Kind.Name}) usually read {now}."
                : $"From {NoteCount} pH {(NoteCount == 1 ? "note" : "notes")}: {now}.";
        var sharper = PhUncertainty < 0.9 * before.PhUncertainty ? "surer of its pH" : "no surer of its pH";
        var stronger = BufferMillimolesPerLitrePerPh / before.BufferMillimolesPerLitrePerPh;
        var holds =
            stronger > 1.2 ? "and it holds its pH more firmly than was thought"
            : stronger < 1 / 1.2 ? "and it gives way more easily than was thought"
            : "and nothing new about how firmly it holds";
        return string.Create(
            CultureInfo.InvariantCulture,
            $"Before: pH {before.Ph:0.0} ± {2 * before.PhUncertainty:0.0}. Now: {now}. The note makes us {sharper}, {holds}."
        );
    }

    /// <summary>Possible liquors that stand for the whole belief: the mean, and one standard deviation either way in pH and in
    /// strength.</summary>
    internal IEnumerable<(ExtractPoint Low, ExtractPoint High)> Ends()
    {
        var ph = 2 * PhUncertainty;
        var factor = Math.Exp(2 * Spread(point => Math.Log(point.AcidMolesPerLitre)));
        yield return (new(Typical.Ph - ph, Typical.AcidMolesPerLitre), new(Typical.Ph + ph, Typical.AcidMolesPerLitre));
        yield return (new(Typical.Ph, Typical.AcidMolesPerLitre / factor), new(Typical.Ph, Typical.AcidMolesPerLitre * factor));
    }

    private static double Buffering(ExtractPoint point) =>
        Math.Max(Alkali(point.Ph + 0.5) - Alkali(point.Ph - 0.5), 1e-6) * point.AcidMolesPerLitre / Constants.ExtractAcids.Count;

    private static double Alkali(double ph)
    {
        var sum = 0.0;
        foreach (var (_, logK) in Constants.ExtractAcids)
            sum += 1 / (1 + Math.Pow(10, logK - ph));
        return sum;
    }

    private static double[] Normalised(double[] raw)
    {
        var sum = raw.Sum();
        return [.. raw.Select(weight => weight / sum)];
    }

    /// <summary>A grid laid anew round what is still believed, so that many sharp readings do not fall between its points.</summary>
    private ExtractBuffer Refined(double[] posterior, PhNote note)
    {
        var rough = new ExtractBuffer(Kind, believed, points, posterior, [.. notes, note]) { Earlier = Earlier };
        var (ph, phSpread) = (rough.Ph, Math.Max(rough.PhUncertainty, 0.01));
        var logAcid = Math.Log(rough.Typical.AcidMolesPerLitre);
        var logSpread = Math.Max(rough.Spread(point => Math.Log(point.AcidMolesPerLitre)), 0.02);
        var finer = new ExtractPoint[points.Length];
        var finerWeights = new double[points.Length];
        for (var i = 0; i < PhSteps; i++)
        {
            for (var j = 0; j < AcidSteps; j++)
            {
                var point = new ExtractPoint(
                    ph + ((-4 + (8.0 * i / (PhSteps - 1))) * phSpread),
                    Math.Exp(logAcid + ((-4 + (8.0 * j / (AcidSteps - 1))) * logSpread))
                );
                var a = (point.Ph - believed.Ph) / believed.PhSpread;
                var b = (Math.Log(point.AcidMolesPerLitre) - Math.Log(Kind.AcidMillimolesPerLitre / 1000)) / Math.Log(Kind.AcidFactor);
                var logWeight = -0.5 * ((a * a) + (b * b));
                foreach (var one in rough.notes.Where(one => !one.OfLiquor))
                {
                    var off = (one.Ph - one.Expected(point)) / one.Uncertainty;
                    logWeight -= 2.5 * Math.Log(1 + (off * off / 4));
                }

                finer[(i * AcidSteps) + j] = point;
                finerWeights[(i * AcidSteps) + j] = logWeight;
            }
        }

        var most = finerWeights.Max();
        return new(Kind, believed, finer, Normalised([.. finerWeights.Select(weight => Math.Exp(weight - most))]), rough.notes)
        {
            Earlier = Earlier,
        };
    }

    private double Spread(Func<ExtractPoint, double> value)
    {
        var (mean, square) = (0.0, 0.0);
        for (var i = 0; i < points.Length; i++)
        {
            var v = value(points[i]);
            mean += weights[i] * v;
            square += weights[i] * v * v;
        }

        return Math.Sqrt(Math.Max(square - (mean * mean), 0));
    }
}

/// <summary>A kind of plant liquor and what is believed of it before any test.</summary>
/// <param name="Name">The kind.</param>
/// <param name="Plants">Plants that belong to it, the best known first.</param>
/// <param name="Ph">Usual pH.</param>
/// <param name="PhSpread">Standard deviation.</param>
/// <param name="AcidMillimolesPerLitre">Usual sum of weak acids.</param>
/// <param name="AcidFactor">Factor either way, one standard deviation.</param>
/// <param name="Source">Where the figures come from.</param>
public sealed record ExtractKind(
    string Name,
    IReadOnlyList<string> Plants,
    double Ph,
    double PhSpread,
    double AcidMillimolesPerLitre,
    double AcidFactor,
    string Source
)
{
    private const double LeastDoubt = 0.05;

    /// <summary>The same kind with its pH as it was read in the liquor itself.</summary>
    /// <remarks>Readings are normal about the truth with their tools' spread; the liquor is of its kind, normal about the kind's usual pH,
    /// but one time in fifty anything between 0 and 14, so that what is usual gives way to what a person measured (the share: common
    /// practice, no source).</remarks>
    /// <param name="readings">pH from 0 to 14 and its standard deviation, above 0; nothing for the kind as it is.</param>
    public ExtractKind Read(IReadOnlyList<(double Ph, double Uncertainty)> readings)
    {
        ArgumentNullException.ThrowIfNull(readings);
        if (readings.Count == 0)
            return this;
        const double Step = 0.01,
            Stranger = 0.02 / 14;
        var places = Enumerable.Range(0, 1 + (int)Math.Round(14 / Step)).Select(place => place * Step).ToArray();
        var logs = Array.ConvertAll(
            places,
            ph =>
            {
                var off = (ph - Ph) / PhSpread;
                var ofItsKind = Math.Exp(-0.5 * off * off) / (PhSpread * Math.Sqrt(2 * Math.PI));
                return Math.Log((0.98 * ofItsKind) + Stranger) - readings.Sum(one => 0.5 * Math.Pow((ph - one.Ph) / one.Uncertainty, 2));
            }
        );
        var most = logs.Max();
        var weights = Array.ConvertAll(logs, log => Math.Exp(log - most));
        var sum = weights.Sum();
        var mean = places.Zip(weights, (ph, weight) => ph * weight).Sum() / sum;
        var variance = places.Zip(weights, (ph, weight) => (ph - mean) * (ph - mean) * weight).Sum() / sum;
        return this with { Ph = mean, PhSpread = Math.Max(Math.Sqrt(variance), LeastDoubt) };
    }

    /// <summary>True where a reading and what is usual for this kind can hardly both be right: they lie more than three standard deviations
    /// apart.</summary>
    /// <param name="ph">0 to 14.</param>
    /// <param name="uncertainty">Its standard deviation, above 0.</param>
    public bool IsUnlike(double ph, double uncertainty) =>
        Math.Abs(ph - Ph) > 3 * Math.Sqrt((PhSpread * PhSpread) + (uncertainty * uncertainty));

    internal static ExtractKind Of(TextRow row) =>
        new(
            row["kind"],
            row["plants"].Split('|'),
            row.NumberOf("ph"),
            row.NumberOf("ph_sd"),
            row.NumberOf("acid_mmol_per_l"),
            row.NumberOf("acid_factor"),
            row["source"]
        );
}

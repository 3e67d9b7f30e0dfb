using System.Globalization;
using System.Text.RegularExpressions;
using Dyewort.Colour;
using Dyewort.Quantities;

namespace Dyewort.Response;

/// <summary>What one sample is made of and how it was painted.</summary>
public sealed record TrialPoint
{
    /// <summary>The sample's code.</summary>
    public required string Sample { get; init; }

    /// <summary>The plant, as the maker writes it.</summary>
    public string Plant { get; init; } = "";

    /// <summary>The pot it was poured from; empty where the plant has one pot only.</summary>
    public string Pot { get; init; } = "";

    /// <summary>Additions in grams per litre of liquor, 0 to 2000; what is missing is zero.</summary>
    public Doses GramsPerLitre { get; init; } = Doses.None;

    /// <summary>Measured or computed pH, −1 to 15; null where nobody knows it.</summary>
    public double? Ph { get; init; }

    /// <summary>Standard deviation of that reading, by what it was read with; null where nobody said.</summary>
    public double? PhUncertainty { get; init; }

    /// <summary>Share of ink in the wash: 1 undiluted, 0.5 one part ink to one of water, 0 the bare paper.</summary>
    public double Wash { get; init; } = 1;

    /// <summary>Coats painted, 1 to 20.</summary>
    public double Coats { get; init; } = 1;

    /// <summary>The paper's name or, in CSS notation, its colour.</summary>
    public string Paper { get; init; } = "";

    /// <summary>wet, dry, settled … as the maker writes it.</summary>
    public string State { get; init; } = "";

    /// <summary>Liquor left of this sample in millilitres, where it was noted.</summary>
    public double? LeftMillilitres { get; init; }

    /// <summary>The dose of an addition in grams per litre; zero where it is not in the sample.</summary>
    public double Dose(string addition) => GramsPerLitre[addition];
}

/// <summary>One painted and read sample.</summary>
/// <param name="Point">What it is made of.</param>
/// <param name="Colour">What was read, CIELAB D65.</param>
/// <param name="UncertaintyDe00">The reading's own 95 % radius in ΔE₀₀, null where it was not noted.</param>
public sealed record TrialRow(TrialPoint Point, Lab Colour, double? UncertaintyDe00 = null);

/// <summary>A table of samples as makers keep it: columns sample, plant, one per addition in g/L, pH, wash, paper, state, L, a,
/// b.</summary>
public sealed partial class TrialTable
{
    private const double MaxGramsPerLitre = 2000;
    private const int MaxRows = 5000;

    /// <summary>The reading's own 95 % radius, as tables name it.</summary>
    private const string Radius = "u95";

    /// <summary>The same, as readings answer it: a column copied from there is understood.</summary>
    private const string RadiusAsRead = "uncertaintyDe00";

    private static readonly string[] Plain =
    [
        "sample",
        "plant",
        "pot",
        "ph",
        "wash",
        "coats",
        "paper",
        "state",
        "left ml",
        "l",
        "a",
        "b",
        Radius,
    ];

    private TrialTable(
        IReadOnlyList<TrialPoint> points,
        IReadOnlyList<TrialRow> rows,
        IReadOnlyList<string> additions,
        IReadOnlyList<string> warnings
    ) => (Points, Rows, Additions, Warnings) = (points, rows, additions, warnings);

    /// <summary>Every line, read or not.</summary>
    public IReadOnlyList<TrialPoint> Points { get; }

    /// <summary>The lines that have a colour.</summary>
    public IReadOnlyList<TrialRow> Rows { get; }

    /// <summary>Every line of a plant, read or not.</summary>
    public IReadOnlyList<TrialPoint> PointsOf(string plant) =>
        [.. Points.Where(point => string.Equals(point.Plant, plant, StringComparison.OrdinalIgnoreCase))];

    /// <summary>The additions that have a column, in the order of the columns.</summary>
    public IReadOnlyList<string> Additions { get; }

    /// <summary>What was set aside and why: unknown columns, lines without a colour.</summary>
    public IReadOnlyList<string> Warnings { get; }

    /// <summary>A table of rows that were not typed: out of a notebook, or made by a test.</summary>
    /// <param name="rows">Rows whose doses, pH, wash and coats keep the limits of <see cref="TrialPoint"/>.</param>
    /// <param name="additions">The additions, in the order to name them.</param>
    /// <param name="warnings">What was set aside and why.</param>
    /// <param name="unread">Samples that were not read but say something else, such as a pH; none where left out.</param>
    public static TrialTable Of(
        IReadOnlyList<TrialRow> rows,
        IReadOnlyList<string> additions,
        IReadOnlyList<string> warnings,
        IReadOnlyList<TrialPoint>? unread = null
    )
    {
        ArgumentNullException.ThrowIfNull(rows);
        return new([.. rows.Select(row => row.Point), .. unread ?? []], rows, additions, warnings);
    }

    /// <summary>Reads a table.</summary>
    /// <param name="field">What to call the table in refusals, such as "trials".</param>
    /// <param name="text">Comma-separated text with a line of headings; quotes as in RFC 4180.</param>
    /// <param name="needColours">True where every line that lacks L, a, b is worth a warning.</param>
    public static Outcome<TrialTable> Parse(string field, string text, bool needColours)
    {
        var lines = Split(text);
        if (lines.Count == 0)
            return Outcome.Refused<TrialTable>(
                field,
                "The table is empty.",
                "The first line names the columns: sample,plant,alum g/L,pH,wash,paper,state,L,a,b."
            );
        if (lines.Count > MaxRows)
            return Outcome.Refused<TrialTable>(
                field,
                $"The table has {lines.Count} lines.",
                $"At most {MaxRows} are read: split it by plant."
            );
        var headings = lines[0].Cells.Select(cell => cell.Trim().Trim('\uFEFF')).ToArray();
        var problems = new List<Problem>();
        var warnings = new List<string>();
        var column = new Dictionary<string, int>(StringComparer.OrdinalIgnoreCase);
        var additions = new List<(string Name, int Column)>();
        for (var i = 0; i < headings.Length; i++)
        {
            var dose = DoseHeading().Match(headings[i]);
            if (dose.Success)
            {
                var name = dose.Groups["name"].Value.Trim();
                if (additions.Exists(known => string.Equals(known.Name, name, StringComparison.OrdinalIgnoreCase)))
                    problems.Add(new(field, $"The column “{headings[i]}” stands twice.", "Keep one of them."));
                else
                    additions.Add((name, i));
            }
            else if (Plain.Contains(Known(headings[i]).ToLowerInvariant()))
            {
                if (!column.TryAdd(Known(headings[i]), i))
                    problems.Add(new(field, $"The column “{headings[i]}” stands twice.", "Keep one of them."));
            }
            else if (headings[i].Length > 0)
            {
                warnings.Add($"Column “{headings[i]}” is not known and was left out; an addition's heading ends in g/L.");
            }
        }

        if (column.Count == 0 && additions.Count == 0)
            return Outcome.Refused<TrialTable>(
                field,
                "No known column was found in the first line.",
                "Name the columns: sample,plant,alum g/L,pH,wash,paper,state,L,a,b."
            );
        if (needColours && !(column.ContainsKey("L") && column.ContainsKey("a") && column.ContainsKey("b")))
            problems.Add(
                new(
                    field,
                    "The columns L, a and b are not all there.",
                    "Add the reading of every sample as CIELAB (D65) in columns L, a, b."
                )
            );
        if (problems.Count > 0)
            return Outcome.Refused<TrialTable>(problems);

        var points = new List<TrialPoint>();
        var rows = new List<TrialRow>();
        foreach (var (number, cells) in lines.Skip(1))
        {
            string Text(string name) => column.TryGetValue(name, out var at) && at < cells.Count ? cells[at].Trim() : "";
            double? Number(string name, string typed, double low, double high)
            {
                if (typed.Length == 0)
                    return null;
                if (
                    double.TryParse(typed, NumberStyles.Float, CultureInfo.InvariantCulture, out var value)
                    && value >= low
                    && value <= high
                )
                    return value;
                problems.Add(
                    new(
                        field,
                        $"Line {number}, {name}: “{typed}” is not a number from {low.ToString(CultureInfo.InvariantCulture)} "
                            + $"to {high.ToString(CultureInfo.InvariantCulture)}.",
                        "Correct it, with a point for decimals, or leave the cell empty."
                    )
                );
                return null;
            }

            if (cells.Count > headings.Length && cells.Skip(headings.Length).Any(cell => cell.Trim().Length > 0))
            {
                problems.Add(
                    new(
                        field,
                        $"Line {number} has {cells.Count} cells, the first line {headings.Length}.",
                        "Put quotes around text that holds a comma."
                    )
                );
                continue;
            }

            var doses = new List<Dose>();
            foreach (var (name, at) in additions)
            {
                var dose = Number(headings[at], at < cells.Count ? cells[at].Trim() : "", 0, MaxGramsPerLitre);
                if (dose is > 0)
                    doses.Add(new(name, dose.Value));
            }

            var point = new TrialPoint
            {
                Sample = Text("sample") is { Length: > 0 } code ? code : (number - 1).ToString(CultureInfo.InvariantCulture),
                Plant = Text("plant"),
                Pot = Text("pot"),
                GramsPerLitre = [.. doses],
                Ph = Number("pH", Text("ph"), -1, 15),
                Wash = Number("wash", Text("wash"), 0, 1) ?? 1,
                Coats = Number("coats", Text("coats"), 1, 20) ?? 1,
                Paper = Text("paper"),
                State = Text("state"),
                LeftMillilitres = Number("left ml", Text("left ml"), 0, 1e6),
            };
            var l = Number("L", Text("l"), 0, 110);
            var a = Number("a", Text("a"), -200, 200);
            var b = Number("b", Text("b"), -200, 200);
            var radius = Number(Radius, Text(Radius), 0, 50);
            points.Add(point);
            if (l is { } lightness && a is { } red && b is { } yellow)
                rows.Add(new(point, new Lab(lightness, red, yellow), radius));
            else if (needColours)
                warnings.Add($"Line {number} ({point.Sample}) has no complete colour and was left out.");
            if (problems.Count > 20)
                break;
        }

        return problems.Count > 0
            ? Outcome.Refused<TrialTable>(problems)
            : Outcome.Of(new TrialTable(points, rows, [.. additions.Select(addition => addition.Name)], warnings));
    }

    private static string Known(string heading) => heading.Equals(RadiusAsRead, StringComparison.OrdinalIgnoreCase) ? Radius : heading;

    [GeneratedRegex(
        @"^(?<name>.+?)\s*[\(\[]?\s*g\s*/\s*l\s*[\)\]]?$",
        RegexOptions.IgnoreCase | RegexOptions.CultureInvariant | RegexOptions.ExplicitCapture
    )]
    private static partial Regex DoseHeading();

    private static List<(int Number, List<string> Cells)> Split(string text)
    {
        var lines = new List<(int, List<string>)>();
        var cells = new List<string>();
        var cell = new System.Text.StringBuilder();
        var quoted = false;
        var number = 1;
        var begun = 1;
        void EndLine()
        {
            cells.Add(cell.ToString());
            cell.Clear();
            if (cells.Exists(one => one.Trim().Length > 0) && !cells[0].TrimStart('\uFEFF').StartsWith('#'))
                lines.Add((begun, cells));
            cells = [];
        }

        for (var i = 0; i < text.Length; i++)
        {
            var c = text[i];
            if (c == '\n')
                number++;
            if (quoted)
            {
                if (c != '"')
                    cell.Append(c);
                else if (i + 1 < text.Length && text[i + 1] == '"')
                    cell.Append(text[++i]);
                else
                    quoted = false;
            }
            else if (c == '"')
            {
                quoted = true;
            }
            else if (c == ',')
            {
                cells.Add(cell.ToString());
                cell.Clear();
            }
            else if (c == '\n')
            {
                EndLine();
                begun = number;
            }
            else if (c != '\r')
            {
                cell.Append(c);
            }
        }

        EndLine();
        return lines;
    }
}

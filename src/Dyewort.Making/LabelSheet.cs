using System.Globalization;
using System.Text.Json;
using Dyewort.Quantities;
using Dyewort.Readings;

namespace Dyewort.Making;

/// <summary>A sheet of labels, described by its dimensions.</summary>
/// <param name="Page">The page.</param>
/// <param name="Columns">Labels across, at least 1.</param>
/// <param name="Rows">Labels down, at least 1.</param>
/// <param name="WidthMm">One label's width.</param>
/// <param name="HeightMm">One label's height.</param>
/// <param name="LeftMm">From the page's left edge to the first column.</param>
/// <param name="TopMm">From the page's top edge to the first row.</param>
/// <param name="GapXMm">Between columns.</param>
/// <param name="GapYMm">Between rows.</param>
/// <param name="Round">True for round labels, such as for caps.</param>
/// <param name="Outlined">True for plain paper, where a grey line shows where to cut.</param>
public sealed record LabelSheet(
    PageSize Page,
    int Columns,
    int Rows,
    double WidthMm,
    double HeightMm,
    double LeftMm,
    double TopMm,
    double GapXMm,
    double GapYMm,
    bool Round,
    bool Outlined = false
)
{
    private static readonly JsonSerializerOptions Options = new(JsonSerializerDefaults.Web);

    /// <summary>Labels on one page.</summary>
    public int PerPage => Columns * Rows;

    /// <summary>Front labels when nothing else is said: 3 × 7 of 63.5 × 38.1 mm on A4, a size that many makers of label sheets sell (common
    /// practice, no source).</summary>
    public static LabelSheet UsualFront { get; } = new(PageSize.A4, 3, 7, 63.5, 38.1, 7.25, 15.15, 2.5, 0, Round: false);

    /// <summary>Cap labels when nothing else is said: 7 × 10 round ones of 22 mm on A4, to be cut out.</summary>
    public static LabelSheet UsualCap { get; } = new(PageSize.A4, 7, 10, 22, 22, 16, 17.5, 4, 4, Round: true, Outlined: true);

    /// <summary>Reads a description such as
    /// <c>{"page":"A4","columns":3,"rows":7,"widthMm":63.5,"heightMm":38.1,"leftMm":7.25,"topMm":15.15,
    /// "gapXMm":2.5,"gapYMm":0,"round":false,"outlined":false}</c>.</summary>
    /// <param name="field">The field or option it stands in.</param>
    /// <param name="json">The text.</param>
    public static Outcome<LabelSheet> Parse(string field, string json)
    {
        const string Remedy = "Describe the sheet with page, columns, rows, widthMm, heightMm, leftMm, topMm, gapXMm and gapYMm.";
        FileShape? file;
        try
        {
            file = JsonSerializer.Deserialize<FileShape>(json, Options);
        }
        catch (JsonException problem)
        {
            return Outcome.Refused<LabelSheet>(field, $"The label sheet is not readable JSON (line {problem.LineNumber + 1}).", Remedy);
        }

        if (file is null)
            return Outcome.Refused<LabelSheet>(field, "The label sheet says nothing.", Remedy);
        var page = PageSize.Parse(field, file.Page);
        if (!page.TryGet(out var size))
            return Outcome.Refused<LabelSheet>(page.Problems);
        if (
            file is not { Columns: >= 1 and <= 40, Rows: >= 1 and <= 60, WidthMm: > 0, HeightMm: > 0, LeftMm: >= 0, TopMm: >= 0 }
            || !(file.GapXMm ?? 0).Equals(Math.Abs(file.GapXMm ?? 0))
            || !(file.GapYMm ?? 0).Equals(Math.Abs(file.GapYMm ?? 0))
        )
            return Outcome.Refused<LabelSheet>(field, "A number of the label sheet is missing or below its least.", Remedy);
        var sheet = new LabelSheet(
            size,
            file.Columns.Value,
            file.Rows.Value,
            file.WidthMm.Value,
            file.HeightMm.Value,
            file.LeftMm.Value,
            file.TopMm.Value,
            file.GapXMm ?? 0,
            file.GapYMm ?? 0,
            file.Round ?? false,
            file.Outlined ?? false
        );
        return sheet.Check(field);
    }

    /// <summary>Where the labels lie on the page, row by row.</summary>
    public IReadOnlyList<RectMm> Places =>
        [
            .. from row in Enumerable.Range(0, Rows)
            from column in Enumerable.Range(0, Columns)
            select new RectMm(LeftMm + (column * (WidthMm + GapXMm)), TopMm + (row * (HeightMm + GapYMm)), WidthMm, HeightMm),
        ];

    private Outcome<LabelSheet> Check(string field)
    {
        const double Slack = 0.01;
        var right = LeftMm + (Columns * WidthMm) + ((Columns - 1) * GapXMm);
        var bottom = TopMm + (Rows * HeightMm) + ((Rows - 1) * GapYMm);
        if (!(right <= Page.WidthMm + Slack) || !(bottom <= Page.HeightMm + Slack))
        {
            return Outcome.Refused<LabelSheet>(
                field,
                string.Create(
                    CultureInfo.InvariantCulture,
                    $"These labels reach to {right:0.#} × {bottom:0.#} mm, beyond {Page.Name} ({Page.WidthMm:0.#} × {Page.HeightMm:0.#} "
                        + $"mm)."
                ),
                "Check rows, columns, sizes, margins and gaps with a ruler."
            );
        }

        return Round && Math.Abs(WidthMm - HeightMm) > Slack
            ? Outcome.Refused<LabelSheet>(field, "A round label must be as high as it is wide.", "Give its diameter twice.")
            : Outcome.Of(this);
    }

    private sealed record FileShape(
        string? Page,
        int? Columns,
        int? Rows,
        double? WidthMm,
        double? HeightMm,
        double? LeftMm,
        double? TopMm,
        double? GapXMm,
        double? GapYMm,
        bool? Round,
        bool? Outlined
    );
}

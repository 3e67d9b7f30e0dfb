using System.Globalization;
using System.Text.RegularExpressions;
using Dyewort.Print;
using Dyewort.Quantities;
using Dyewort.Readings;

namespace Dyewort.Workshop.Readings;

/// <summary>Makes a sheet to paint on, or a frame, and the layout that a reader of its photo needs.</summary>
public sealed partial class PrintSheet(TimeProvider clock) : IUseCase
{
    public Outcome<PrintSheetAnswer> Handle(PrintSheetForm form)
    {
        var grid = Grid(form.Cells);
        var page = PageSize.Parse("page", form.Page);
        var margin = Margin(form.Margin);
        var chart = Chart(form.Chart);
        if (!grid.TryGet(out var cells) || !page.TryGet(out var size) || !margin.TryGet(out var edge) || !chart.TryGet(out var code))
            return Outcome.Refused<PrintSheetAnswer>([.. grid.Problems, .. page.Problems, .. margin.Problems, .. chart.Problems]);

        var planned = SheetPlan.Make(
            new SheetWish
            {
                Page = size,
                Columns = cells.Columns,
                Rows = cells.Rows,
                MarginMm = edge,
                Frame = form.Frame,
                Code = code.Words,
                Number = code.Number,
                Blank = (form.Blank ?? "").Split([',', ' ', ';'], StringSplitOptions.RemoveEmptyEntries),
            }
        );
        if (!planned.TryGet(out var plan))
            return Outcome.Refused<PrintSheetAnswer>(planned.Problems);
        var words = new SheetWords
        {
            Title = Text(form.Title),
            Link = string.IsNullOrWhiteSpace(form.Link) ? null : form.Link.Trim(),
            Paper = form.Paper,
            Pot = form.Pot,
            Captions = form.Captions,
        };
        if (words.Link is { Length: > 200 })
            return Outcome.Refused<PrintSheetAnswer>(
                "link",
                "The address for the square code is longer than 200 signs.",
                "Take a shorter one: it must be readable when small."
            );
        return Outcome.Of(
            new PrintSheetAnswer(SheetPdf.Draw(plan, words, DateOnly.FromDateTime(clock.GetUtcNow().UtcDateTime)), plan.Layout)
        );
    }

    private static string Text(string? typed) => (typed ?? "").Trim() is { Length: > 200 } lengthy ? lengthy[..200] : (typed ?? "").Trim();

    private static Outcome<(int Columns, int Rows)> Grid(string? typed)
    {
        var match = GridText().Match((typed ?? "").Trim());
        return match.Success
            ? Outcome.Of(
                (
                    int.Parse(match.Groups["columns"].Value, CultureInfo.InvariantCulture),
                    int.Parse(match.Groups["rows"].Value, CultureInfo.InvariantCulture)
                )
            )
            : Outcome.Refused<(int, int)>("cells", $"“{typed}” is not a grid.", "Type columns x rows, such as 4x6.");
    }

    private static Outcome<double> Margin(string? typed)
    {
        var text = (typed ?? "").Trim();
        if (text.Length == 0)
            return Outcome.Of(8.0);
        var number = text.EndsWith("mm", StringComparison.OrdinalIgnoreCase) ? text[..^2].TrimEnd() : text;
        return double.TryParse(number, NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out var margin)
            ? Outcome.Of(margin)
            : Outcome.Refused<double>("margin", $"“{text}” is not a width.", "Type millimetres, such as 8.");
    }

    private static Outcome<(string Words, int Number)> Chart(string? typed)
    {
        var text = (typed ?? "").Trim();
        if (text.Length == 0)
            return Outcome.Of(("chart 0", 0));
        var match = ChartText().Match(text);
        if (!match.Success)
            return Outcome.Refused<(string, int)>(
                "chart",
                $"“{text}” is not a chart's code.",
                "Type a code and a number, such as EB25-1/3 or C7."
            );
        var number = int.Parse(match.Groups["number"].Value, CultureInfo.InvariantCulture);
        // Charts count on for ever and markers do not: two charts that share markers are 140 charts apart.
        return Outcome.Of((match.Groups["code"].Success ? text : $"chart {number}", number % (SheetPlan.LastNumber + 1)));
    }

    [GeneratedRegex(
        @"^(?<columns>\d{1,3})\s*[x×X*]\s*(?<rows>\d{1,3})$",
        RegexOptions.CultureInvariant | RegexOptions.ExplicitCapture,
        1000
    )]
    private static partial Regex GridText();

    [GeneratedRegex(
        @"^(?<code>[\p{L}\p{Nd}][\p{L}\p{Nd}.\- ]{0,30}/|C)?(?<number>\d{1,6})$",
        RegexOptions.CultureInvariant | RegexOptions.ExplicitCapture,
        1000
    )]
    private static partial Regex ChartText();
}

/// <param name="Pdf">The page.</param>
/// <param name="Layout">Where its markers and cells lie.</param>
public sealed record PrintSheetAnswer(byte[] Pdf, SheetLayout Layout);

/// <summary>What was typed.</summary>
public sealed record PrintSheetForm
{
    /// <summary>Columns x rows, such as 4x6.</summary>
    public string? Cells { get; init; }

    /// <summary>A4, A5, A6, Letter or width x height in millimetres.</summary>
    public string? Page { get; init; }

    /// <summary>Windows to cut out instead of cells.</summary>
    public bool Frame { get; init; }

    /// <summary>The chart's code and number, such as EB25-1/3 or C7; a number alone will do.</summary>
    public string? Chart { get; init; }

    public string? Title { get; init; }

    /// <summary>Unprinted edge in millimetres.</summary>
    public string? Margin { get; init; }

    /// <summary>Cells to leave out, such as B3,C4.</summary>
    public string? Blank { get; init; }

    /// <summary>What the square code holds, when it is more than the chart's code: the address of the chart's page.</summary>
    public string? Link { get; init; }

    public string? Paper { get; init; }

    public string? Pot { get; init; }

    /// <summary>Cell code → what is painted there.</summary>
    public IReadOnlyDictionary<string, string> Captions { get; init; } = new Dictionary<string, string>();
}

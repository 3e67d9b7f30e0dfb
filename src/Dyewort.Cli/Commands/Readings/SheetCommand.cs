using System.ComponentModel;
using System.Globalization;
using System.Text;
using Dyewort.Workshop;
using Dyewort.Workshop.Readings;
using Spectre.Console.Cli;

namespace Dyewort.Cli.Commands.Readings;

/// <summary>Prints a sheet to paint on, and the layout that “read” needs.</summary>
public sealed class SheetCommand : Command<SheetSettings>
{
    public override int Execute(CommandContext context, SheetSettings settings, CancellationToken cancellationToken)
    {
        if (string.IsNullOrWhiteSpace(settings.Out))
            throw new RefusalException("out", "There is no file to write the sheet to.", "Give one with --out sheet.pdf.");
        var outcome = new PrintSheet(TimeProvider.System).Handle(
            new PrintSheetForm
            {
                Cells = settings.Cells,
                Page = settings.Page,
                Frame = settings.Frame,
                Chart = settings.Chart,
                Title = settings.Title,
                Margin = settings.Margin,
                Blank = settings.Blank,
                Link = settings.Link,
                Paper = settings.Paper,
                Pot = settings.Pot,
            }
        );
        if (!outcome.TryGet(out var answer))
            throw new RefusalException(outcome.Problems);
        OutputFile.Write("out", settings.Out, answer.Pdf);
        if (settings.Layout is { Length: > 0 } layout)
            OutputFile.Write("layout", layout, Encoding.UTF8.GetBytes(answer.Layout.ToJson() + "\n"));
        Console.Out.WriteLine(
            settings.Json
                ? answer.Layout.ToJson()
                : string.Create(
                    CultureInfo.InvariantCulture,
                    $"{settings.Out}: {answer.Layout.Cells.Count} {(settings.Frame ? "windows" : "cells")}, "
                        + $"{answer.Layout.WidthMm:0.##} × {answer.Layout.HeightMm:0.##} mm, {answer.Layout.Code}. Print it at 100 %."
                )
        );
        return Program.Done;
    }
}

public sealed class SheetSettings : CommandSettings
{
    [CommandOption("--cells <GRID>"), Description("Columns x rows of cells, such as 4x6.")]
    public string? Cells { get; init; }

    [CommandOption("--page <PAGE>"), Description("A4, A5, A6, Letter, or width x height in millimetres; “A5 landscape” lies on its side.")]
    [DefaultValue("A4")]
    public string Page { get; init; } = "A4";

    [CommandOption("--out <FILE>"), Description("The PDF to write.")]
    public string? Out { get; init; }

    [CommandOption("--layout <FILE>"), Description("The layout to write, for “read --layout”.")]
    public string? Layout { get; init; }

    [CommandOption("--frame"), Description("A frame: windows to cut out and lay over paper that was painted freely.")]
    public bool Frame { get; init; }

    [
        CommandOption("--chart <CODE>"),
        Description("The chart's code and number, such as EB25-1/3 or C7. The number chooses the corner markers.")
    ]
    public string? Chart { get; init; }

    [CommandOption("--title <TEXT>"), Description("A title to print.")]
    public string? Title { get; init; }

    [CommandOption("--margin <MM>"), Description("Unprinted edge in millimetres, 5 to 40; 8 when not given.")]
    public string? Margin { get; init; }

    [CommandOption("--blank <CELLS>"), Description("Cells to leave out, such as B3,C4.")]
    public string? Blank { get; init; }

    [CommandOption("--link <ADDRESS>"), Description("An address for the square code to hold instead of the chart's code.")]
    public string? Link { get; init; }

    [CommandOption("--paper <NAME>"), Description("The paper, printed on its line.")]
    public string? Paper { get; init; }

    [CommandOption("--pot <CODE>"), Description("The pot, printed on its line.")]
    public string? Pot { get; init; }

    [CommandOption("--json"), Description("Answer with the layout as JSON.")]
    public bool Json { get; init; }
}

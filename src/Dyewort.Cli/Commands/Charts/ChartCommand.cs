using System.ComponentModel;
using Dyewort.Workshop;
using Dyewort.Workshop.Charts;
using Spectre.Console.Cli;

namespace Dyewort.Cli.Commands.Charts;

/// <summary>Prints a chart of measured chips.</summary>
public sealed class ChartCommand : Command<ChartSettings>
{
    public override int Execute(CommandContext context, ChartSettings settings, CancellationToken cancellationToken)
    {
        if (string.IsNullOrWhiteSpace(settings.Out))
            throw new RefusalException("out", "There is no file to write the chart to.", "Give one with --out chart.pdf.");
        var outcome = new PrintChart(TimeProvider.System).Handle(
            new PrintChartForm
            {
                Reading = InputFile.Read("reading", settings.Reading),
                Page = settings.Page,
                Title = settings.Title,
                Chart = settings.Chart,
                About = settings.About,
                Link = settings.Link,
                Captions = settings.Captions is { } captions ? InputFile.Read("captions", captions) : null,
            }
        );
        if (!outcome.TryGet(out var pdf))
            throw new RefusalException(outcome.Problems);
        OutputFile.Write("out", settings.Out, pdf);
        Console.Out.WriteLine(settings.Out);
        return Program.Done;
    }
}

public sealed class ChartSettings : CommandSettings
{
    [CommandArgument(0, "<READING>"), Description("The JSON file that “read --json” wrote.")]
    public string Reading { get; init; } = "";

    [CommandOption("--out <FILE>"), Description("The PDF to write.")]
    public string? Out { get; init; }

    [CommandOption("--page <PAGE>"), Description("A4 (when not given), A5, A6, Letter, or width x height in millimetres.")]
    public string? Page { get; init; }

    [CommandOption("--title <TEXT>"), Description("The chart's title.")]
    public string? Title { get; init; }

    [CommandOption("--chart <CODE>"), Description("The chart's code.")]
    public string? Chart { get; init; }

    [CommandOption("--about <TEXT>"), Description("Pot, paper, age and day, on one line.")]
    public string? About { get; init; }

    [CommandOption("--link <ADDRESS>"), Description("An address for the square code to hold instead of the chart's code.")]
    public string? Link { get; init; }

    [CommandOption("--captions <FILE>"), Description("A JSON file of what is painted where: {\"A1\":\"plain\",\"B1\":\"alum 2 g\"}.")]
    public string? Captions { get; init; }
}

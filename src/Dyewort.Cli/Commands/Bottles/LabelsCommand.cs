using System.ComponentModel;
using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.RegularExpressions;
using Dyewort.Making;
using Dyewort.Quantities;
using Dyewort.Web;
using Dyewort.Workshop;
using Dyewort.Workshop.Bottles;
using Dyewort.Workshop.Trials;
using Spectre.Console.Cli;

namespace Dyewort.Cli.Commands.Bottles;

/// <summary>Prints front and cap labels.</summary>
public sealed partial class LabelsCommand : AsyncCommand<LabelsSettings>
{
    private static readonly JsonSerializerOptions Json = new(JsonSerializerDefaults.Web)
    {
        WriteIndented = true,
        Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping,
    };

    public override async Task<int> ExecuteAsync(CommandContext context, LabelsSettings settings, CancellationToken cancellationToken)
    {
        if (string.IsNullOrWhiteSpace(settings.Out))
            throw new RefusalException("out", "There is no file to write the labels to.", "Give one with --out labels.pdf.");
        if (settings.Jars)
            return Tags(settings, settings.Out);
        var isBatch = BatchCode().IsMatch(settings.Bottles.Trim()) && !File.Exists(settings.Bottles);
        var form = new PrintLabelsForm
        {
            Bottles = isBatch ? null : InputFile.Read("bottles", settings.Bottles),
            Front = settings.Front is { } front ? InputFile.Read("front", front) : null,
            Cap = settings.Cap is { } cap ? InputFile.Read("cap", cap) : null,
            NoFronts = settings.NoFronts,
            NoCaps = settings.NoCaps,
            Used = settings.Used,
        };
        Uri? site = null;
        if (settings.Site is { } address && (!Uri.TryCreate(address, UriKind.Absolute, out site) || site.Scheme is not ("http" or "https")))
            throw new RefusalException("site", $"“{address}” is not the address of a site.", "Give one such as http://192.168.1.7:5077.");
        var outcome = isBatch
            ? await OpenNotebook.WithAsync<LabelBottles, Outcome<PrintLabelsAnswer>>(
                settings.Notebook,
                useCase =>
                    useCase.HandleAsync(
                        settings.Bottles,
                        [],
                        site is null ? null : thing => new Uri(site, Address.Of(thing)),
                        form,
                        cancellationToken
                    ),
                cancellationToken
            )
            : new PrintLabels(TimeProvider.System).Handle(form);
        if (!outcome.TryGet(out var answer))
            throw new RefusalException(outcome.Problems);
        OutputFile.Write("out", settings.Out, answer.Pdf);
        Console.Out.WriteLine(
            settings.Json
                ? JsonSerializer.Serialize(
                    answer.Labels.Select(label => new
                    {
                        name = label.Name,
                        code = label.Code,
                        recipe = label.Recipe,
                        facts = label.Facts,
                        warnings = label.Warnings,
                        square = label.Square,
                    }),
                    Json
                )
                : $"{settings.Out}: labels for {answer.Labels.Count} {(answer.Labels.Count == 1 ? "bottle" : "bottles")}. Print at 100 %."
        );
        Console.Error.WriteLine(LabelText.BeforeSelling);
        return Program.Done;
    }

    private static int Tags(LabelsSettings settings, string file)
    {
        var outcome = new PrintJarTags(TimeProvider.System).Handle(
            InputFile.Read("jars", settings.Bottles),
            settings.Front is { } front ? InputFile.Read("front", front) : null
        );
        if (!outcome.TryGet(out var pdf))
            throw new RefusalException(outcome.Problems);
        OutputFile.Write("out", file, pdf);
        Console.Out.WriteLine(file);
        return Program.Done;
    }

    [GeneratedRegex("^[A-Za-z0-9]{3}$", RegexOptions.CultureInvariant, 1000)]
    private static partial Regex BatchCode();
}

public sealed class LabelsSettings : CommandSettings
{
    [
        CommandArgument(0, "<BOTTLES>"),
        Description(
            "A JSON file: a list of bottles, or one object with what they share and a list “bottles”; or the code of a batch in the "
                + "notebook, such as AAC."
        )
    ]
    public string Bottles { get; init; } = "";

    [CommandOption("--out <FILE>"), Description("The PDF to write.")]
    public string? Out { get; init; }

    [
        CommandOption("--front <FILE>"),
        Description(
            "The front labels' sheet by its dimensions (JSON: page, columns, rows, widthMm, heightMm, leftMm, topMm, gapXMm, gapYMm, "
                + "round, outlined); 3 × 7 of 63.5 × 38.1 mm on A4 when not given."
        )
    ]
    public string? Front { get; init; }

    [
        CommandOption("--cap <FILE>"),
        Description("The cap labels' sheet, in the same way; 7 × 10 round ones of 22 mm to cut out when not given.")
    ]
    public string? Cap { get; init; }

    [CommandOption("--no-fronts"), Description("Cap labels only.")]
    public bool NoFronts { get; init; }

    [CommandOption("--no-caps"), Description("Front labels only.")]
    public bool NoCaps { get; init; }

    [CommandOption("--used <COUNT>"), Description("Labels already gone from the first sheet.")]
    public int Used { get; init; }

    [CommandOption("--notebook <DIR>"), Description("The notebook's folder, for a batch's code; ~/Dyewort unless you say otherwise.")]
    public string? Notebook { get; init; }

    [
        CommandOption("--site <ADDRESS>"),
        Description(
            "Where the notebook's pages are served, such as http://192.168.1.7:5077, so that the square codes open the bottles' pages."
        )
    ]
    public string? Site { get; init; }

    [
        CommandOption("--jars"),
        Description(
            "Tags for the jars of a trial instead: the file is a list such as [[{\"jar\":\"A1\",\"liquor\":\"20 ml of "
                + "EB25-1\",\"additions\":[[{\"name\":\"alum\",\"amount\":\"0.4 g\"}]]}]]."
        )
    ]
    public bool Jars { get; init; }

    [CommandOption("--json"), Description("Answer with the labels' words as JSON.")]
    public bool Json { get; init; }
}

using System.ComponentModel;
using System.Globalization;
using System.Text.Json.Nodes;
using Dyewort.Cli.Commands.Response;
using Dyewort.Colour;
using Dyewort.Workshop;
using Dyewort.Workshop.Colours;
using Spectre.Console.Cli;

namespace Dyewort.Cli.Commands.Colours;

/// <summary>What inks mixed by volume would look like.</summary>
public sealed class MixCommand : AsyncCommand<MixSettings>
{
    public override async Task<int> ExecuteAsync(CommandContext context, MixSettings settings, CancellationToken cancellationToken)
    {
        // Colours alone need no trials, so a maker's notebook is opened only when it is named or an ink is no colour.
        var coded = settings.Inks.Any(ink =>
            ink.LastIndexOf('=') is > 0 and var sign && !ColourText.Parse("ink", ink[..sign]).TryGet(out _)
        );
        var named = settings.Trials is not null || settings.Notebook is not null;
        var trials = coded || named ? await ReadTrials.IfAnyAsync(settings.Trials, settings.Notebook, cancellationToken) : null;
        var outcome = new MixInks().Handle(settings.Inks, settings.Wash, settings.Paper, trials?.Table);
        if (!outcome.TryGet(out var answer))
            throw new RefusalException(outcome.Problems);
        foreach (var warning in answer.Warnings)
            Console.Error.WriteLine(warning);
        var lab = answer.Lab;
        if (settings.Json)
        {
            Console.WriteLine(
                new JsonObject
                {
                    ["lab"] = ColourJson.Numbers(lab.L, lab.A, lab.B),
                    ["uncertaintyDe00"] = ColourJson.Rounded(answer.UncertaintyDe00),
                    ["wash"] = ColourJson.Rounded(answer.Wash),
                    ["paper"] = new JsonObject
                    {
                        ["lab"] = ColourJson.Numbers(answer.Paper.L, answer.Paper.A, answer.Paper.B),
                        ["guessed"] = answer.PaperIsGuessed,
                    },
                    ["warnings"] = new JsonArray([.. answer.Warnings.Select(warning => (JsonNode)warning)]),
                }.ToJsonString(ColourJson.Options)
            );
            return Program.Done;
        }

        var shown = ShowColour.Describe(answer.Colour.Colour, "mixture");
        Console.WriteLine(
            string.Create(
                CultureInfo.InvariantCulture,
                $"≈ CIELAB {lab.L:0.0} {lab.A:0.0} {lab.B:0.0} ± {answer.UncertaintyDe00:0.0}   {shown.Chip.Hex}   {shown.Munsell}  "
                    + $" {shown.Name.Name}"
            )
        );
        return Program.Done;
    }
}

public sealed class MixSettings : TrialSettings
{
    [
        CommandArgument(0, "<COLOUR=PARTS>"),
        Description(
            "Inks by their colour on the paper, or samples of the trials or of the notebook by their codes, and how many parts of "
                + "each: #5b3f7a=2 “5Y 8/8=1” “EB25-1 A5=1”."
        )
    ]
    public string[] Inks { get; init; } = [];

    [CommandOption("--wash <SHARE>"), Description("Thin the mixture: 1/4 is one part ink in four parts of wash.")]
    public string? Wash { get; init; }

    [CommandOption("--paper <COLOUR>"), Description("The bare paper's colour; a white drawing paper is guessed without it.")]
    public string? Paper { get; init; }
}

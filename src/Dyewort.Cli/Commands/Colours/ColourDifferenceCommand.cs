using System.ComponentModel;
using System.Globalization;
using System.Text.Json.Nodes;
using Dyewort.Workshop;
using Dyewort.Workshop.Colours;
using Spectre.Console.Cli;

namespace Dyewort.Cli.Commands.Colours;

/// <summary>How far two colours lie apart.</summary>
public sealed class ColourDifferenceCommand : Command<ColourDifferenceSettings>
{
    public override int Execute(CommandContext context, ColourDifferenceSettings settings, CancellationToken cancellationToken)
    {
        var outcome = new CompareColours().Handle(settings.First, settings.Second, settings.Uncertainty);
        if (!outcome.TryGet(out var answer))
            throw new RefusalException(outcome.Problems);
        if (settings.Json)
        {
            var json = new JsonObject
            {
                ["de00"] = ColourJson.Rounded(answer.De00),
                ["de76"] = ColourJson.Rounded(answer.De76),
                ["cmc21"] = ColourJson.Rounded(answer.Cmc21),
                ["cmc11"] = ColourJson.Rounded(answer.Cmc11),
                ["lightness"] = ColourJson.Rounded(answer.Lightness),
                ["chroma"] = ColourJson.Rounded(answer.Chroma),
                ["hue"] = ColourJson.Rounded(answer.Hue),
                ["words"] = answer.Words,
                ["visibility"] = answer.Visibility,
                ["changeGrade"] = answer.Change.Grade,
                ["changeRating"] = ColourJson.Rounded(answer.Change.Rating),
                ["stainingGrade"] = answer.Staining.Grade,
                ["stainingRating"] = ColourJson.Rounded(answer.Staining.Rating),
                ["first"] = ColourJson.Numbers(answer.First.L, answer.First.A, answer.First.B),
                ["second"] = ColourJson.Numbers(answer.Second.L, answer.Second.A, answer.Second.B),
            };
            if (answer.ChanceVisible is { } chance)
                json["chanceVisible"] = ColourJson.Rounded(chance);
            Console.WriteLine(json.ToJsonString(ColourJson.Options));
            return Program.Done;
        }

        void Line(string what, params FormattableString[] parts) =>
            Console.WriteLine($"{what, -12} {string.Concat(parts.Select(part => part.ToString(CultureInfo.InvariantCulture)))}");
        Line("ΔE2000", $"{answer.De00:0.00}   {answer.Visibility}");
        Line("the second", $"{answer.Words}");
        Line("parts", $"ΔL {answer.Lightness:+0.00;-0.00;0}  ΔC {answer.Chroma:+0.00;-0.00;0}  ΔH {answer.Hue:+0.00;-0.00;0}");
        Line(
            "others",
            $"ΔE*ab {answer.De76:0.00}, CMC(2:1) {answer.Cmc21:0.00}, grey scale {answer.Change.Grade} for change, ",
            $"{answer.Staining.Grade} for staining"
        );
        if (answer.ChanceVisible is { } visible)
            Line("visible", $"{100 * visible:0} % chance that they differ by more than 1, at ± {settings.Uncertainty} each");
        return Program.Done;
    }
}

public sealed class ColourDifferenceSettings : CommandSettings
{
    [CommandArgument(0, "<FIRST>"), Description("A colour, in any of the ways “colour show” reads.")]
    public string First { get; init; } = "";

    [CommandArgument(1, "<SECOND>"), Description("The colour to compare with it.")]
    public string Second { get; init; } = "";

    [
        CommandOption("--uncertainty <DE>"),
        Description("The ± of both readings (95 %, CIEDE2000): adds the chance that they differ visibly.")
    ]
    public string? Uncertainty { get; init; }

    [CommandOption("--json"), Description("Answer as JSON.")]
    public bool Json { get; init; }
}

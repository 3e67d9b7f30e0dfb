using System.ComponentModel;
using System.Globalization;
using Dyewort.Colour;
using Dyewort.Readings;
using Dyewort.Workshop;
using Dyewort.Workshop.Readings;
using Spectre.Console.Cli;

namespace Dyewort.Cli.Commands;

/// <summary>Photo in, colours out.</summary>
[Description("Read the colours of painted swatches from a photo or scan")]
public sealed class ReadCommand : Command<ReadCommand.Settings>
{
    public sealed class Settings : CommandSettings
    {
        [CommandArgument(0, "<PHOTO>"), Description("The photo or scan")]
        public string Photo { get; init; } = "";

        [CommandOption("--layout <FILE>"), Description("The sheet's layout, as “dyewort sheet --layout” wrote it")]
        public string? Layout { get; init; }

        [CommandOption("--paper <COLOUR>"), Description("The bare paper's own colour, when it is known")]
        public string? Paper { get; init; }

        [CommandOption("--json"), Description("Answer for machines")]
        public bool Json { get; init; }
    }

    public override int Execute(CommandContext context, Settings settings, CancellationToken cancellationToken)
    {
        if (settings.Layout is null) throw new RefusalException("layout", "It is not known where the swatches are.", "Give the sheet's layout with --layout.");
        if (!File.Exists(settings.Layout)) throw new RefusalException("layout", $"There is no file “{settings.Layout}”.", "Check the name and the folder.");
        var layout = SheetLayout.Parse("layout", File.ReadAllText(settings.Layout));
        if (!layout.TryGet(out var sheet)) throw new RefusalException(layout.Problems);
        if (!File.Exists(settings.Photo)) throw new RefusalException("photo", $"There is no file “{settings.Photo}”.", "Check the name and the folder.");
        var outcome = new ReadPhoto().Handle(new() { Picture = File.ReadAllBytes(settings.Photo), Layout = sheet, Paper = settings.Paper is null ? null : PaperLab(settings.Paper) });
        if (!outcome.TryGet(out var answer)) throw new RefusalException(outcome.Problems);
        using (answer)
        {
            if (settings.Json)
            {
                Console.WriteLine(ReadingJson.Write(answer.Result));
            }
            else
            {
                foreach (var swatch in answer.Result.Swatches)
                    Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{swatch.Id,-6} L* {swatch.Lab.L,5:0.0}  a* {swatch.Lab.A,6:0.0}  b* {swatch.Lab.B,6:0.0}  ± {swatch.UncertaintyDe00:0.0}  {string.Join(", ", swatch.Warnings.Select(warning => warning.Code))}"));
            }
        }

        return Program.Done;
    }

    private static Lab PaperLab(string text)
    {
        var outcome = ColourText.Parse("paper", text);
        return outcome.TryGet(out var colour) ? Lab.FromXyz(colour.Colour) : throw new RefusalException(outcome.Problems);
    }
}

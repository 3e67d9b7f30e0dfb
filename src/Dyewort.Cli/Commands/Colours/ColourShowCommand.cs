using System.ComponentModel;
using System.Globalization;
using System.Text.Json.Nodes;
using Dyewort.Colour;
using Dyewort.Workshop;
using Dyewort.Workshop.Colours;
using Spectre.Console.Cli;

namespace Dyewort.Cli.Commands.Colours;

/// <summary>Everything about one colour.</summary>
public sealed class ColourShowCommand : Command<ColourShowSettings>
{
    public override int Execute(CommandContext context, ColourShowSettings settings, CancellationToken cancellationToken)
    {
        var outcome = new ShowColour().Handle("COLOUR", settings.Colour);
        if (!outcome.TryGet(out var colour))
            throw new RefusalException(outcome.Problems);
        if (settings.Json)
        {
            Console.WriteLine(
                new JsonObject
                {
                    ["readAs"] = colour.ReadAs,
                    ["lab"] = ColourJson.Numbers(colour.Lab.L, colour.Lab.A, colour.Lab.B),
                    ["lch"] = ColourJson.Numbers(colour.Lch.L, colour.Lch.C, colour.Lch.HueDegrees),
                    ["luv"] = ColourJson.Numbers(colour.Luv.L, colour.Luv.U, colour.Luv.V),
                    ["xyz"] = ColourJson.Numbers(colour.Xyz.X, colour.Xyz.Y, colour.Xyz.Z),
                    ["oklab"] = ColourJson.Numbers(colour.Oklab.L, colour.Oklab.A, colour.Oklab.B),
                    ["oklch"] = ColourJson.Numbers(colour.Oklab.L, colour.Oklab.Chroma, colour.Oklab.HueDegrees),
                    ["srgb"] = colour.Chip.Hex,
                    ["srgbIsTrue"] = colour.Chip.IsTrue,
                    ["chipDe00"] = ColourJson.Rounded(colour.Chip.DifferenceDe00),
                    ["munsell"] = colour.Munsell.ToString(),
                    ["munsellIsExtended"] = !colour.MunsellIsWithinData,
                    ["name"] = colour.Name.Name,
                    ["nameNumber"] = colour.Name.Number,
                    ["family"] = colour.Name.Family,
                    ["css"] = new JsonObject
                    {
                        ["hex"] = colour.Chip.Hex,
                        ["rgb"] = CssColour.RgbText(colour.Xyz),
                        ["lab"] = CssColour.LabText(colour.Xyz),
                        ["lch"] = CssColour.LchText(colour.Xyz),
                        ["oklab"] = CssColour.OklabText(colour.Xyz),
                        ["oklch"] = CssColour.OklchText(colour.Xyz),
                        ["displayP3"] = CssColour.ColorText(colour.Xyz, RgbSpace.DisplayP3),
                    },
                }.ToJsonString(ColourJson.Options)
            );
            return Program.Done;
        }

        void Line(string what, FormattableString value) => Console.WriteLine($"{what, -12} {value.ToString(CultureInfo.InvariantCulture)}");
        Line("read as", $"{colour.ReadAs}");
        Line("CIELAB", $"{colour.Lab.L:0.00} {colour.Lab.A:0.00} {colour.Lab.B:0.00}   (D65, 2°)");
        Line("LCh", $"{colour.Lch.L:0.00} {colour.Lch.C:0.00} {colour.Lch.HueDegrees:0.0}°");
        Line("XYZ", $"{colour.Xyz.X:0.00} {colour.Xyz.Y:0.00} {colour.Xyz.Z:0.00}");
        Line(
            "screen",
            colour.Chip.IsTrue
                ? $"{colour.Chip.Hex}"
                : (FormattableString)$"{colour.Chip.Hex}   nearest a screen can show; it is off by ΔE {colour.Chip.DifferenceDe00:0.0}"
        );
        Line(
            "Munsell",
            colour.MunsellIsWithinData
                ? $"{colour.Munsell}"
                : (FormattableString)$"{colour.Munsell}   beyond the renotation's samples, extended"
        );
        Line("ISCC–NBS", $"{colour.Name.Name} ({colour.Name.Number}), a {colour.Name.Family}");
        Line("CSS", $"{CssColour.OklchText(colour.Xyz)}   {CssColour.LabText(colour.Xyz)}");
        return Program.Done;
    }
}

public sealed class ColourShowSettings : CommandSettings
{
    [
        CommandArgument(0, "<COLOUR>"),
        Description("A CSS colour (#5b3f7a), a Munsell notation (“5P 4/8”), an ISCC–NBS name (“dark grayish purple”), or CIELAB as L,a,b.")
    ]
    public string Colour { get; init; } = "";

    [CommandOption("--json"), Description("Answer as JSON.")]
    public bool Json { get; init; }
}

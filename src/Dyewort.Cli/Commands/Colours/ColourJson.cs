using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.Json.Nodes;

namespace Dyewort.Cli.Commands.Colours;

/// <summary>How the colour commands write numbers for machines: four decimals, as many as any of them deserves.</summary>
internal static class ColourJson
{
    public static JsonSerializerOptions Options { get; } = new() { Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping };

    public static double Rounded(double value) => Math.Round(value, 4) is var rounded && rounded == 0 ? 0 : Math.Round(value, 4);

    public static JsonArray Numbers(params double[] values) => [.. values.Select(value => (JsonNode)Rounded(value))];
}

using System.Text.Encodings.Web;
using System.Text.Json;
using Dyewort.Colour;
using Dyewort.Response;

namespace Dyewort.Cli.Commands.Response;

/// <summary>How the commands of the response room write for machines.</summary>
internal static class ResponseJson
{
    private static readonly JsonSerializerOptions Options = new(JsonSerializerDefaults.Web)
    {
        Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping,
        DefaultIgnoreCondition = System.Text.Json.Serialization.JsonIgnoreCondition.WhenWritingNull,
    };

    public static void Write<T>(T answer) => Console.WriteLine(JsonSerializer.Serialize(answer, Options));

    public static double[] Triple(Lab colour) => [Rounded(colour.L), Rounded(colour.A), Rounded(colour.B)];

    /// <summary>Additions and their amounts as one object.</summary>
    public static Dictionary<string, double> Amounts(Doses doses) => doses.ToDictionary(dose => dose.Name, dose => dose.Amount);

    public static double Rounded(double value) => Math.Round(value, 4);
}

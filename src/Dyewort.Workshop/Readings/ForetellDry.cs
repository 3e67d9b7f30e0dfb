using System.Text.Json;
using Dyewort.Colour;
using Dyewort.Quantities;
using Dyewort.Readings;

namespace Dyewort.Workshop.Readings;

/// <summary>Says what swatches that were read wet will dry to.</summary>
public sealed class ForetellDry : IUseCase
{
    /// <summary>A forecast for every swatch that carries paint, by its name.</summary>
    public IReadOnlyDictionary<string, DryForecast> Handle(ForetellDryRequest request)
    {
        var learnt = WetToDry.Learn(request.Pairs);
        return request
            .Wet.Where(swatch => swatch.Coverage > 0)
            .ToDictionary(swatch => swatch.Id, swatch => learnt.Forecast(swatch.Lab, request.Paper, swatch.UncertaintyDe00));
    }

    /// <summary>Pairs out of two readings of one chart as <see cref="ReadingJson"/> writes them: swatches that have the same name and carry
    /// paint in both.</summary>
    /// <param name="wet">The wet reading's JSON.</param>
    /// <param name="dry">The dry reading's JSON.</param>
    public static Outcome<IReadOnlyList<WetDryPair>> PairsFrom(string wet, string dry)
    {
        const string Remedy = "Give two readings of one chart that were written as JSON: the wet one, then the dry one.";
        try
        {
            using var first = JsonDocument.Parse(wet);
            using var second = JsonDocument.Parse(dry);
            var paper = Three(second.RootElement.GetProperty("calibration").GetProperty("paperLab"));
            var later = Painted(second.RootElement);
            IReadOnlyList<WetDryPair> pairs =
            [
                .. Painted(first.RootElement)
                    .Where(one => later.ContainsKey(one.Key))
                    .Select(one => new WetDryPair(one.Value, later[one.Key], paper)),
            ];
            return pairs.Count > 0
                ? Outcome.Of(pairs)
                : Outcome.Refused<IReadOnlyList<WetDryPair>>("dried", "The two readings have no painted swatch in common.", Remedy);
        }
        catch (Exception problem)
            when (problem is JsonException or KeyNotFoundException or InvalidOperationException or FormatException or ArgumentException)
        {
            return Outcome.Refused<IReadOnlyList<WetDryPair>>("dried", "A file given as an earlier reading is none.", Remedy);
        }
    }

    private static Dictionary<string, Lab> Painted(JsonElement reading) =>
        reading
            .GetProperty("swatches")
            .EnumerateArray()
            .Where(swatch => swatch.GetProperty("coverage").GetDouble() > 0)
            .ToDictionary(swatch => swatch.GetProperty("id").GetString() ?? "", swatch => Three(swatch.GetProperty("lab")));

    private static Lab Three(JsonElement e) =>
        e.GetArrayLength() == 3 ? new(e[0].GetDouble(), e[1].GetDouble(), e[2].GetDouble()) : throw new FormatException();
}

/// <summary>What is wet, and what was learnt before.</summary>
/// <param name="Wet">Readings of wet swatches.</param>
/// <param name="Paper">Their bare dry paper, CIELAB (D65).</param>
/// <param name="Pairs">The maker's own swatches that were read wet and dry; none is allowed.</param>
public sealed record ForetellDryRequest(IReadOnlyList<SwatchReading> Wet, Lab Paper, IReadOnlyList<WetDryPair> Pairs);

using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.Json.Nodes;
using Dyewort.Quantities;
using Microsoft.Data.Sqlite;

namespace Dyewort.Store.Sqlite;

/// <summary>Reads what earlier notebooks kept as words, for the migration that gives it fields: amounts, plans, covered halves.</summary>
internal static class OldWords
{
    private static readonly JsonSerializerOptions Readable = new() { Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping };

    private const string Adding = "to add: ";
    private const string CoveredMark = "/covered";

    /// <summary>Lets migrations on a connection read old words.</summary>
    public static void TeachTo(SqliteConnection connection)
    {
        connection.CreateFunction<string?, double?>("old_amount_number", text => Read(text)?.Number, isDeterministic: true);
        connection.CreateFunction<string?, string?>("old_amount_unit", text => Read(text)?.Unit.ToString(), isDeterministic: true);
        connection.CreateFunction<string?, string?>("old_amount_counted", text => Read(text)?.Counted, isDeterministic: true);
        connection.CreateFunction<string?, string?>("old_amount_spoon", text => Read(text)?.SaidKind?.ToString(), isDeterministic: true);
        connection.CreateFunction<string?, double?>(
            "old_amount_grams",
            text => Read(text) is { } amount && amount.ToMass("amount").TryGet(out var mass) ? mass.Grams : null,
            isDeterministic: true
        );
        connection.CreateFunction<string?, string?, string>("old_plan", Plan, isDeterministic: true);
        connection.CreateFunction<string?, string?>("old_reading", Reading, isDeterministic: true);
        connection.CreateFunction("new_id", () => Guid.CreateVersion7().ToString().ToUpperInvariant());
    }

    private static Amount? Read(string? text) => Amount.Parse("amount", text).TryGet(out var amount) ? amount : null;

    /// <summary>The steps of "to add: alum 0.4 g + chalk 0.1 g" as JSON: the material's name and the amount's words of each.</summary>
    private static string Plan(string? said, string? names)
    {
        var steps = new JsonArray();
        if (said is null || !said.StartsWith(Adding, StringComparison.Ordinal))
            return steps.ToJsonString();
        var longestFirst = JsonSerializer.Deserialize<string[]>(names ?? "[]")!.OrderByDescending(name => name.Length).ToList();
        foreach (var step in said[Adding.Length..].Split(" + "))
        {
            if (longestFirst.Find(name => step.StartsWith(name + " ", StringComparison.OrdinalIgnoreCase)) is { } material)
                steps.Add(new JsonObject { ["material"] = material, ["amount"] = step[(material.Length + 1)..] });
        }

        return steps.ToJsonString();
    }

    /// <summary>A reading whose covered halves were told by the end of their names, with a field that tells them.</summary>
    private static string? Reading(string? json)
    {
        if (json is null || JsonNode.Parse(json) is not { } reading)
            return json;
        foreach (var swatch in reading["swatches"]?.AsArray() ?? [])
        {
            if (swatch?["id"]?.GetValue<string>() is not { } id || !id.EndsWith(CoveredMark, StringComparison.Ordinal))
                continue;
            swatch["id"] = id[..^CoveredMark.Length];
            swatch["covered"] = true;
        }

        return reading.ToJsonString(Readable);
    }
}

using System.Text;
using System.Text.Json;

namespace Dyewort.Testing;

/// <summary>What an answer for machines promises: its keys and the kinds of their values, without the figures.</summary>
public static class JsonShape
{
    /// <summary>One line for every place in the answer, in order of appearance: <c>swatches[].lab[]: number</c>.</summary>
    /// <remarks>All items of a list are laid over each other; a key that some of them lack is marked <c>?</c>.</remarks>
    public static string Of(string json)
    {
        using var document = JsonDocument.Parse(json);
        var text = new StringBuilder();
        Say("answer", [document.RootElement], mayLack: false, text);
        return text.ToString();
    }

    private static void Say(string path, IReadOnlyList<JsonElement> values, bool mayLack, StringBuilder text)
    {
        var kinds = values.Select(Kind).Distinct(StringComparer.Ordinal).Order(StringComparer.Ordinal);
        text.Append(path).Append(mayLack ? "?: " : ": ").AppendJoin(" or ", kinds).Append('\n');
        var objects = values.Where(value => value.ValueKind == JsonValueKind.Object).ToList();
        foreach (
            var key in objects.SelectMany(one => one.EnumerateObject().Select(property => property.Name)).Distinct(StringComparer.Ordinal)
        )
        {
            var held = objects.Where(one => one.TryGetProperty(key, out _)).Select(one => one.GetProperty(key)).ToList();
            Say($"{path}.{key}", held, held.Count < objects.Count, text);
        }

        var items = values.Where(value => value.ValueKind == JsonValueKind.Array).SelectMany(list => list.EnumerateArray()).ToList();
        if (items.Count > 0)
            Say($"{path}[]", items, mayLack: false, text);
    }

    private static string Kind(JsonElement value) =>
        value.ValueKind switch
        {
            JsonValueKind.Object => "object",
            JsonValueKind.Array => "list",
            JsonValueKind.String => "text",
            JsonValueKind.Number => "number",
            JsonValueKind.True or JsonValueKind.False => "true or false",
            _ => "null",
        };
}

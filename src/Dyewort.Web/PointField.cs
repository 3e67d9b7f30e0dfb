using System.Globalization;
using System.Text.Json;
using Dyewort.Readings;
using Dyewort.Workshop.Readings;
using Microsoft.AspNetCore.Http;

namespace Dyewort.Web;

/// <summary>A place on a photo as a form's field holds it.</summary>
/// <param name="Name">The field's name.</param>
/// <param name="Label">What is to be pointed to.</param>
/// <param name="Short">What stands in its handle on the photo: one or two signs.</param>
/// <param name="Value">"x, y" in pixels, or several such pairs for an outline; empty while nobody pointed.</param>
public sealed record PointField(string Name, string Label, string Short, string Value)
{
    /// <summary>The four corners of something, named after it.</summary>
    /// <param name="name">Start of the fields' names, such as "Corner".</param>
    /// <param name="labels">What each corner is, clockwise.</param>
    /// <param name="at">Where they lie now.</param>
    /// <param name="value">The text of a field as it was typed, or null.</param>
    public static IReadOnlyList<PointField> Quad(
        string name,
        IReadOnlyList<string> labels,
        IReadOnlyList<PointPx> at,
        Func<string, string?> value
    ) =>
        [
            .. labels.Select(
                (label, i) => new PointField($"{name}{i + 1}", label, $"{i + 1}", value($"{name}{i + 1}") ?? Placing.Say(at[i]))
            ),
        ];

    public static IReadOnlyList<string> CornersOfPage { get; } =
    ["Top left corner", "Top right corner", "Bottom right corner", "Bottom left corner"];

    /// <summary>Four corners to start from where nothing is known: well inside the picture, so that handles are easy to take hold
    /// of.</summary>
    public static IReadOnlyList<PointPx> Inside(
        int width,
        int height,
        double left = 0.12,
        double top = 0.12,
        double right = 0.88,
        double bottom = 0.88
    ) =>
        [
            new(left * width, top * height),
            new(right * width, top * height),
            new(right * width, bottom * height),
            new(left * width, bottom * height),
        ];
}

/// <summary>Four points that hold something between them, and what it is drawn as.</summary>
/// <param name="Points">The fields' names, clockwise from the top left.</param>
/// <param name="Cells">Outlines in shares of its width and height; empty where a grid says it.</param>
/// <param name="Grid">Names of the fields that hold columns and rows; or the two numbers; empty without a grid.</param>
/// <param name="Share">How much of each place of a grid is drawn, 0 to 1.</param>
public sealed record PointQuad(IReadOnlyList<string> Points, IReadOnlyList<double[][]> Cells, IReadOnlyList<string> Grid, double Share)
{
    private static readonly JsonSerializerOptions Options = new(JsonSerializerDefaults.Web);

    public static string Json(IReadOnlyList<PointQuad> quads) => JsonSerializer.Serialize(quads, Options);
}

/// <summary>A click on a picture that a browser without scripts sent, as a place on the photo.</summary>
/// <param name="Set">The field that the click was for, then the one that the next click is for; null while nobody clicks.</param>
/// <param name="Part">The part of the photo to show for a surer click: left, top and side in pixels; null for the whole.</param>
public sealed record Tapped(string? Set, (int X, int Y, int Side)? Part)
{
    /// <summary>Width at which pictures are shown for clicking, CSS pixels: fits the narrowest phone.</summary>
    public const int Shown = 320;

    /// <summary>Takes the click out of a request and puts it into the field it was for.</summary>
    /// <param name="query">The request.</param>
    /// <param name="names">Every field that takes a place, in order.</param>
    /// <param name="width">Width of the photo, pixels.</param>
    /// <param name="height">Its height.</param>
    /// <param name="values">The fields as they were sent, with the click in its place.</param>
    public static Tapped Of(
        IQueryCollection query,
        IReadOnlyList<string> names,
        int width,
        int height,
        out Dictionary<string, string> values
    )
    {
        values = query
            .Where(pair => pair.Key is not ("Tap.x" or "Tap.y" or "For" or "Set" or "PartX" or "PartY" or "PartSide"))
            .ToDictionary(pair => pair.Key, pair => pair.Value.ToString());
        if (query.TryGetValue("Set", out var chosen) && names.Contains(chosen.ToString()))
            return new(chosen, null);
        var name = query["For"].ToString();
        if (!names.Contains(name) || Whole(query["Tap.x"]) is not { } x || Whole(query["Tap.y"]) is not { } y)
            return new(null, null);
        if (Whole(query["PartX"]) is { } left && Whole(query["PartY"]) is { } top && Whole(query["PartSide"]) is { } side)
        {
            values[name] = Placing.Say(new PointPx(left + (x * (double)side / Shown), top + (y * (double)side / Shown)));
            return new(names.SkipWhile(one => one != name).Skip(1).FirstOrDefault(), null);
        }

        var at = new PointPx(x * (double)width / Shown, y * (double)width / Shown);
        values[name] = Placing.Say(at);
        var span = Math.Max(16, Math.Min(Math.Min(width, height), Math.Max(width, height) / 6));
        return new(
            name,
            ((int)Math.Clamp(at.X - (span / 2.0), 0, width - span), (int)Math.Clamp(at.Y - (span / 2.0), 0, height - span), span)
        );
    }

    private static int? Whole(string? text) =>
        int.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out var number) && number <= 100_000 ? number : null;
}

using System.Text.Json;
using Dyewort.Making;
using Dyewort.Print;
using Dyewort.Quantities;

namespace Dyewort.Workshop.Trials;

/// <summary>Makes tags for the jars of a trial.</summary>
public sealed class PrintJarTags(TimeProvider clock) : IUseCase
{
    private const int MostTags = 2000;
    private static readonly JsonSerializerOptions Options = new(JsonSerializerDefaults.Web);

    /// <param name="jars">A list such as [{"jar":"A1","liquor":"20 ml of EB25-1","additions":[{"name":"alum","amount":"0.4 g"}]}], as
    /// JSON.</param>
    /// <param name="sheet">A label sheet's description as JSON; the usual one when empty.</param>
    public Outcome<byte[]> Handle(string? jars, string? sheet)
    {
        const string Remedy =
            "Use a list such as [{\"jar\":\"A1\",\"liquor\":\"20 ml of EB25-1\",\"additions\":[{\"name\":\"alum\",\"amount\":\"0.4 "
            + "g\"}]}].";
        List<FileJar?>? list;
        try
        {
            list = JsonSerializer.Deserialize<List<FileJar?>>(jars ?? "", Options);
        }
        catch (JsonException problem)
        {
            return Outcome.Refused<byte[]>("jars", $"The jars are not readable JSON (line {problem.LineNumber + 1}).", Remedy);
        }

        if (list is not { Count: > 0 and <= MostTags })
            return Outcome.Refused<byte[]>("jars", "There is no jar to tag, or there are too many.", Remedy);
        if (list.Exists(jar => string.IsNullOrWhiteSpace(jar?.Jar)))
            return Outcome.Refused<byte[]>("jars", "A jar has no code.", Remedy);
        return Handle(
            [
                .. list.Select(jar => new JarTag(
                    jar!.Jar!.Trim(),
                    jar.Liquor?.Trim() ?? "",
                    [.. (jar.Additions ?? []).Select(step => $"{step?.Name} {step?.Amount}".Trim())]
                )),
            ],
            sheet
        );
    }

    /// <summary>The same for jars that are known already.</summary>
    public Outcome<byte[]> Handle(IReadOnlyList<JarTag> tags, string? sheet)
    {
        if (tags.Count == 0)
            return Outcome.Refused<byte[]>("jars", "There is no jar to tag.", "Set out a trial first.");
        var described = string.IsNullOrWhiteSpace(sheet) ? Outcome.Of(JarTagsPdf.UsualSheet) : LabelSheet.Parse("front", sheet);
        if (!described.TryGet(out var places))
            return Outcome.Refused<byte[]>(described.Problems);
        return places.WidthMm < 30 || places.HeightMm < 18
            ? Outcome.Refused<byte[]>("front", "A tag needs at least 30 × 18 mm.", "Take larger tags.")
            : Outcome.Of(JarTagsPdf.Draw(tags, places, DateOnly.FromDateTime(clock.GetUtcNow().UtcDateTime)));
    }

    private sealed record FileAddition(string? Name, string? Amount);

    private sealed record FileJar(string? Jar, string? Liquor, IReadOnlyList<FileAddition?>? Additions);
}

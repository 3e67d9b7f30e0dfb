using System.Text.Json;
using Dyewort.Colour;
using Dyewort.Print;
using Dyewort.Quantities;
using Dyewort.Readings;

namespace Dyewort.Workshop.Charts;

/// <summary>Prints a chart of measured chips from readings written as JSON.</summary>
public sealed class PrintChart(TimeProvider clock) : IUseCase
{
    private const int MostChips = 26 * 99;
    private static readonly JsonSerializerOptions Options = new(JsonSerializerDefaults.Web);

    public Outcome<byte[]> Handle(PrintChartForm form)
    {
        var page = PageSize.Parse("page", string.IsNullOrWhiteSpace(form.Page) ? "A4" : form.Page);
        var chips = Chips(form);
        if (!page.TryGet(out var size) || !chips.TryGet(out var known))
            return Outcome.Refused<byte[]>([.. page.Problems, .. chips.Problems]);
        return Handle(
            size,
            known,
            new ChartWords
            {
                Title = string.IsNullOrWhiteSpace(form.Title) ? "Chart" : form.Title.Trim(),
                Code = string.IsNullOrWhiteSpace(form.Chart) ? "without a code" : form.Chart.Trim(),
                About = form.About?.Trim() ?? "",
                Link = string.IsNullOrWhiteSpace(form.Link) ? null : form.Link.Trim(),
            }
        );
    }

    /// <summary>The same for swatches that are known already.</summary>
    public Outcome<byte[]> Handle(PageSize page, IReadOnlyList<ChartChip> chips, ChartWords words)
    {
        if (chips.Count is 0 or > MostChips)
            return Outcome.Refused<byte[]>(
                "reading",
                "There are no swatches to show, or far too many.",
                "Give what one photo was read as."
            );
        if (Math.Min(page.WidthMm, page.HeightMm) < 90)
            return Outcome.Refused<byte[]>("page", $"A chart does not fit on {page.Name}.", "Take A6 or larger.");
        if (words.Link is { Length: > 200 })
            return Outcome.Refused<byte[]>("link", "The address for the square code is longer than 200 signs.", "Take a shorter one.");
        return Outcome.Of(ChartPdf.Draw(page, chips, words, DateOnly.FromDateTime(clock.GetUtcNow().UtcDateTime)));
    }

    private static Outcome<IReadOnlyList<ChartChip>> Chips(PrintChartForm form)
    {
        const string Remedy = "Use a file of readings as “dyewort read” writes them for machines.";
        FileReading? file;
        Dictionary<string, string>? captions = null;
        try
        {
            file = JsonSerializer.Deserialize<FileReading>(form.Reading ?? "", Options);
            if (!string.IsNullOrWhiteSpace(form.Captions))
                captions = JsonSerializer.Deserialize<Dictionary<string, string>>(form.Captions, Options);
        }
        catch (JsonException problem)
        {
            return Outcome.Refused<IReadOnlyList<ChartChip>>(
                "reading",
                $"The reading or its captions are not readable JSON (line {problem.LineNumber + 1}).",
                Remedy
            );
        }

        if (file?.Swatches is not { Count: > 0 } swatches)
            return Outcome.Refused<IReadOnlyList<ChartChip>>("reading", "The reading holds no swatches.", Remedy);
        if (
            swatches.FirstOrDefault(swatch =>
                string.IsNullOrWhiteSpace(swatch?.Id)
                || swatch.Lab is { } lab
                    && (lab.Count != 3 || lab[0] is < 0 or > 100.5 || lab.Any(one => !double.IsFinite(one) || Math.Abs(one) > 200))
            ) is
            { } odd
        )
            return Outcome.Refused<IReadOnlyList<ChartChip>>(
                "reading",
                $"Swatch “{odd.Id}” of the reading has no code or no possible colour.",
                Remedy
            );
        return Outcome.Of<IReadOnlyList<ChartChip>>([
            .. swatches
                .Where(swatch => swatch is not null)
                .Select(swatch => new ChartChip(
                    swatch!.Id!,
                    swatch.Lab is { } lab ? new Lab(lab[0], lab[1], lab[2]).ToXyz() : null,
                    swatch.UncertaintyDe00,
                    captions?.GetValueOrDefault(swatch.Id!) ?? ""
                )),
        ]);
    }

    private sealed record FileSwatch(string? Id, IReadOnlyList<double>? Lab, double? UncertaintyDe00);

    private sealed record FileReading(IReadOnlyList<FileSwatch?>? Swatches);
}

public sealed record PrintChartForm
{
    /// <summary>Readings as they are written for machines.</summary>
    public string? Reading { get; init; }

    public string? Page { get; init; }

    public string? Title { get; init; }

    public string? Chart { get; init; }

    /// <summary>Pot, paper, age, day.</summary>
    public string? About { get; init; }

    public string? Link { get; init; }

    /// <summary>Cell → what is painted there, as JSON.</summary>
    public string? Captions { get; init; }
}

using System.Text.Encodings.Web;
using System.Text.Json;
using Dyewort.Colour;
using Dyewort.Quantities;
using Dyewort.Readings;

namespace Dyewort.Workshop.Readings;

/// <summary>A reading as the JSON that <c>dyewort read</c> answers machines with.</summary>
public static class ReadingJson
{
    /// <summary>The key that marks a covered half.</summary>
    internal const string Covered = "covered";

    private static readonly JsonSerializerOptions Options = new(JsonSerializerDefaults.Web)
    {
        WriteIndented = true,
        Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping,
    };

    /// <summary>One reading, with how it stands against an instrument where it was checked, and what wet swatches will dry to.</summary>
    public static string Write(ReadingResult result, InstrumentCheck? check = null, IReadOnlyDictionary<string, DryForecast>? dry = null)
    {
        var shape = JsonSerializer.SerializeToNode(Shape(result), Options)!;

        // Said of the halves that were kept from light, and of nothing else.
        foreach (var (swatch, node) in result.Swatches.Zip(shape["swatches"]!.AsArray()))
        {
            if (swatch.IsCovered)
                node![Covered] = true;
        }

        if (check is not null)
            shape["check"] = JsonSerializer.SerializeToNode(Shape(check), Options);
        if (dry is not null)
        {
            shape["dry"] = JsonSerializer.SerializeToNode(
                dry.Select(one => new
                {
                    id = one.Key,
                    lab = Numbers(one.Value.Dry),
                    uncertaintyDe00 = Round(one.Value.UncertaintyDe00),
                    pairs = one.Value.Pairs,
                }),
                Options
            );
        }

        return shape.ToJsonString(Options);
    }

    /// <summary>Many photos: one entry per file, with its reading or the reason why there is none.</summary>
    public static string WriteMany(IReadOnlyList<(string File, Outcome<ReadingResult> Outcome)> photos) =>
        JsonSerializer.Serialize(
            new
            {
                photos = photos.Select(photo => new
                {
                    file = photo.File,
                    reading = photo.Outcome.TryGet(out var result) ? Shape(result) : null,
                    problem = photo.Outcome.Problems.Count == 0 ? null : photo.Outcome.Problems[0].ToString(),
                }),
            },
            Options
        );

    internal static object Shape(ReadingResult result) =>
        new
        {
            swatches = result.Swatches.Select(swatch => new
            {
                id = swatch.Id,
                lab = Numbers(swatch.Lab),
                uncertaintyDe00 = Round(swatch.UncertaintyDe00),
                evenness = Round(swatch.Evenness, 3),
                coverage = Round(swatch.Coverage, 3),
                spreadDe00 = Round(swatch.SpreadDe00),
                warnings = swatch.Warnings.Select(warning => warning.Code),
                advice = swatch.Warnings.Select(warning => warning.Text),
                outlinePx = Points(swatch.OutlinePx),
            }),
            calibration = new
            {
                method = result.Calibration.Method,
                residualDe00 = Round(result.Calibration.ResidualDe00),
                leaveOneOutDe00 = result.Calibration.LeaveOneOutDe00 is { } leaveOneOut ? Round(leaveOneOut) : (double?)null,
                form = result.Calibration.Form,
                paperLab = Numbers(result.Calibration.Paper),
                paperKnown = result.Calibration.PaperKnown,
                printedBlackPercent = result.Calibration.Black is { } black ? Round(100 * black) : (double?)null,
            },
            card = result.CardCornersPx.Count == 0 ? null : new { cornersPx = Points(result.CardCornersPx) },
            page = new { cornersPx = Points(result.PageCornersPx) },
            picture = new { widthPx = result.PictureSize.Width, heightPx = result.PictureSize.Height },
            warnings = result.Warnings.Select(warning => warning.Text),
            warningCodes = result.Warnings.Select(warning => warning.Code),
        };

    private static object Shape(InstrumentCheck check) =>
        new
        {
            swatches = check.Swatches.Select(swatch => new
            {
                id = swatch.Id,
                instrumentLab = Numbers(swatch.Instrument),
                de00 = Round(swatch.De00),
                statedDe00 = Round(swatch.StatedDe00),
                inside = swatch.IsInside,
            }),
            meanDe00 = Round(check.MeanDe00),
            medianDe00 = Round(check.MedianDe00),
            p95De00 = Round(check.P95De00),
            insideShare = Round(check.InsideShare, 3),
            meanShift = new[] { Round(check.MeanShift.L), Round(check.MeanShift.A), Round(check.MeanShift.B) },
            onlyInstrument = check.OnlyInstrument,
            onlyPhoto = check.OnlyPhoto,
        };

    private static double[] Numbers(Lab lab) => [Round(lab.L), Round(lab.A), Round(lab.B)];

    private static IEnumerable<double[]> Points(IReadOnlyList<PointPx> points) =>
        points.Select(point => new[] { Round(point.X, 1), Round(point.Y, 1) });

    private static double Round(double value, int digits = 2) => double.IsFinite(value) ? Math.Round(value, digits) : 0;
}

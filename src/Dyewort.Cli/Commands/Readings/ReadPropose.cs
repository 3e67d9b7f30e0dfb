using System.Globalization;
using System.Text.Json;
using Dyewort.Readings;
using Dyewort.Workshop;
using Dyewort.Workshop.Readings;

namespace Dyewort.Cli.Commands.Readings;

/// <summary><c>dyewort read PHOTO --propose spots.json</c>: swatches found on unmarked paper.</summary>
internal static class ReadPropose
{
    public static int Run(ReadSettings settings)
    {
        if (Directory.Exists(settings.Photo))
            throw new RefusalException("photo", "A folder was given.", "Propose swatches for one photo at a time.");
        if (settings.Layout is not null || settings.Spots is not null || settings.Grid is not null)
            throw new RefusalException(
                "propose",
                "It is already said where the swatches are.",
                "Leave out --layout, --spots and --grid, or leave out --propose."
            );
        var read = ReadCommand.PictureBytes(settings.Photo);
        if (!read.TryGet(out var bytes))
            throw new RefusalException(read.Problems);
        var outcome = new ProposeSpots().Handle(new() { Picture = bytes });
        if (!outcome.TryGet(out var answer))
            throw new RefusalException(outcome.Problems);
        if (answer.Spots.Count == 0)
            throw new RefusalException(
                "photo",
                "No swatches were found on light paper in this photo.",
                "Photograph paint on bare light paper with some paper free around each swatch, or outline the swatches yourself with "
                    + "--spots."
            );
        File.WriteAllText(settings.Propose!, answer.ToJson());
        if (settings.Json)
        {
            Console.WriteLine(
                JsonSerializer.Serialize(
                    new
                    {
                        spots = answer.Spots.Select(spot => new
                        {
                            id = spot.Id,
                            polygonPx = Pairs(spot.PolygonPx),
                            confidence = spot.Confidence,
                        }),
                        paperPx = Pairs(answer.PaperPx),
                        picture = new { widthPx = answer.Width, heightPx = answer.Height },
                    },
                    Indented
                )
            );
        }
        else
        {
            foreach (var spot in answer.Spots)
                Console.WriteLine(
                    string.Create(
                        CultureInfo.InvariantCulture,
                        $"{spot.Id, -5} at {spot.PolygonPx.Average(p => p.X):0}, {spot.PolygonPx.Average(p => p.Y):0}  confidence "
                            + $"{spot.Confidence:0.00}"
                    )
                );
        }

        return Program.Done;
    }

    private static JsonSerializerOptions Indented { get; } = new() { WriteIndented = true };

    private static IEnumerable<double[]> Pairs(IReadOnlyList<PointPx> points) =>
        points.Select(point => new[] { Math.Round(point.X, 1), Math.Round(point.Y, 1) });
}

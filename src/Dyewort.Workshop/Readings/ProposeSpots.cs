using System.Globalization;
using System.Text.Encodings.Web;
using System.Text.Json;
using Dyewort.Imaging;
using Dyewort.Quantities;
using Dyewort.Readings;

namespace Dyewort.Workshop.Readings;

/// <summary>Proposes where the swatches are on a photo of unmarked paper; the maker corrects them and reads.</summary>
public sealed class ProposeSpots : IUseCase
{
    internal static readonly JsonSerializerOptions Options = new(JsonSerializerDefaults.Web)
    {
        Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping,
    };

    /// <summary>A proposed swatch.</summary>
    /// <param name="Id">s1, s2 … in reading order.</param>
    /// <param name="PolygonPx">Convex, at most eight corners, clockwise, upright pixels.</param>
    /// <param name="Confidence">0 to 1; not a probability.</param>
    public sealed record ProposedSpot(string Id, IReadOnlyList<PointPx> PolygonPx, double Confidence);

    /// <summary>Looks at a photo. Finding nothing is an answer; a picture that cannot be opened is refused.</summary>
    public Outcome<ProposeSpotsAnswer> Handle(ProposeSpotsRequest request)
    {
        var opened = PhotoFile.Open("photo", request.Picture);
        if (!opened.TryGet(out var photo))
            return Outcome.Refused<ProposeSpotsAnswer>(opened.Problems);
        using (photo)
        {
            var found = FindSwatches.In(photo);
            var spots = found
                .Swatches.Where(swatch => swatch.Confidence >= request.LeastConfidence)
                .Select(
                    (swatch, i) =>
                        new ProposedSpot(string.Create(CultureInfo.InvariantCulture, $"s{i + 1}"), swatch.OutlinePx, swatch.Confidence)
                )
                .ToList();
            return Outcome.Of(new ProposeSpotsAnswer(spots, found.PaperPx, photo.Width, photo.Height));
        }
    }
}

/// <summary>What was found.</summary>
/// <param name="Spots">In reading order; may be empty.</param>
/// <param name="PaperPx">Outline of the paper; empty where none was found.</param>
/// <param name="Width">Upright picture width, pixels.</param>
/// <param name="Height">Upright picture height, pixels.</param>
public sealed record ProposeSpotsAnswer(
    IReadOnlyList<ProposeSpots.ProposedSpot> Spots,
    IReadOnlyList<PointPx> PaperPx,
    int Width,
    int Height
)
{
    /// <summary>The spots as a file of spots that <c>dyewort read</c> takes.</summary>
    public string ToJson() =>
        "[\n"
        + string.Join(
            ",\n",
            Spots.Select(spot =>
                "  "
                + JsonSerializer.Serialize(
                    new
                    {
                        id = spot.Id,
                        polygonPx = Pairs(spot.PolygonPx),
                        confidence = spot.Confidence,
                    },
                    ProposeSpots.Options
                )
            )
        )
        + "\n]\n";

    private static IEnumerable<double[]> Pairs(IReadOnlyList<PointPx> points) =>
        points.Select(point => new[] { Math.Round(point.X, 1), Math.Round(point.Y, 1) });
}

/// <summary>The picture to look at.</summary>
public sealed record ProposeSpotsRequest
{
    /// <summary>The picture file's bytes.</summary>
    public required byte[] Picture { get; init; }

    /// <summary>Proposals of less confidence are left out, 0 to 1.</summary>
    public double LeastConfidence { get; init; } = 0.15;
}

using Dyewort.Readings;

namespace Dyewort.Imaging;

/// <summary>Where a reference card lies in a photo.</summary>
/// <param name="Corners">Its four outer corners, clockwise from the patch that comes first.</param>
/// <param name="Columns">Patches along the first side.</param>
/// <param name="Rows">Patches along the second.</param>
public sealed record CardPlace(IReadOnlyList<PointPx> Corners, int Columns, int Rows);

/// <summary>Takes the patches of a reference card out of a photo.</summary>
public static class FindCard
{
    /// <summary>Reads the patches; the card's own rim is found by how even the patches then are.</summary>
    public static IReadOnlyList<ReferencePatch> Patches(OpenPhoto photo, CardPlace place, IReadOnlyList<CardPatch> known)
    {
        var map = Homography.FromUnitSquare(place.Corners);
        var places = CardFile.Places(known, place.Columns, place.Rows);
        double best = double.MaxValue,
            rimX = 0,
            rimY = 0;
        for (var i = 0; i <= 6; i++)
        {
            for (var j = 0; j <= 6; j++)
            {
                var (tryX, tryY) = (i * 0.012, j * 0.012);
                var spreads = Enumerable
                    .Range(0, place.Columns * place.Rows)
                    .Select(index => SampleCells.Patch(photo, Outline(map, place, index, tryX, tryY), 0.66, 12).Spread)
                    .Order()
                    .ToArray();
                var sum = spreads.Take((spreads.Length * 9 / 10) + 1).Sum();
                if (sum < best)
                    (best, rimX, rimY) = (sum, tryX, tryY);
            }
        }

        var patches = new List<ReferencePatch>();
        for (var i = 0; i < known.Count; i++)
        {
            if (places[i] < 0)
                continue;
            var (mean, _, clipped) = SampleCells.Patch(photo, Outline(map, place, places[i], rimX, rimY), 0.5);
            if (mean.G <= 0)
                continue;
            var (column, row) = (places[i] % place.Columns, places[i] / place.Columns);
            patches.Add(new(known[i].Id, mean, known[i].Lab.ToXyz(), (column + 0.5) / place.Columns, (row + 0.5) / place.Rows, clipped));
        }

        return patches;
    }

    private static PointPx[] Outline(Homography map, CardPlace place, int index, double rimX, double rimY)
    {
        var (column, row) = (index % place.Columns, index / place.Columns);
        var (w, h) = ((1 - (2 * rimX)) / place.Columns, (1 - (2 * rimY)) / place.Rows);
        var (x, y) = (rimX + (column * w), rimY + (row * h));
        return [map.Map(x, y), map.Map(x + w, y), map.Map(x + w, y + h), map.Map(x, y + h)];
    }
}

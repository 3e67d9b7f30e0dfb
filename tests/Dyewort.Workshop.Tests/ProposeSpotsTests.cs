using System.Text.Json;
using Dyewort.Colour;
using Dyewort.Imaging.Tests;
using Dyewort.Readings;
using Dyewort.Workshop.Readings;
using Xunit;

namespace Dyewort.Workshop.Tests;

/// <summary>Paint on a plain page: no markers, no lines, on a cluttered table, under light that falls off two to one and more.</summary>
public sealed class ProposeSpotsTests
{
    [Theory, InlineData(0, 1, 4), InlineData(9, 6, 2), InlineData(-12, 3, 2)]
    public void Every_painted_area_is_proposed_once_and_in_reading_order(double turn, int orientation, double lightRatio)
    {
        var painted = Plain() with { Turn = turn, LightRatio = lightRatio };
        var answer = Propose(painted.Jpeg(orientation));
        Assert.Equal((painted.Width, painted.Height), (answer.Width, answer.Height));
        Assert.Equal(painted.Layout.Cells.Count, answer.Spots.Count);
        foreach (var ((cell, spot), i) in painted.Layout.Cells.Zip(answer.Spots).Select((pair, i) => (pair, i)))
        {
            Assert.Equal($"s{i + 1}", spot.Id);
            Assert.InRange(spot.Confidence, 0.3, 0.99);
            Assert.InRange(spot.PolygonPx.Count, 3, 8);
            var (a, c) = (painted.Project(cell.PolygonMm[0]), painted.Project(cell.PolygonMm[2]));
            var middle = new PointPx(spot.PolygonPx.Average(p => p.X), spot.PolygonPx.Average(p => p.Y));
            Assert.True(middle.DistanceTo(new((a.X + c.X) / 2, (a.Y + c.Y) / 2)) < 0.12 * a.DistanceTo(c), $"{cell.Id} is misplaced");
            Assert.InRange(Area(spot.PolygonPx) / Area([.. cell.PolygonMm.Select(painted.Project)]), 0.75, 1.15);
        }
    }

    [Fact]
    public void Proposals_can_be_read_as_spots()
    {
        var painted = Plain();
        var picture = painted.Jpeg();
        var answer = Propose(picture);
        using var json = JsonDocument.Parse(answer.ToJson());
        Assert.Equal(answer.Spots.Count, json.RootElement.GetArrayLength());
        Assert.Equal(answer.Spots[0].PolygonPx[0].X, json.RootElement[0].GetProperty("polygonPx")[0][0].GetDouble(), 0.06);
        Assert.True(
            new ReadPhoto()
                .Handle(
                    new()
                    {
                        Picture = picture,
                        Spots = [.. answer.Spots.Select(spot => new ReadPhoto.Spot(spot.Id, spot.PolygonPx))],
                        Paper = painted.Paper,
                    }
                )
                .TryGet(out var reading)
        );
        using (reading)
        {
            // Nothing tells the camera's curve here, so the usual one is taken off; that costs a little.
            var errors = painted
                .Layout.Cells.Zip(reading.Result.Swatches)
                .Select(pair => Difference.Ciede2000(painted.Paint[pair.First.Id], pair.Second.Lab))
                .Order()
                .ToList();
            Assert.True(errors[12] <= 2.5, $"median ΔE00 {errors[12]:0.00}");
        }
    }

    [Fact]
    public void A_few_loose_swatches_are_found_and_bare_ones_are_not_made_up()
    {
        var painted = Plain();
        var few = painted with { Paint = painted.Paint.Where(pair => pair.Key is "A1" or "C2" or "D5").ToDictionary() };
        Assert.Equal(3, Propose(few.Jpeg()).Spots.Count);
        Assert.Empty(Propose((painted with { Paint = new Dictionary<string, Lab>() }).Jpeg()).Spots);
    }

    [Fact]
    public void What_is_no_picture_is_refused() =>
        Assert.Equal("photo", Assert.Single(new ProposeSpots().Handle(new() { Picture = [1, 2, 3] }).Problems).Field);

    private static PaintedPhoto Plain()
    {
        var sheet = TestSheets.Small();
        return new()
        {
            Layout = sheet,
            Paint = TestSheets.Paint(sheet),
            Print = (_, _) => 1,
            Perspective = 0.08,
            Width = 1200,
            Height = 900,
        };
    }

    private static ProposeSpotsAnswer Propose(byte[] picture)
    {
        var outcome = new ProposeSpots().Handle(new() { Picture = picture });
        return outcome.TryGet(out var answer) ? answer : throw new InvalidOperationException(outcome.Problems[0].What);
    }

    private static double Area(IReadOnlyList<PointPx> outline) =>
        Math.Abs(
            Enumerable
                .Range(0, outline.Count)
                .Sum(i => (outline[i].X * outline[(i + 1) % outline.Count].Y) - (outline[(i + 1) % outline.Count].X * outline[i].Y))
        ) / 2;
}

using Dyewort.Colour;
using Dyewort.Readings;
using Xunit;

namespace Dyewort.Imaging.Tests;

/// <summary>Ink over the printed markers, as a full brush leaves it.</summary>
public sealed class HiddenMarkerTests
{
    [Theory, InlineData(0, 1.0), InlineData(1, 0.6), InlineData(2, 1.0), InlineData(3, 0.6)]
    public void A_corner_marker_painted_over_is_done_without(int blotted, double share)
    {
        var sheet = TestSheets.Small();
        var (page, painted, photo) = Find(sheet, [blotted], share);
        using (photo)
        {
            Assert.DoesNotContain(page.Markers, marker => marker.Printed.Id == blotted);
            Assert.DoesNotContain(page.Warnings, warning => warning.Code == "markers");
            Misplaced(page, painted, sheet, 3);
        }
    }

    [Theory, InlineData(0, 2, 561), InlineData(1, 560, 563), InlineData(3, 561, 562), InlineData(0, 560, 561)]
    public void With_edge_markers_any_three_not_in_a_line_suffice(int first, int second, int third)
    {
        var sheet = TestSheets.Small(edges: true);
        var (page, painted, photo) = Find(sheet, [.. sheet.Markers.Select(marker => marker.Id).Except([first, second, third])], 1);
        using (photo)
        {
            Assert.Equal(3, page.Markers.Count);
            Assert.DoesNotContain(page.Warnings, warning => warning.Code == "markers");
            Misplaced(page, painted, sheet, 4);
        }
    }

    [Fact]
    public void Three_in_a_line_are_used_and_the_maker_is_told()
    {
        var sheet = TestSheets.Small(edges: true);
        var (page, _, photo) = Find(sheet, [2, 3, 561, 562, 563], 1);
        using (photo)
            Assert.Contains("in one line", Assert.Single(page.Warnings, warning => warning.Code == "markers").Text);
    }

    private static (FoundPage Page, PaintedPhoto Painted, OpenPhoto Photo) Find(SheetLayout sheet, int[] blotted, double share)
    {
        var paint = TestSheets.Paint(sheet).ToDictionary();
        var blots = new List<SheetCell>();
        foreach (var id in blotted)
        {
            // The blot reaches two millimetres beyond the marker, or covers part of it from its outer side.
            var corners = sheet.Markers.Single(marker => marker.Id == id).CornersMm;
            var (left, top, right, bottom) = (
                corners[0].X - 2,
                corners[0].Y - 2,
                corners[0].X + (share * 12) + (share < 1 ? 0 : 2),
                corners[2].Y + 2
            );
            blots.Add(new($"blot{id}", [new(left, top), new(right, top), new(right, bottom), new(left, bottom)]));
            paint[$"blot{id}"] = new Lab(28, 12, 18);
        }

        var painted = new PaintedPhoto
        {
            Layout = sheet with { Cells = [.. sheet.Cells, .. blots] },
            Paint = paint,
            Width = 1400,
            Height = 1050,
        };
        Assert.True(PhotoFile.Open("photo", painted.Jpeg()).TryGet(out var photo));
        var outcome = FindPage.ByMarkers("photo", photo, sheet);
        Assert.True(outcome.TryGet(out var page), outcome.Problems.Count == 0 ? "" : outcome.Problems[0].What);
        return (page, painted, photo);
    }

    private static void Misplaced(FoundPage page, PaintedPhoto painted, SheetLayout sheet, double most)
    {
        foreach (var corner in sheet.Cells.SelectMany(cell => cell.PolygonMm))
            Assert.True(
                page.Pose.Project(corner).DistanceTo(painted.Project(corner)) < most,
                $"{corner} is off by {page.Pose.Project(corner).DistanceTo(painted.Project(corner)):0.0} px"
            );
    }
}

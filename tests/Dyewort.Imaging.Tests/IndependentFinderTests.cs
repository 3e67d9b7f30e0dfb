using System.Globalization;
using Dyewort.Readings;
using Dyewort.Testing;
using Xunit;

namespace Dyewort.Imaging.Tests;

/// <summary>Our marker finder beside OpenCV's, on the same pictures.</summary>
public sealed class IndependentFinderTests
{
    private const string Script = """
        import sys, cv2, time
        d = cv2.aruco.getPredefinedDictionary(cv2.aruco.DICT_APRILTAG_36h11)
        grey = cv2.cvtColor(cv2.imread(sys.argv[1]), cv2.COLOR_BGR2GRAY)
        if hasattr(cv2.aruco, "ArucoDetector"):
            p = cv2.aruco.DetectorParameters()
            p.cornerRefinementMethod = cv2.aruco.CORNER_REFINE_SUBPIX; p.cornerRefinementWinSize = 8
            find = cv2.aruco.ArucoDetector(d, p).detectMarkers
        else:
            p = cv2.aruco.DetectorParameters_create()
            p.cornerRefinementMethod = cv2.aruco.CORNER_REFINE_SUBPIX; p.cornerRefinementWinSize = 8
            find = lambda g: cv2.aruco.detectMarkers(g, d, parameters=p)
        find(grey)
        start = time.time(); corners, ids, _ = find(grey); print("time", time.time() - start)
        for c, i in zip(corners, [] if ids is None else ids.ravel()):
            print(int(i), *["%.3f" % v for v in c.ravel()])
        """;

    [Theory, InlineData(0), InlineData(77), InlineData(180), InlineData(301)]
    public void At_least_as_many_markers_are_found_and_corners_agree_within_half_a_pixel(double turn)
    {
        var sheet = TestSheets.Small(edges: true);
        var painted = new PaintedPhoto
        {
            Layout = sheet,
            Paint = TestSheets.Paint(sheet),
            Turn = turn,
            Width = 2400,
            Height = 1800,
        };
        var folder = Directory.CreateTempSubdirectory("dyewort-finder");
        try
        {
            var path = Path.Combine(folder.FullName, "photo.jpg");
            File.WriteAllBytes(path, painted.Jpeg());
            Assert.SkipUnless(File.Exists("/usr/bin/python3"), "No /usr/bin/python3 on this machine.");
            var (exit, output, _) = Tool.Run("/usr/bin/python3", ["-c", Script, path], TimeSpan.FromSeconds(60));
            Assert.SkipUnless(exit == 0, "Python's OpenCV with the aruco module (Debian: python3-opencv) is not on this machine.");
            var lines = output
                .Split('\n', StringSplitOptions.RemoveEmptyEntries)
                .Select(line => line.Split(' '))
                .Where(words => words[0] != "time")
                .ToList();
            Assert.True(PhotoFile.OpenFile("photo", path).TryGet(out var photo));
            using (photo)
            {
                var ours = FindMarkers.In(photo, 8).ToDictionary(marker => marker.Id);
                Assert.True(lines.Count >= 4, "The independent finder found too little to compare with.");
                double apart = 0,
                    own = 0,
                    other = 0;
                foreach (var words in lines)
                {
                    var truth = sheet.Markers.Single(one => one.Id == int.Parse(words[0], CultureInfo.InvariantCulture));
                    var id = int.Parse(words[0], CultureInfo.InvariantCulture);
                    Assert.True(ours.TryGetValue(id, out var marker), $"Marker {id} was missed.");
                    for (var k = 0; k < 4; k++)
                    {
                        var theirs = new PointPx(
                            double.Parse(words[1 + (2 * k)], CultureInfo.InvariantCulture),
                            double.Parse(words[2 + (2 * k)], CultureInfo.InvariantCulture)
                        );
                        var real = painted.Project(truth.CornersMm[k]);
                        apart += Math.Pow(marker.Corners[k].DistanceTo(theirs), 2);
                        own += Math.Pow(marker.Corners[k].DistanceTo(real), 2);
                        other += Math.Pow(theirs.DistanceTo(real), 2);
                    }
                }

                // Root mean square: the other finder works on encoded numbers, where blur draws the corners of dark squares inwards by up
                // to 0.7 px.
                var n = lines.Count * 4;
                Assert.True(Math.Sqrt(apart / n) < 0.5, $"{Math.Sqrt(apart / n):0.00} px apart.");
                Assert.True(own < other, $"Ours {Math.Sqrt(own / n):0.00} px from the truth, the other {Math.Sqrt(other / n):0.00} px.");
                // The picture is made with two samples along each side of a pixel, so its own edges are true to a quarter pixel each way.
                foreach (var printed in sheet.Markers)
                {
                    for (var k = 0; k < 4; k++)
                        Assert.True(ours[printed.Id].Corners[k].DistanceTo(painted.Project(printed.CornersMm[k])) < 0.5);
                }
            }
        }
        finally
        {
            folder.Delete(recursive: true);
        }
    }

    [Fact]
    public void Noise_and_chequers_are_not_taken_for_markers()
    {
        var sheet = TestSheets.Small();
        var painted = new PaintedPhoto
        {
            Layout = sheet,
            HiddenMarkers = new HashSet<int> { 0, 1, 2, 3 },
            Width = 1600,
            Height = 1200,
        };
        Assert.True(PhotoFile.Open("photo", painted.Jpeg()).TryGet(out var photo));
        using (photo)
            Assert.Empty(FindMarkers.In(photo, 4));
    }
}

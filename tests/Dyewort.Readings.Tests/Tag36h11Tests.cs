using System.Numerics;
using Dyewort.Testing;
using Xunit;

namespace Dyewort.Readings.Tests;

public sealed class Tag36h11Tests
{
    [Fact, Published("Olson2011", "family 36h11")]
    public void Any_two_codes_differ_in_at_least_eleven_cells_in_every_turn()
    {
        var smallest = int.MaxValue;
        for (var first = 0; first < Tag36h11.Count; first++)
        {
            for (var second = first + 1; second < Tag36h11.Count; second++)
            {
                foreach (var turned in Turns(second))
                    smallest = Math.Min(smallest, BitOperations.PopCount(Tag36h11.Code(first) ^ turned));
            }

            foreach (var turned in Turns(first).Skip(1))
                smallest = Math.Min(smallest, BitOperations.PopCount(Tag36h11.Code(first) ^ turned));
        }

        Assert.Equal(11, smallest);
    }

    [Fact]
    public void Every_code_is_found_in_every_turn_with_three_cells_misread() =>
        Chance.Try(random =>
        {
            for (var id = 0; id < Tag36h11.Count; id++)
            {
                var turns = 0;
                foreach (var turned in Turns(id))
                {
                    var seen = turned;
                    foreach (var cell in Enumerable.Range(0, 36).OrderBy(_ => random.Next()).Take(3))
                        seen ^= 1UL << cell;
                    Assert.True(Tag36h11.TryDecode(seen, out var marker));
                    Assert.Equal((id, turns, 3), marker);
                    turns++;
                }
            }
        });

    [Fact]
    public void A_code_with_five_cells_misread_is_refused() => Assert.False(Tag36h11.TryDecode(Tag36h11.Code(17) ^ 0b11111, out _));

    [Theory, InlineData(-1), InlineData(587)]
    public void There_is_no_such_marker(int id) => Assert.Throws<ArgumentOutOfRangeException>(() => Tag36h11.Cells(id));

    [Fact]
    public void The_border_is_black()
    {
        var cells = Tag36h11.Cells(5);
        for (var i = 0; i < 8; i++)
            Assert.False(cells[0, i] || cells[7, i] || cells[i, 0] || cells[i, 7]);
    }

    [Fact, Published("Olson2011", "family 36h11, as OpenCV prints it")]
    public void The_table_is_the_one_an_independent_library_prints()
    {
        const string Script = """
            import cv2
            d = cv2.aruco.getPredefinedDictionary(cv2.aruco.DICT_APRILTAG_36h11)
            draw = getattr(cv2.aruco, "drawMarker", None) or cv2.aruco.generateImageMarker
            for i in range(587):
                print("".join("1" if v else "0" for v in draw(d, i, 8).ravel()))
            """;
        Assert.SkipUnless(File.Exists("/usr/bin/python3"), "No /usr/bin/python3 on this machine.");
        var (exit, printed, _) = Tool.Run("/usr/bin/python3", ["-c", Script], TimeSpan.FromSeconds(60));
        Assert.SkipUnless(exit == 0, "Python's OpenCV with the aruco module (Debian: python3-opencv) is not on this machine.");
        var lines = printed.Split('\n', StringSplitOptions.RemoveEmptyEntries);
        Assert.Equal(Tag36h11.Count, lines.Length);
        for (var id = 0; id < lines.Length; id++)
            Assert.Equal(lines[id].Trim(), string.Concat(Tag36h11.Cells(id).Cast<bool>().Select(white => white ? '1' : '0')));
    }

    private static IEnumerable<ulong> Turns(int id)
    {
        var code = Tag36h11.Code(id);
        for (var turn = 0; turn < 4; turn++)
        {
            yield return code;
            ulong next = 0;
            for (var row = 0; row < 6; row++)
            {
                for (var column = 0; column < 6; column++)
                    next = (next << 1) | ((code >> (35 - ((5 - column) * 6) - row)) & 1);
            }

            code = next;
        }
    }
}

using Xunit;

namespace Dyewort.Testing;

/// <summary>Texts that somebody looked at and approved, kept beside the tests.</summary>
public static class Golden
{
    /// <summary>Fails where a text is not the approved one, and leaves it beside the approved one as <c>*.received</c> to compare and
    /// move.</summary>
    /// <param name="found">What the program says today.</param>
    /// <param name="path">The approved file, from the root of the checkout.</param>
    public static void Check(string found, params string[] path)
    {
        var approved = Repository.PathOf(path);
        var received = approved + ".received";
        var now = Lines(found);
        var before = File.Exists(approved) ? Lines(File.ReadAllText(approved)) : null;
        if (before is not null && before.SequenceEqual(now, StringComparer.Ordinal))
        {
            File.Delete(received);
            return;
        }

        Directory.CreateDirectory(Path.GetDirectoryName(approved)!);
        File.WriteAllText(received, string.Join('\n', now) + "\n");
        if (before is null)
            Assert.Fail($"Nothing is approved yet: read {received} and move it to {approved}.");
        var first = Enumerable.Range(0, Math.Max(now.Length, before.Length)).First(i => At(now, i) != At(before, i));
        Assert.Fail(
            $"Line {first + 1} differs from {approved}.\n  approved: {At(before, first)}\n  received: {At(now, first)}\n"
                + $"The whole lies in {received}; where it is right, move it over the approved file."
        );
    }

    // A line's end is the checkout's business, and blanks before it are nobody's.
    private static string[] Lines(string text) => [.. text.TrimEnd().ReplaceLineEndings("\n").Split('\n').Select(line => line.TrimEnd())];

    private static string At(string[] lines, int index) => index < lines.Length ? lines[index] : "(no such line)";
}

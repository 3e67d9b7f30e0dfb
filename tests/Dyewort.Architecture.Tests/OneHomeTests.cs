using System.Text.RegularExpressions;
using Dyewort.Testing;
using Xunit;

namespace Dyewort.Architecture.Tests;

/// <summary>Facts that have one home in the code, and a rule that fails when they get a second.</summary>
public sealed partial class OneHomeTests
{
    /// <summary>In memory an entry says itself whether it counts; in a query Counting() does.</summary>
    private static readonly string[] HomesOfCounting = ["Dyewort.Notebook/Entry.cs", "Dyewort.Store/Counting.cs"];

    [Fact]
    public void Whether_an_entry_counts_is_asked_in_its_two_homes_only()
    {
        var strays = new List<string>();
        var seen = 0;
        var root = Repository.PathOf("src");
        foreach (var file in Sources(root))
        {
            var name = Path.GetRelativePath(root, file).Replace('\\', '/');
            foreach (var (line, number) in File.ReadLines(file).Select((line, index) => (line, index + 1)))
            {
                if (!AsksWithdrawn().IsMatch(line))
                    continue;
                seen++;
                if (!HomesOfCounting.Contains(name))
                    strays.Add($"{name}, line {number}");
            }
        }

        Assert.Equal(HomesOfCounting.Length, seen - strays.Count);
        Assert.True(strays.Count == 0, $"Ask .Counting() or .Counts instead: {string.Join("; ", strays)}.");
    }

    [Theory]
    [InlineData("where one.WithdrawnAt == null")]
    [InlineData("if (entry.WithdrawnAt is not null)")]
    [InlineData("one.WithdrawnAt.HasValue")]
    public void The_rule_has_teeth(string line) => Assert.Matches(AsksWithdrawn(), line);

    private static IEnumerable<string> Sources(string root) =>
        new[] { "*.cs", "*.razor" }
            .SelectMany(kind => Directory.EnumerateFiles(root, kind, SearchOption.AllDirectories))
            .Where(file => !file.Contains("Migrations", StringComparison.Ordinal));

    [GeneratedRegex(@"\bWithdrawnAt\s*(==|!=|is)\s|\bWithdrawnAt\.HasValue")]
    private static partial Regex AsksWithdrawn();
}

using System.Reflection;
using Dyewort.Testing;
using Xunit;

namespace Dyewort.Architecture.Tests;

/// <summary>What a reader meets: one name for one type, and lines that fit a screen.</summary>
public sealed class NameTests
{
    private const int LongestLine = 140;

    [Fact]
    public void No_two_public_types_have_one_name()
    {
        var types = Directory
            .GetFiles(AppContext.BaseDirectory, "*.dll")
            .Where(IsOurs)
            .SelectMany(file => Assembly.LoadFrom(file).GetExportedTypes())
            .Where(type => !type.IsNested && !type.Name.StartsWith('_'))
            .ToList();
        var shared = types
            .GroupBy(type => type.Name.Split('`')[0], StringComparer.Ordinal)
            .Where(group => group.Select(type => type.Namespace).Distinct().Count() > 1)
            .Select(group => string.Join(" and ", group.Select(type => type.FullName)))
            .ToList();
        Assert.True(types.Count > 500, $"Only {types.Count} types were found.");
        Assert.True(shared.Count == 0, $"Types that share a name: {string.Join("; ", shared)}.");
    }

    [Fact]
    public void No_nested_type_has_a_name_that_says_nothing()
    {
        var nested = Directory
            .GetFiles(AppContext.BaseDirectory, "*.dll")
            .Where(IsOurs)
            .SelectMany(file => Assembly.LoadFrom(file).GetTypes())
            .Where(type => type.IsNested)
            .ToList();
        Assert.True(nested.Count > 500, $"Only {nested.Count} nested types were found.");
        Assert.Empty(nested.Where(type => type.Name is "Answer" or "Form" or "Settings").Select(type => type.FullName));
    }

    [Fact]
    public void Lines_fit()
    {
        string[] kinds = [".cs", ".razor", ".css", ".js"];
        string[] made = ["bin", "obj", "Migrations", "Approved"];
        var files = new[] { "src", "tests", "benchmarks", "tools" }
            .SelectMany(folder => Directory.EnumerateFiles(Repository.PathOf(folder), "*", SearchOption.AllDirectories))
            .Where(file => kinds.Contains(Path.GetExtension(file)))
            .Select(file => Path.GetRelativePath(Repository.Root, file).Replace('\\', '/'))
            .Where(file => !file.Split('/').Intersect(made).Any())
            .ToList();
        var tooLong = files
            .SelectMany(file => TooLong(File.ReadLines(Repository.PathOf(file))).Select(number => $"{file}:{number}"))
            .ToList();
        Assert.True(files.Count > 400, $"Only {files.Count} files were found.");
        Assert.True(tooLong.Count == 0, $"Longer than {LongestLine} characters: {string.Join(", ", tooLong)}.");
    }

    [Fact]
    public void The_rule_about_lines_has_teeth() =>
        Assert.Equal([2], TooLong([new string('é', LongestLine), new string('é', LongestLine + 1)]));

    // By the file's own name: the folder that the tests run in is called after them.
    private static bool IsOurs(string file) =>
        Path.GetFileName(file) is { } name
        && (name.StartsWith("Dyewort.", StringComparison.Ordinal) || name == "dyewort.dll")
        && !name.Contains(".Test", StringComparison.Ordinal);

    private static IEnumerable<int> TooLong(IEnumerable<string> lines) =>
        lines.Select((line, index) => (line.Length, Number: index + 1)).Where(one => one.Length > LongestLine).Select(one => one.Number);
}

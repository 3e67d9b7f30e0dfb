using System.Reflection;
using Dyewort.Testing;
using Xunit;

namespace Dyewort.Architecture.Tests;

/// <summary>What a reader meets: one name for one type, and lines that fit a screen.</summary>
public sealed class NameTests
{
    private const int LongestLine = 140;

    /// <summary>Folders whose lines do not all fit yet. Take out what passes; nothing is ever added.</summary>
    private static readonly string[] NotYet =
    [
        "benchmarks/Dyewort.Benchmarks",
        "benchmarks/Dyewort.Response.Accuracy",
        "src/Dyewort.Making",
        "src/Dyewort.Notebook",
        "src/Dyewort.Store",
        "tests/Dyewort.Cli.Tests",
        "tests/Dyewort.Making.Tests",
        "tests/Dyewort.Response.Tests",
        "tests/Dyewort.Web.Tests",
        "tests/Dyewort.Workshop.Tests",
    ];

    [Fact]
    public void No_two_public_types_have_one_name()
    {
        var types = Directory
            .GetFiles(AppContext.BaseDirectory, "Dyewort.*.dll")
            .Where(file => !file.Contains(".Tests", StringComparison.Ordinal) && !file.Contains(".Testing", StringComparison.Ordinal))
            .Append(Path.Combine(AppContext.BaseDirectory, "dyewort.dll"))
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
        var vague = Directory
            .GetFiles(AppContext.BaseDirectory, "Dyewort.*.dll")
            .Where(file => !file.Contains(".Tests", StringComparison.Ordinal) && !file.Contains(".Testing", StringComparison.Ordinal))
            .Append(Path.Combine(AppContext.BaseDirectory, "dyewort.dll"))
            .SelectMany(file => Assembly.LoadFrom(file).GetTypes())
            .Where(type => type.IsNested && type.Name is "Answer" or "Form" or "Settings")
            .Select(type => type.FullName);
        Assert.Empty(vague);
    }

    [Fact]
    public void Lines_fit()
    {
        string[] kinds = [".cs", ".razor", ".css", ".js"];
        string[] made = ["bin", "obj", "Migrations", "Approved"];
        var files = new[] { "src", "tests", "benchmarks" }
            .SelectMany(folder => Directory.EnumerateFiles(Repository.PathOf(folder), "*", SearchOption.AllDirectories))
            .Where(file => kinds.Contains(Path.GetExtension(file)))
            .Select(file => Path.GetRelativePath(Repository.Root, file).Replace('\\', '/'))
            .Where(file => !file.Split('/').Intersect(made).Any())
            .Where(file => !NotYet.Any(folder => file.StartsWith($"{folder}/", StringComparison.Ordinal)))
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

    private static IEnumerable<int> TooLong(IEnumerable<string> lines) =>
        lines.Select((line, index) => (line.Length, Number: index + 1)).Where(one => one.Length > LongestLine).Select(one => one.Number);
}

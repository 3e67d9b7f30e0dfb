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

    [Theory]
    [InlineData("Dyewort.Workshop")]
    [InlineData("Dyewort.Web")]
    [InlineData("Dyewort.Cli")]
    public void Lines_fit(string project)
    {
        string[] kinds = [".cs", ".razor", ".css", ".js"];
        var output = new[] { "bin", "obj" }.Select(name => $"{Path.DirectorySeparatorChar}{name}{Path.DirectorySeparatorChar}");
        var files = Directory
            .EnumerateFiles(Repository.PathOf("src", project), "*", SearchOption.AllDirectories)
            .Where(file => kinds.Contains(Path.GetExtension(file)) && !output.Any(part => file.Contains(part, StringComparison.Ordinal)))
            .ToList();
        var tooLong = files
            .SelectMany(file => File.ReadLines(file).Select((line, index) => (file, line, Number: index + 1)))
            .Where(one => one.line.Length > LongestLine)
            .Select(one => $"{Path.GetFileName(one.file)}:{one.Number}")
            .ToList();
        Assert.NotEmpty(files);
        Assert.True(tooLong.Count == 0, $"Longer than {LongestLine} characters: {string.Join(", ", tooLong)}.");
    }
}

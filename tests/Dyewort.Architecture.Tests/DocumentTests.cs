using System.Text.RegularExpressions;
using Dyewort.Testing;
using Xunit;

namespace Dyewort.Architecture.Tests;

/// <summary>What the documents promise must be there.</summary>
public sealed partial class DocumentTests
{
    [Fact]
    public void Every_citation_key_resolves()
    {
        var known = Entry()
            .Matches(File.ReadAllText(Repository.PathOf("docs", "REFERENCES.md")))
            .Select(match => match.Groups["key"].Value)
            .ToHashSet();
        var missing = new List<string>();
        foreach (var file in Sources())
        {
            var text = File.ReadAllText(file);
            var cited = PublishedUse()
                .Matches(text)
                .Select(match => match.Groups["key"].Value)
                .Concat(CommentLines(text).SelectMany(line => Key().Matches(line)).Select(match => match.Groups["key"].Value));
            missing.AddRange(cited.Where(key => !known.Contains(key)).Distinct().Select(key => $"{key} ({Path.GetFileName(file)})"));
        }

        Assert.True(known.Count > 0, "docs/REFERENCES.md lists no key.");
        Assert.True(missing.Count == 0, $"Cited but not in docs/REFERENCES.md: {string.Join(", ", missing)}.");
    }

    [Fact]
    public void The_map_names_every_project()
    {
        var map = File.ReadAllText(Repository.PathOf("docs", "architecture.md"));
        var unnamed = Directory
            .GetDirectories(Repository.PathOf("src"))
            .Select(folder => Path.GetFileName(folder)["Dyewort.".Length..])
            .Where(name => !map.Contains(name, StringComparison.Ordinal))
            .ToList();
        Assert.True(unnamed.Count == 0, $"docs/architecture.md does not name {string.Join(", ", unnamed)}.");
    }

    [Fact]
    public void The_documents_name_every_command()
    {
        var commands = Command()
            .Matches(File.ReadAllText(Repository.PathOf("src", "Dyewort.Cli", "Program.cs")))
            .Select(match => match.Groups["name"].Value)
            .Distinct()
            .ToList();
        var text = string.Join(
            '\n',
            Directory
                .EnumerateFiles(Repository.PathOf("docs", "handbook"), "*.md")
                .Append(Repository.PathOf("README.md"))
                .Select(File.ReadAllText)
        );
        var unnamed = commands
            .Where(name =>
                !Regex.IsMatch(text, $@"dyewort( \w+)? {Regex.Escape(name)}\b", RegexOptions.ExplicitCapture, TimeSpan.FromSeconds(5))
            )
            .ToList();
        Assert.True(commands.Count > 10, "Program.cs registers fewer commands than this test expects to read.");
        Assert.True(unnamed.Count == 0, $"No document shows how to use {string.Join(", ", unnamed)}.");
    }

    [Fact]
    public void Links_in_the_documents_lead_somewhere()
    {
        var broken = new List<string>();
        foreach (
            var file in Directory
                .EnumerateFiles(Repository.PathOf("docs"), "*.md", SearchOption.AllDirectories)
                .Append(Repository.PathOf("README.md"))
        )
        {
            foreach (var target in Link().Matches(File.ReadAllText(file)).Select(match => match.Groups["target"].Value))
            {
                if (
                    target.Contains("://", StringComparison.Ordinal)
                    || target.StartsWith('#')
                    || target.StartsWith("mailto:", StringComparison.Ordinal)
                )
                    continue;
                if (!Path.Exists(Path.Combine(Path.GetDirectoryName(file)!, target.Split('#')[0])))
                    broken.Add($"{target} (in {Path.GetFileName(file)})");
            }
        }

        Assert.True(broken.Count == 0, $"Links that lead nowhere: {string.Join(", ", broken)}.");
    }

    private static IEnumerable<string> Sources() =>
        new[] { "src", "tests" }
            .SelectMany(folder => Directory.EnumerateFiles(Repository.PathOf(folder), "*.cs", SearchOption.AllDirectories))
            .Where(file => !file.EndsWith("DocumentTests.cs", StringComparison.Ordinal));

    private static IEnumerable<string> CommentLines(string text) =>
        text.Split('\n').Where(line => line.Contains("///", StringComparison.Ordinal));

    [GeneratedRegex(@"\[(?<key>[A-Z][A-Za-z0-9.-]*\d[A-Za-z0-9.-]*)\](?!\()", RegexOptions.ExplicitCapture)]
    private static partial Regex Key();

    [GeneratedRegex(@"^- \[(?<key>[^\]]+)\] ", RegexOptions.ExplicitCapture | RegexOptions.Multiline)]
    private static partial Regex Entry();

    [GeneratedRegex("""Published\("(?<key>[^"]+)"\s*,""", RegexOptions.ExplicitCapture)]
    private static partial Regex PublishedUse();

    [GeneratedRegex("""Add(Command<\w+>|Branch)\("(?<name>\w+)"\s*""", RegexOptions.ExplicitCapture)]
    private static partial Regex Command();

    [GeneratedRegex(@"\]\((?<target>[^)\s]+)\)", RegexOptions.ExplicitCapture)]
    private static partial Regex Link();
}

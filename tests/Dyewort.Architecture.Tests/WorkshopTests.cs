using System.Text.RegularExpressions;
using ArchUnitNET.Loader;
using ArchUnitNET.xUnitV3;
using Dyewort.Testing;
using Xunit;
using static ArchUnitNET.Fluent.ArchRuleDefinition;
using Assembly = System.Reflection.Assembly;

namespace Dyewort.Architecture.Tests;

/// <summary>The Workshop inside: one name for one matter in all three projects, an order among them, and neither options nor
/// addresses.</summary>
public sealed partial class WorkshopTests
{
    /// <summary>A folder may use those before it; all of them use what lies beside them in the root.</summary>
    private static readonly string[] InOrder =
    [
        "Find",
        "Readings",
        "Pantry",
        "Chemistry",
        "Pots",
        "Trials",
        "Charts",
        "Recipes",
        "Batches",
        "Bottles",
        "Response",
        "Colours",
        "Bench",
        "Demo",
    ];

    private static readonly ArchUnitNET.Domain.Architecture Code = new ArchLoader()
        .LoadAssemblies([Assembly.LoadFrom(Path.Combine(AppContext.BaseDirectory, "Dyewort.Workshop.dll"))])
        .Build();

    public static TheoryData<int> Places() => [.. Enumerable.Range(0, InOrder.Length)];

    [Fact]
    public void Every_folder_has_its_place_in_the_order_and_the_map_draws_it()
    {
        Assert.Equal(InOrder.Order(StringComparer.Ordinal), Folders("Dyewort.Workshop"));
        Assert.Contains(
            string.Join(" ← ", InOrder),
            string.Join(' ', Map().Split([' ', '\n', '\r'], StringSplitOptions.RemoveEmptyEntries)),
            StringComparison.Ordinal
        );
    }

    [Fact]
    public void Pages_and_commands_have_the_same_folders()
    {
        var pages = Folders("Dyewort.Web", "Pages");
        var commands = Folders("Dyewort.Cli", "Commands");
        Assert.Empty(pages.Concat(commands).Except(InOrder));
        Assert.Empty(InOrder.Except(pages.Concat(commands)));
    }

    [Theory, MemberData(nameof(Places))]
    public void A_folder_uses_only_those_before_it(int place)
    {
        if (place == InOrder.Length - 1)
            return;
        Check(InOrder[place], InOrder[(place + 1)..]);
    }

    [Fact]
    public void The_order_has_teeth() => Assert.Throws<FailedArchRuleException>(() => Check("Response", ["Trials"]));

    [Fact]
    public void The_Workshop_knows_no_address_of_a_page()
    {
        var first = Directory
            .EnumerateFiles(Repository.PathOf("src", "Dyewort.Web"), "*.cs", SearchOption.AllDirectories)
            .SelectMany(file => Route().Matches(File.ReadAllText(file)))
            .Select(match => match.Groups["first"].Value)
            .ToHashSet(StringComparer.Ordinal);
        Assert.Contains("pots", first);
        Assert.Contains("b", first);
        var address = new Regex(
            $"\"/({string.Join('|', first.Select(Regex.Escape))})(?![a-z])",
            RegexOptions.CultureInvariant | RegexOptions.ExplicitCapture,
            TimeSpan.FromSeconds(5)
        );
        var found = Lines().Where(one => address.IsMatch(one.Text)).Select(one => $"{one.File}: {one.Text.Trim()}").ToList();
        Assert.True(found.Count == 0, $"Addresses belong to Web: {string.Join("; ", found)}.");
    }

    [Fact]
    public void The_rooms_for_twenty_changes_are_there()
    {
        var places = Change().Matches(Map()).Select(match => match.Groups["path"].Value).ToList();
        Assert.True(places.Count >= 20, $"docs/architecture.md shows the place of {places.Count} changes; a newcomer is promised twenty.");
        var missing = places.Where(path => !Path.Exists(Repository.PathOf(path))).ToList();
        Assert.True(missing.Count == 0, $"docs/architecture.md names what is not there: {string.Join(", ", missing)}.");
    }

    private static void Check(string folder, string[] later) =>
        Types()
            .That()
            .ResideInNamespaceMatching($@"^Dyewort\.Workshop\.{folder}$")
            .Should()
            .NotDependOnAnyTypesThat()
            .ResideInNamespaceMatching($@"^Dyewort\.Workshop\.({string.Join('|', later)})$")
            .Because("a matter of the Workshop builds on those before it")
            .WithoutRequiringPositiveResults()
            .Check(Code);

    private static string Map() => File.ReadAllText(Repository.PathOf("docs", "architecture.md"));

    private static List<string> Folders(params string[] path) =>
        [
            .. Directory
                .GetDirectories(Repository.PathOf(["src", .. path]))
                .Select(folder => Path.GetFileName(folder))
                .Where(name => name is not ("bin" or "obj"))
                .Order(StringComparer.Ordinal),
        ];

    private static IEnumerable<(string File, string Text)> Lines() =>
        Directory
            .EnumerateFiles(Repository.PathOf("src", "Dyewort.Workshop"), "*.cs", SearchOption.AllDirectories)
            .SelectMany(file => File.ReadLines(file).Select(line => (Path.GetFileName(file), line)));

    [GeneratedRegex(@"""/(?<first>[a-z]+)[/""{]", RegexOptions.ExplicitCapture)]
    private static partial Regex Route();

    [GeneratedRegex(@"^\| [^|]+ \| `(?<path>[^`]+)`", RegexOptions.ExplicitCapture | RegexOptions.Multiline)]
    private static partial Regex Change();
}

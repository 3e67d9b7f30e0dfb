using System.Text.RegularExpressions;
using System.Xml.Linq;
using Dyewort.Testing;
using Xunit;

namespace Dyewort.Architecture.Tests;

/// <summary>Who may reference whom: docs/architecture.md in a form that can fail.</summary>
public sealed class DoorTests
{
    private static readonly string[] Ground = ["Numerics", "Quantities", "Safety", "Colour", "Chemistry"];

    /// <summary>A room may use the ground and any room left of it, never one to its right.</summary>
    private static readonly string[] RoomsInOrder = ["Readings", "Pots", "Notebook", "Making"];

    /// <summary>Stands beside the Notebook: what a notebook teaches, the Workshop carries across.</summary>
    private static readonly string[] Response = [.. Ground, "Pots"];

    private static readonly Dictionary<string, string[]> Edges = new()
    {
        ["Imaging"] = ["Readings", "Colour", "Quantities", "Numerics"],
        ["Print"] = ["Making", "Readings", "Colour", "Quantities", "Numerics"],
        ["Store"] = [.. RoomsInOrder, .. Ground],
        ["Store.Sqlite"] = ["Store"],
    };

    /// <summary>The one project where each foreign library may be named.</summary>
    private static readonly Dictionary<string, string[]> Fenced = new()
    {
        ["MathNet"] = ["Numerics", "Response"],
        ["SkiaSharp"] = ["Imaging"],
        ["Magick"] = ["Imaging"],
        ["PDFsharp"] = ["Print"],
        ["QRCoder"] = ["Print"],
        ["Microsoft.EntityFrameworkCore"] = ["Store", "Store.Sqlite"],
        ["Spectre"] = ["Cli"],
    };

    public static TheoryData<string> Projects() => [.. Names()];

    [Theory, MemberData(nameof(Projects))]
    public void A_project_references_only_what_the_plan_allows(string name)
    {
        var allowed = Allowed(name);
        var unplanned = References(name).Except(allowed).ToList();
        Assert.True(
            unplanned.Count == 0,
            $"{name} must not reference {string.Join(", ", unplanned)}; allowed: {string.Join(", ", allowed)}."
        );
    }

    [Theory, MemberData(nameof(Projects))]
    public void A_foreign_library_stays_in_its_room(string name)
    {
        var packages = Read(name).Descendants("PackageReference").Select(reference => (string)reference.Attribute("Include")!);
        foreach (var package in packages)
        {
            foreach (var (prefix, rooms) in Fenced)
            {
                if (package.StartsWith(prefix, StringComparison.Ordinal))
                    Assert.True(rooms.Contains(name), $"{package} belongs in {string.Join(" or ", rooms)}, not in {name}.");
            }
        }
    }

    [Fact]
    public void The_rule_has_teeth()
    {
        Assert.DoesNotContain("Making", Allowed("Readings"));
        Assert.DoesNotContain("Notebook", Allowed("Colour"));
        Assert.DoesNotContain("Print", Allowed("Imaging"));
        Assert.DoesNotContain("Notebook", Allowed("Response"));
        Assert.DoesNotContain("Response", Allowed("Making"));
        Assert.DoesNotContain("Response", Allowed("Notebook"));
    }

    [Theory]
    [InlineData("Numerics")]
    [InlineData("Quantities")]
    [InlineData("Colour")]
    [InlineData("Chemistry")]
    [InlineData("Safety")]
    [InlineData("Readings")]
    [InlineData("Pots")]
    [InlineData("Notebook")]
    [InlineData("Response")]
    [InlineData("Making")]
    public void Calculating_rooms_touch_no_file_clock_or_network(string name)
    {
        var forbidden = new Regex(
            @"\b(File|Directory|FileStream|HttpClient|Socket|Console|Environment|Thread)\.|\bTimeProvider\.System\b|\bStopwatch\b",
            RegexOptions.CultureInvariant | RegexOptions.ExplicitCapture,
            TimeSpan.FromSeconds(5)
        );
        foreach (var file in Sources(name))
        {
            foreach (var (line, number) in File.ReadLines(file).Select((line, index) => (line, index + 1)))
            {
                var code = line.Split("//")[0];
                Assert.False(
                    forbidden.IsMatch(code),
                    $"{Path.GetFileName(file)}, line {number}: a pure room must not use “{code.Trim()}”."
                );
            }
        }
    }

    private static string[] Allowed(string name)
    {
        if (name is "Numerics")
            return [];
        if (name is "Quantities")
            return ["Numerics"];
        if (name is "Response")
            return Response;
        if (name is "Safety")
            return ["Numerics"];
        if (name is "Chemistry")
            return ["Numerics", "Quantities", "Safety"];
        if (Ground.Contains(name))
            return ["Numerics", "Quantities"];
        var place = Array.IndexOf(RoomsInOrder, name);
        if (place >= 0)
            return [.. Ground, .. RoomsInOrder.Take(place)];
        if (Edges.TryGetValue(name, out var edge))
            return edge;
        return name switch
        {
            "Workshop" => [.. Ground, .. RoomsInOrder, "Response", .. Edges.Keys],
            "Web" => ["Workshop"],
            "Cli" => ["Web", "Workshop"],
            _ => throw new Xunit.Sdk.XunitException($"The plan does not know {name}: add it to docs/architecture.md and to this test."),
        };
    }

    private static IEnumerable<string> Names() =>
        Directory.GetDirectories(Repository.PathOf("src")).Select(folder => Path.GetFileName(folder)["Dyewort.".Length..]).Order();

    private static XDocument Read(string name) => XDocument.Load(Repository.PathOf("src", $"Dyewort.{name}", $"Dyewort.{name}.csproj"));

    private static IEnumerable<string> References(string name) =>
        Read(name)
            .Descendants("ProjectReference")
            .Select(reference =>
                Path.GetFileNameWithoutExtension(((string)reference.Attribute("Include")!).Replace('\\', '/'))["Dyewort.".Length..]
            );

    private static IEnumerable<string> Sources(string name) =>
        Directory.EnumerateFiles(Repository.PathOf("src", $"Dyewort.{name}"), "*.cs", SearchOption.AllDirectories);
}

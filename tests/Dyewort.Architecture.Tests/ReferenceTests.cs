using System.Reflection.Metadata;
using System.Reflection.PortableExecutable;
using System.Text.Json;
using System.Text.RegularExpressions;
using System.Xml.Linq;
using Dyewort.Testing;
using Xunit;

namespace Dyewort.Architecture.Tests;

/// <summary>A reference that nothing uses is a door nobody knows why it is open: what the compiler recorded says which are used.</summary>
public sealed partial class ReferenceTests
{
    /// <summary>Packages without which nothing works though no code names them.</summary>
    private static readonly Dictionary<string, string> NamedByNoCode = new()
    {
        ["Microsoft.EntityFrameworkCore.Design"] = "makes the migrations at the developer's desk",
    };

    public static TheoryData<string> Projects() =>
        [.. Directory.GetDirectories(Repository.PathOf("src")).Select(folder => Path.GetFileName(folder)["Dyewort.".Length..]).Order()];

    [Theory, MemberData(nameof(Projects))]
    public void Every_project_reference_is_used(string name)
    {
        var unused = Unused(References(name, "ProjectReference").Select(one => $"Dyewort.{NameOf(one)}"), Compiled(name), one => [one]);
        Assert.True(unused.Count == 0, $"{name} references {string.Join(", ", unused)} and uses nothing of it: take it out.");
    }

    [Theory, MemberData(nameof(Projects))]
    public void Every_package_is_used(string name)
    {
        var provided = Provided(name);
        var packages = References(name, "PackageReference").Where(one => !NamedByNoCode.ContainsKey(one) && provided[one].Length > 0);
        var unused = Unused(packages, Compiled(name), one => provided[one]);
        Assert.True(unused.Count == 0, $"{name} references {string.Join(", ", unused)} and uses nothing of it: take it out.");
    }

    [Fact]
    public void The_rule_has_teeth()
    {
        // Cli reaches the database library through others and has never used it.
        Assert.Equal(["Dyewort.Store"], Unused(["Dyewort.Store", "Dyewort.Web"], Compiled("Cli"), one => [one]));
        Assert.Equal(["PDFsharp"], Unused(["PDFsharp"], Compiled("Imaging"), _ => Provided("Print")["PDFsharp"]));
        Assert.Contains("PdfSharp", Provided("Print")["PDFsharp"]);
        Assert.Empty(Provided("Imaging")["SkiaSharp.NativeAssets.Win32"]);
    }

    [Fact]
    public void The_map_draws_the_references()
    {
        var map = File.ReadAllText(Repository.PathOf("docs", "architecture.md"));
        var drawn = Drawing()
            .Matches(map)
            .ToDictionary(
                line => line.Groups["name"].Value,
                line => line.Groups["uses"].Value.Split(", ", StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries)
            );
        foreach (var name in Projects().Select(row => row.Data))
        {
            Assert.True(drawn.ContainsKey(name), $"docs/architecture.md draws no line for {name}.");
            var references = References(name, "ProjectReference").Select(NameOf).Order();
            Assert.True(
                references.SequenceEqual(drawn[name].Order()),
                $"docs/architecture.md draws {name} → {string.Join(", ", drawn[name])}; the project references "
                    + $"{string.Join(", ", references)}."
            );
        }
    }

    private static List<string> Unused(
        IEnumerable<string> references,
        HashSet<string> compiled,
        Func<string, IEnumerable<string>> assemblies
    ) => [.. references.Where(one => !assemblies(one).Any(compiled.Contains))];

    private static string NameOf(string path) => Path.GetFileNameWithoutExtension(path.Replace('\\', '/'))["Dyewort.".Length..];

    private static IEnumerable<string> References(string name, string kind) =>
        XDocument
            .Load(Repository.PathOf("src", $"Dyewort.{name}", $"Dyewort.{name}.csproj"))
            .Descendants(kind)
            .Select(reference => (string)reference.Attribute("Include")!);

    /// <summary>The assemblies that a compiled project names; the compiler records only those it used.</summary>
    private static HashSet<string> Compiled(string name)
    {
        using var file = File.OpenRead(Path.Combine(AppContext.BaseDirectory, name == "Cli" ? "dyewort.dll" : $"Dyewort.{name}.dll"));
        using var image = new PEReader(file);
        var metadata = image.GetMetadataReader();
        return [.. metadata.AssemblyReferences.Select(handle => metadata.GetString(metadata.GetAssemblyReference(handle).Name))];
    }

    /// <summary>The assemblies that each package of a project gives the compiler, as the restore noted them; none for native
    /// parts.</summary>
    private static Dictionary<string, string[]> Provided(string name)
    {
        var path = Repository.PathOf("artifacts", "obj", $"Dyewort.{name}", "project.assets.json");
        using var assets = JsonDocument.Parse(File.ReadAllText(path));
        var target = assets.RootElement.GetProperty("targets").EnumerateObject().First().Value;
        return target
            .EnumerateObject()
            .ToDictionary(
                package => package.Name.Split('/')[0],
                package =>
                    package.Value.TryGetProperty("compile", out var files)
                        ? files
                            .EnumerateObject()
                            .Where(one => one.Name.EndsWith(".dll", StringComparison.Ordinal))
                            .Select(one => Path.GetFileNameWithoutExtension(one.Name))
                            .ToArray()
                        : []
            );
    }

    [GeneratedRegex(
        @"^(ground|rooms|edges|desk|hosts)? +(?<name>[A-Z]\w*(\.\w+)?)( +→ (?<uses>[A-Z][\w., ]*?))?(  +.*)?$",
        RegexOptions.ExplicitCapture | RegexOptions.Multiline
    )]
    private static partial Regex Drawing();
}

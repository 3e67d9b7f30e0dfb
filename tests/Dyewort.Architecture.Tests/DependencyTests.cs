using ArchUnitNET.Loader;
using ArchUnitNET.xUnitV3;
using Xunit;
using static ArchUnitNET.Fluent.ArchRuleDefinition;
using Assembly = System.Reflection.Assembly;

namespace Dyewort.Architecture.Tests;

/// <summary>What the compiler lets through because references are inherited: a page could reach the database library. This test says
/// no.</summary>
public sealed class DependencyTests
{
    private static readonly ArchUnitNET.Domain.Architecture Code = new ArchLoader()
        .LoadAssemblies([
            .. Directory
                .GetFiles(AppContext.BaseDirectory, "Dyewort.*.dll")
                .Where(file => !file.Contains(".Tests", StringComparison.Ordinal) && !file.Contains(".Testing", StringComparison.Ordinal))
                .Append(Path.Combine(AppContext.BaseDirectory, "dyewort.dll"))
                .Select(Assembly.LoadFrom),
        ])
        .Build();

    [Theory]
    [InlineData("Microsoft.EntityFrameworkCore", @"Dyewort\.Store")]
    [InlineData("SkiaSharp", @"Dyewort\.Imaging")]
    [InlineData("ImageMagick", @"Dyewort\.Imaging")]
    [InlineData("PdfSharp", @"Dyewort\.Print")]
    [InlineData("QRCoder", @"Dyewort\.Print")]
    [InlineData("Spectre.Console", @"Dyewort\.Cli")]
    public void A_foreign_library_is_used_in_one_room_only(string library, string room) =>
        Types()
            .That()
            .ResideInNamespaceMatching(@"^Dyewort\.")
            .And()
            .DoNotResideInNamespaceMatching($"^{room}")
            .Should()
            .NotDependOnAnyTypesThat()
            .ResideInNamespaceMatching($"^{library.Replace(".", @"\.", StringComparison.Ordinal)}")
            .Because("each foreign library is fenced in one place")
            .WithoutRequiringPositiveResults()
            .Check(Code);

    [Theory]
    [InlineData(@"Dyewort\.Imaging", @"Dyewort\.(Print|Store)")]
    [InlineData(@"Dyewort\.Print", @"Dyewort\.(Imaging|Store)")]
    [InlineData(@"Dyewort\.Store", @"Dyewort\.(Imaging|Print)")]
    [InlineData(@"Dyewort\.(Web|Cli)", @"Dyewort\.Store\.Sqlite")]
    [InlineData(@"Dyewort\.Workshop", @"Dyewort\.(Web|Cli)")]
    public void A_room_does_not_look_where_it_must_not(string room, string forbidden) =>
        Types()
            .That()
            .ResideInNamespaceMatching($"^{room}")
            .Should()
            .NotDependOnAnyTypesThat()
            .ResideInNamespaceMatching($"^{forbidden}")
            .Because("data flows photo → reading → swatch → response → plan → batch → bottle → label")
            .WithoutRequiringPositiveResults()
            .Check(Code);

    [Fact]
    public void The_rule_has_teeth() =>
        Assert.Throws<FailedArchRuleException>(() => A_foreign_library_is_used_in_one_room_only("Spectre.Console", @"Dyewort\.Nowhere"));
}

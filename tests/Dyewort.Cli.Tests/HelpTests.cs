using Dyewort.Testing;
using Xunit;

namespace Dyewort.Cli.Tests;

/// <summary>What every command says about itself, word for word as it was approved.</summary>
public sealed class HelpTests
{
    private static readonly string[] Approved = ["tests", "Dyewort.Cli.Tests", "Approved", "Help"];

    public static TheoryData<string> Commands() => [.. CommandLine.All.Select(one => one.Words)];

    [Theory, MemberData(nameof(Commands))]
    public void Help_is_what_was_approved(string command)
    {
        var (code, output, error) = CommandLine.Run([.. command.Split(' ', StringSplitOptions.RemoveEmptyEntries), "--help"]);
        Assert.Equal((0, ""), (code, error));
        Assert.Contains("USAGE:", output, StringComparison.Ordinal);
        Golden.Check(output, [.. Approved, FileName(command)]);
    }

    [Fact]
    public void No_text_is_kept_for_a_command_that_is_gone() =>
        Assert.Equal(
            CommandLine.All.Select(one => FileName(one.Words)).Order(StringComparer.Ordinal),
            Directory.GetFiles(Repository.PathOf(Approved), "*.txt").Select(Path.GetFileName).Order(StringComparer.Ordinal)
        );

    [Fact]
    public void The_program_itself_says_the_same()
    {
        var (code, output, error) = Tool.Run(
            "dotnet",
            [Path.Combine(AppContext.BaseDirectory, "dyewort.dll"), "read", "--help"],
            TimeSpan.FromSeconds(60)
        );
        Assert.Equal((0, ""), (code, error));
        Assert.Contains("""[{"id":"s1","polygonPx":[[x,y],…]}]""", output.ReplaceLineEndings(""), StringComparison.Ordinal);
    }

    private static string FileName(string command) => command.Length == 0 ? "dyewort.txt" : $"{command.Replace(' ', '-')}.txt";
}

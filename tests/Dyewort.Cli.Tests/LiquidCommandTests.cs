using System.Text.Json;
using Dyewort.Testing;
using Xunit;

namespace Dyewort.Cli.Tests;

/// <summary>The liquid command as a maker runs it, in a process of its own.</summary>
public sealed class LiquidCommandTests
{
    private static (int ExitCode, string Output, string Error) Run(params string[] arguments) =>
        Tool.Run("dotnet", [Path.Combine(AppContext.BaseDirectory, "dyewort.dll"), .. arguments], TimeSpan.FromSeconds(60));

    [Fact]
    public void A_quarter_spoon_of_bicarbonate_answers_on_stdout_and_nothing_else()
    {
        var (code, output, error) = Run(
            "liquid",
            "--volume",
            "90ml",
            "--add",
            "bicarbonate of soda=1/4 tsp",
            "--temperature",
            "20",
            "--json"
        );
        Assert.Equal((0, ""), (code, error));
        using var answer = JsonDocument.Parse(output);
        Assert.Equal(8.134, answer.RootElement.GetProperty("pHSealed").GetDouble(), 0.005);
        Assert.Equal("bicarbonate of soda", answer.RootElement.GetProperty("dissolved")[0].GetProperty("name").GetString());
    }

    [Fact]
    public void In_words_it_starts_with_the_pH_and_its_interval()
    {
        var (code, output, error) = Run(
            "liquid",
            "--volume",
            "90ml",
            "--liquor",
            "hibiscus",
            "--add",
            "alum=1/4 tsp",
            "--add",
            "chalk=1/8 tsp"
        );
        Assert.Equal((0, ""), (code, error));
        Assert.StartsWith("pH ", output, StringComparison.Ordinal);
        Assert.Contains("Look out:", output, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("alum=1/4 tsp", "volume")]
    [InlineData("--volume 90ml moonshine=1 tsp", "not in the cupboard")]
    [InlineData("--volume 90ml alum=some", "is not")]
    public void Bad_input_gets_a_clear_line_and_exit_2(string typed, string part)
    {
        var words = typed.Split(' ', 3);
        var (code, output, error) =
            words[0] == "--volume" ? Run("liquid", words[0], words[1], "--add", words[2]) : Run("liquid", "--add", typed);
        Assert.Equal((2, ""), (code, output));
        Assert.Contains(part, error, StringComparison.Ordinal);
        Assert.Single(error.Trim().Split('\n'));
    }
}

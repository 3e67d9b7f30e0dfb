using System.Text.Json;
using Dyewort.Testing;
using Xunit;

namespace Dyewort.Cli.Tests;

/// <summary>The commands with the notebook as the source of their trials, in the shapes that a file gives.</summary>
public sealed class NotebookCommandTests(MadeNotebook made) : IClassFixture<MadeNotebook>
{
    private (int ExitCode, string Output, string Error) Run(params string[] arguments) =>
        CommandLine.Run([.. arguments, "--notebook", made.Folder]);

    private JsonElement Json(params string[] arguments)
    {
        var (code, output, error) = Run([.. arguments, "--json"]);
        Assert.True(code == 0, error);
        return JsonDocument.Parse(output).RootElement;
    }

    [Fact]
    public void Predict_takes_the_usual_paper_and_state_where_the_columns_are_empty()
    {
        var points = Path.Combine(made.Folder, "points.csv");
        File.WriteAllText(points, "sample,plant,alum g/L\nX,black bean,5\n");
        var one = Json("predict", "--at", points)[0];
        Assert.Equal("X", one.GetProperty("sample").GetString());
        Assert.False(one.GetProperty("extrapolating").GetBoolean(), one.ToString());
        Assert.Equal(3, one.GetProperty("lab").GetArrayLength());
    }

    [Fact]
    public void Match_answers_best_first_and_offers_no_wash_of_next_to_no_water()
    {
        var ways = Json("match", "#6a7390").EnumerateArray().ToList();
        Assert.All(ways, way => Assert.Contains(way.GetProperty("kind").GetString(), new[] { "asIs", "dose", "wash", "mix" }));
        Assert.All(
            ways.Where(way => way.GetProperty("kind").GetString() == "wash"),
            way => Assert.True(way.GetProperty("wash").GetDouble() < 0.96)
        );
        Assert.All(ways, way => Assert.InRange(way.GetProperty("chanceWithinJustVisible").GetDouble(), 0, 1));
    }

    [Fact]
    public void Samples_are_mixed_by_their_codes_on_their_own_paper()
    {
        var mixed = Json("mix", "BB25-1 A1=1", "BB25-1 A3=1");
        var l = mixed.GetProperty("lab")[0].GetDouble();
        Assert.InRange(l, 5, 95);
        Assert.False(mixed.GetProperty("paper").GetProperty("guessed").GetBoolean());
        var (code, _, error) = Run("mix", "BB25-1 Z9=1", "#d9b94a=1");
        Assert.Equal(2, code);
        Assert.Contains("Z9", error, StringComparison.Ordinal);
    }

    [Fact]
    public void A_trial_is_planned_and_bottles_are_chosen()
    {
        Assert.Equal(2, Json("plan", "--next", "2").GetProperty("samples").GetArrayLength());
        var chosen = Json("choose", "3");
        Assert.Equal(3, chosen.GetProperty("chosen").GetArrayLength());
        Assert.True(chosen.GetProperty("smallestDe00").GetDouble() > 0);
        Assert.StartsWith("BB25-1 ", chosen.GetProperty("chosen")[0].GetString(), StringComparison.Ordinal);
    }

    [Fact]
    public void At_the_bench_the_pantrys_own_spoon_counts()
    {
        var step = Json("bench", "step", "alum=1/4 tsp", "--volume", "20ml", "--jar", "BB25-1 A1");
        Assert.InRange(step.GetProperty("stepGPerL").GetDouble(), 10, 80);
        Assert.Equal(JsonValueKind.Array, Json("bench", "slips").ValueKind);
        Assert.Equal(
            "really",
            Json("bench", "repeats", "--first", "BB25-1 A1", "--second", "BB25-1 A3").GetProperty("verdict").GetString()
        );
        Assert.Equal(36, Json("bench", "reach").GetProperty("outline").GetArrayLength());
        Assert.NotEqual(
            0,
            Json("bench", "correct", "--recipe", "BB25-1 A1", "--measured", "60,0,0", "--volume", "100ml")
                .GetProperty("ranked")
                .GetArrayLength()
        );
    }

    [Fact]
    public void A_groups_name_alone_shows_what_is_in_it()
    {
        var (code, output, _) = Tool.Run(
            "dotnet",
            [Path.Combine(AppContext.BaseDirectory, "dyewort.dll"), "colour"],
            TimeSpan.FromSeconds(60)
        );
        Assert.Equal(0, code);
        Assert.Contains("difference", output, StringComparison.Ordinal);
    }

    [Fact]
    public void More_alum_does_nothing_where_no_more_dissolves()
    {
        var (code, output, error) = Run("bench", "step", "alum=200 g", "--volume", "200ml", "--in", "alum=150 g");
        Assert.True(code == 0, error);
        Assert.Contains("no longer dissolves", output, StringComparison.Ordinal);
    }
}

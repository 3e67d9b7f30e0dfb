using System.Globalization;
using System.Text.Json;
using Dyewort.Testing.Photos;
using Xunit;

namespace Dyewort.Cli.Tests;

/// <summary>The commands that work from a table of trials.</summary>
public sealed class TrialCommandTests(BenchFolder bench)
{
    private (int ExitCode, string Output, string Error) Run(params string[] arguments) => bench.Run(arguments);

    private static JsonElement Json(string output) => JsonDocument.Parse(output).RootElement;

    [Fact]
    public void Predict_answers_in_the_agreed_shape_and_names_the_unknown_column_aside()
    {
        var (code, output, error) = Run("predict", "--trials", "trials.csv", "--at", "points.csv", "--json");
        Assert.True(code == 0, error);
        Assert.Contains("mood", error, StringComparison.Ordinal);
        var answer = Json(output);
        Assert.Equal("P1", answer[0].GetProperty("sample").GetString());
        Assert.Equal(3, answer[0].GetProperty("lab").GetArrayLength());
        Assert.False(answer[0].GetProperty("extrapolating").GetBoolean());
        Assert.True(answer[1].GetProperty("extrapolating").GetBoolean());
        Assert.True(answer[1].GetProperty("uncertaintyDe00").GetDouble() > answer[0].GetProperty("uncertaintyDe00").GetDouble());
    }

    [Fact]
    public void Match_proposes_ways_best_first()
    {
        var (code, output, error) = Run("match", "lab(45 20 -15)", "--trials", "trials.csv", "--json");
        Assert.True(code == 0, error);
        var off = Json(output).EnumerateArray().Select(one => one.GetProperty("expectedDe00").GetDouble()).ToArray();
        Assert.NotEmpty(off);
        Assert.True(off[0] <= off.Min() + 0.2);
        Assert.All(
            Json(output).EnumerateArray(),
            one => Assert.Contains(one.GetProperty("kind").GetString(), new[] { "asIs", "dose", "wash", "mix" })
        );
    }

    [Fact]
    public void A_photo_of_a_thread_says_what_is_wanted()
    {
        // 96 × 96 pixels: white paper all around, a thread's colour in the middle.
        File.WriteAllBytes(
            bench.PathOf("thread.png"),
            PngFile.Of(96, 96, 3, (x, y) => x is > 28 and < 67 && y is > 28 and < 67 ? [0x5b, 0x3f, 0x7a] : [235, 235, 232])
        );
        var (code, output, error) = Run("match", "--photo", "thread.png", "--trials", "trials.csv", "--json");
        Assert.True(code == 0, error);
        Assert.Contains("as the camera saw it: 32.", error, StringComparison.Ordinal);
        Assert.NotEqual(0, Json(output).GetArrayLength());
        (code, _, error) = Run("match", "--photo", "thread.png", "--paper-around", "--trials", "trials.csv", "--json");
        Assert.True(code == 0, error);
        Assert.Contains("reckoned against the paper", error, StringComparison.Ordinal);
    }

    [Fact]
    public void A_design_before_any_trial_writes_tags_a_sheet_and_its_layout()
    {
        var (code, output, error) = Run(
            "plan",
            "--design",
            "alum,copperas",
            "--count",
            "7",
            "--sample",
            "100ml",
            "--left",
            "650ml",
            "--spoon",
            "1/8 tsp",
            "--spoon",
            "copperas=0.1 g",
            "--limit",
            "copperas=2",
            "--trials",
            "trials.csv",
            "--tags",
            "tags.pdf",
            "--sheet",
            "design.pdf",
            "--layout",
            "design.json",
            "--json"
        );
        Assert.True(code == 0, error);
        var samples = Json(output).GetProperty("samples").EnumerateArray().ToList();
        Assert.Equal(6, samples.Count);
        Assert.Contains("fills 6 samples", error, StringComparison.Ordinal);
        foreach (
            var addition in samples
                .SelectMany(sample => sample.GetProperty("additions").EnumerateArray())
                .Where(one => one.GetProperty("name").GetString() == "copperas")
        )
            Assert.InRange(addition.GetProperty("grams").GetDouble(), 0.1, 0.2001);
        Assert.StartsWith("%PDF", File.ReadAllText(bench.PathOf("tags.pdf"))[..4], StringComparison.Ordinal);
        Assert.StartsWith("%PDF", File.ReadAllText(bench.PathOf("design.pdf"))[..4], StringComparison.Ordinal);
        Assert.Equal(6, Json(File.ReadAllText(bench.PathOf("design.json"))).GetProperty("cells").GetArrayLength());
    }

    [Fact]
    public void The_next_samples_lessen_the_doubt()
    {
        var (code, output, error) = Run("plan", "--next", "3", "--trials", "trials.csv", "--json");
        Assert.True(code == 0, error);
        Assert.Equal(3, Json(output).GetProperty("samples").GetArrayLength());
        Assert.True(Json(output).GetProperty("doubtAfterDe00").GetDouble() < Json(output).GetProperty("doubtBeforeDe00").GetDouble());
    }

    [Fact]
    public void The_ladder_keeps_its_shape()
    {
        var (code, output, error) = Run("plan", "--trials", "trials.csv", "--ladder", "alum", "--steps", "5", "--json");
        Assert.True(code == 0, error);
        Assert.Equal(0, Json(output)[0].GetProperty("amounts").GetProperty("alum").GetDouble());
        Assert.Equal(20, Json(output)[4].GetProperty("amounts").GetProperty("alum").GetDouble(), 1e-6);
    }

    [Fact]
    public void The_next_spoon_is_foretold_in_words_and_figures()
    {
        var (code, output, error) = Run("bench", "step", "alum=1/4 tsp", "--volume", "90ml", "--trials", "trials.csv");
        Assert.True(code == 0, error);
        Assert.Contains("ΔE00", output, StringComparison.Ordinal);
        (code, output, error) = Run(
            "bench",
            "step",
            "copperas=0.05 g",
            "--volume",
            "90ml",
            "--jar",
            "E8",
            "--trials",
            "trials.csv",
            "--json"
        );
        Assert.True(code == 0, error);
        Assert.InRange(Json(output).GetProperty("chanceSeen").GetDouble(), 0, 1);
        Assert.Equal(0.5556, Json(output).GetProperty("stepGPerL").GetDouble(), 1e-3);
    }

    [Fact]
    public void A_batch_short_of_iron_is_told_to_take_iron()
    {
        // The batch looks as E6 (0.3 g/L) where the recipe is E7 (1 g/L).
        var (code, output, error) = Run(
            "bench",
            "correct",
            "--recipe",
            "E7",
            "--measured",
            "E6",
            "--volume",
            "500ml",
            "--in",
            "copperas=0.15 g",
            "--trials",
            "trials.csv",
            "--json"
        );
        Assert.True(code == 0, error);
        var best = Json(output).GetProperty("ranked")[0];
        Assert.Equal("add", best.GetProperty("kind").GetString());
        Assert.InRange(best.GetProperty("addGrams").GetProperty("copperas").GetDouble(), 0.2, 0.55);
        Assert.Contains("Try it on a spoonful first", Json(output).GetProperty("advice").GetString(), StringComparison.Ordinal);
        Assert.Contains("copperas", error, StringComparison.Ordinal);
    }

    [Fact]
    public void Repeats_slips_and_reach_answer()
    {
        var (code, output, error) = Run("bench", "repeats", "--first", "E0", "--second", "E8", "--trials", "trials.csv", "--json");
        Assert.True(code == 0, error);
        Assert.Equal("really", Json(output).GetProperty("verdict").GetString());
        (code, output, error) = Run("bench", "repeats", "--first", "50,10,10", "--second", "51,10,10", "--trials", "trials.csv");
        Assert.True(code == 0, error);
        Assert.Contains("common practice", output, StringComparison.Ordinal);

        (code, output, error) = Run("bench", "slips", "--trials", "trials.csv");
        Assert.True(code == 0, error);
        Assert.Contains("All 16 samples fit", output, StringComparison.Ordinal);

        (code, output, error) = Run("bench", "slips", "--trials", "swapped.csv", "--json");
        Assert.True(code == 0, error);
        var jars = Json(output).EnumerateArray().ToDictionary(jar => jar.GetProperty("sample").GetString()!);
        Assert.Contains("E3", jars.Keys);
        Assert.Contains("E8", jars.Keys);
        Assert.Contains(
            jars["E3"].GetProperty("slips").EnumerateArray(),
            slip => slip.GetProperty("kind").GetString() == "swapped" && slip.GetProperty("other").GetString() == "E8"
        );

        (code, output, error) = Run("bench", "reach", "lab(85 -70 80)", "--trials", "trials.csv", "--json");
        Assert.True(code == 0, error);
        Assert.False(Json(output).GetProperty("nearest").GetProperty("reached").GetBoolean());
        Assert.Equal(36, Json(output).GetProperty("outline").GetArrayLength());
    }

    [Fact]
    public void A_new_harvest_is_boiled_down_to_the_old_strength()
    {
        File.WriteAllText(
            bench.PathOf("harvests.csv"),
            "liquor,L,a,b,wash\nold,45,40,-5,1\nold,61,28,-4,0.5\nnew,61,28,-4,1\nnew,76,15,-2,0.5\n"
        );
        var (code, output, error) = Run("strength", "harvests.csv", "--carry", "800ml", "--dose", "alum=10", "--dose", "citric acid=4");
        Assert.True(code == 0, error);
        Assert.Contains("Boil 800 ml down", output, StringComparison.Ordinal);
        Assert.Contains("go by the recipe's pH", output, StringComparison.Ordinal);
    }

    /// <summary>What was painted once with a thing that has no place in an ink is neither bottled, nor proposed, nor foretold.</summary>
    [Fact]
    public void Nothing_is_proposed_with_what_must_not_be_in_an_ink()
    {
        var table = new System.Text.StringBuilder("sample,plant,pot,alum g/L,bleach g/L,L,a,b\n");
        for (var jar = 0; jar < 8; jar++)
            table.Append(CultureInfo.InvariantCulture, $"S{jar},weld,WE1,{jar},0,{70 + jar},{-4 - jar},{40 + (3 * jar)}\n");
        table.Append("N1,weld,WE1,0,20,95,0,4\nN2,weld,WE1,10,20,94,1,8\n");
        File.WriteAllText(bench.PathOf("never.csv"), table.ToString());
        var (code, output, error) = Run("choose", "4", "--trials", "never.csv", "--json");
        Assert.True(code == 0, error);
        Assert.Contains("2 samples are nothing to bottle", error, StringComparison.Ordinal);
        Assert.DoesNotContain("N1", output, StringComparison.Ordinal);
        (code, output, error) = Run("match", "lab(95 0 4)", "--trials", "never.csv", "--json");
        Assert.True(
            code == 2 ? error.Contains("is not proposed", StringComparison.Ordinal) : !output.Contains("bleach", StringComparison.Ordinal)
        );
        (code, _, error) = Run("bench", "step", "bleach=1 ml", "--volume", "90ml", "--trials", "never.csv");
        Assert.Equal(2, code);
        Assert.Contains("is not foretold", error, StringComparison.Ordinal);
        (code, _, error) = Run("pot", "reduce", "--from", "700ml", "--to", "410ml", "--add", "bleach=14 g", "--add", "alum=2 g");
        Assert.Equal(2, code);
        Assert.Contains("is not boiled down", error, StringComparison.Ordinal);
        (code, _, error) = Run("scale", "90ml: metabisulfite=1 g, white vinegar=1 tbsp", "--to", "1.5L");
        Assert.Equal(2, code);
        Assert.Contains("sulfur dioxide", error, StringComparison.Ordinal);
    }

    [Fact]
    public void Choose_and_mix_answer_in_the_agreed_shape()
    {
        var (code, output, error) = Run("choose", "4", "--trials", "trials.csv", "--json");
        Assert.True(code == 0, error);
        Assert.Equal(4, Json(output).GetProperty("chosen").GetArrayLength());
        Assert.True(Json(output).GetProperty("optimal").GetBoolean());
        (code, output, error) = Run("choose", "2", "--trials", "trials.csv", "--palette", "#5b3f7a", "--palette", "#303030", "--json");
        Assert.True(code == 0, error);
        Assert.True(Json(output).GetProperty("largestDe00").GetDouble() > 0);
        (code, output, error) = Run("choose", "3", "--trials", "pot.csv", "--bottle", "30", "--json");
        Assert.True(code == 0, error);
        Assert.Contains("D", Json(output).GetProperty("chosen").EnumerateArray().Select(one => one.GetString()));
        (code, _, error) = Run("choose", "4", "--trials", "pot.csv", "--bottle", "30");
        Assert.Equal(2, code);
        Assert.Contains("enough for 3", error, StringComparison.Ordinal);
        (code, output, error) = Run("mix", "#5b3f7a=2", "#d9b94a=1", "--wash", "1/4", "--json");
        Assert.True(code == 0, error);
        Assert.Equal(3, Json(output).GetProperty("lab").GetArrayLength());
    }

    [Theory]
    [InlineData("predict|--trials|missing.csv|--at|trials.csv", "There is no file")]
    [InlineData("match|--trials|trials.csv", "No colour was named")]
    [InlineData("match|plaid|--trials|trials.csv", "plaid")]
    [InlineData("match|--photo|nothing.png|--trials|trials.csv", "There is no file")]
    [InlineData("match|#5b3f7a|--volume|0.1 ml|--trials|trials.csv", "0.1 ml cannot be made here")]
    [InlineData("match|#5b3f7a|--paper|silk|--trials|trials.csv", "Nothing was painted on “silk”")]
    [InlineData("plan|--trials|trials.csv", "not said what to plan")]
    [InlineData("plan|--trials|trials.csv|--ladder|alum|--next|3", "Two kinds of plan")]
    [InlineData("plan|--trials|trials.csv|--ladder|moonshine", "never tested")]
    [InlineData("plan|--trials|trials.csv|--design|alum|--sample|5ml|--left|2ml", "do not fill one sample")]
    [InlineData("plan|--trials|trials.csv|--design|alum|--spoon|a bit", "bit")]
    [InlineData("plan|--trials|trials.csv|--design|bleach,citric acid", "poisonous gas")]
    [InlineData("bench|step|alum|--volume|90ml|--trials|trials.csv", "does not say how much")]
    [InlineData("bench|step|alum=1 g|--trials|trials.csv", "volume is missing")]
    [InlineData("bench|step|moonshine=1 g|--volume|90ml|--trials|trials.csv", "never tested")]
    [InlineData("bench|correct|--recipe|E7|--measured|nothing|--volume|500ml|--trials|trials.csv", "neither a sample")]
    [InlineData("bench|repeats|--first|E7|--trials|trials.csv", "has no reading")]
    [InlineData("bench|slips|--plant|nettle|--trials|trials.csv", "none of")]
    [InlineData("choose|40|--trials|trials.csv", "cannot be chosen")]
    public void Bad_input_gets_a_clear_line_and_exit_2(string typed, string part)
    {
        var (code, output, error) = Run(typed.Split('|'));
        Assert.Equal((2, ""), (code, output));
        Assert.Contains(part, error, StringComparison.Ordinal);
        Assert.DoesNotContain("   at ", error, StringComparison.Ordinal);
    }
}

using System.Text.Json;
using Xunit;

namespace Dyewort.Cli.Tests;

/// <summary>The pot's commands as a maker runs them.</summary>
public sealed class PotCommandTests(BenchFolder bench)
{
    private (int ExitCode, string Output, string Error) Run(params string[] arguments) => bench.Run(arguments);

    private JsonElement Json(params string[] arguments)
    {
        var (code, output, error) = Run([.. arguments, "--json"]);
        Assert.True(code == 0, error);
        return JsonDocument.Parse(output).RootElement.Clone();
    }

    [Fact]
    public void A_pot_is_planned_backwards()
    {
        var plan = Json("pot", "plan", "elderberry", "--bottles", "40", "--fill", "29ml", "--reduce-to", "68", "--pot", "8L");
        Assert.Equal("elderberry", plan.GetProperty("plant").GetString());
        Assert.True(plan.GetProperty("safePlantGrams").GetDouble() > plan.GetProperty("plantGrams").GetProperty("median").GetDouble());
        Assert.Equal(40 * 29, plan.GetProperty("steps")[0].GetProperty("millilitres").GetDouble());
    }

    [Fact]
    public void A_slip_in_a_water_sum_is_found()
    {
        var answer = Json(
            "pot",
            "sums",
            "--in",
            "1500ml",
            "--out",
            "1410ml",
            "--boiled-off",
            "210",
            "--held",
            "150",
            "--plant",
            "75g",
            "--state",
            "dry",
            "--hours",
            "0.75",
            "--heat",
            "1"
        );
        Assert.False(answer.GetProperty("closes").GetBoolean());
        Assert.Contains(
            answer.GetProperty("remarks").EnumerateArray(),
            remark => remark.GetString()!.Contains("1140 ml fits", StringComparison.Ordinal)
        );
    }

    [Fact]
    public void Reducing_restates_doses_and_acidity()
    {
        var answer = Json("pot", "reduce", "--from", "700ml", "--to", "410ml", "--add", "alum=14 g");
        Assert.Equal(2, answer.GetProperty("doses")[0].GetProperty("beforeGramsPer100Millilitres").GetDouble(), 1e-9);
        Assert.Equal(1400.0 / 410, answer.GetProperty("doses")[0].GetProperty("afterGramsPer100Millilitres").GetDouble(), 1e-9);
        Assert.InRange(answer.GetProperty("phAfter").GetDouble(), 2, 7);
        Assert.InRange(answer.GetProperty("minutes").GetDouble(), 20, 120);
    }

    [Fact]
    public void A_curve_says_when_to_stop()
    {
        var (code, output, error) = Run("pot", "curve", "drops.csv", "--class", "anthocyanin", "--temperature", "72");
        Assert.True(code == 0, error);
        Assert.StartsWith("95 % of what you will get was there at", output, StringComparison.Ordinal);
        var answer = Json("pot", "curve", "drops.csv", "--class", "anthocyanin", "--temperature", "72");
        var best = answer.GetProperty("bestMinute");
        Assert.True(best.GetProperty("low").GetDouble() < best.GetProperty("median").GetDouble());
        Assert.Equal(5, answer.GetProperty("drops").GetArrayLength());
    }

    [Fact]
    public void Two_liquors_are_compared_and_their_yield_stated()
    {
        var answer = Json("strength", "liquors.csv", "--paper", "96.1,-0.4,2.6", "--yield", "A=790ml/900g");
        var liquors = answer.GetProperty("liquors");
        Assert.InRange(liquors[1].GetProperty("ratioToFirst").GetDouble(), 0.7, 1);
        var strength = liquors[0].GetProperty("strength").GetProperty("strength").GetDouble();
        Assert.Equal(strength * 790 / 900, liquors[0].GetProperty("unitsPerGram").GetDouble(), 1e-9);
    }

    [Fact]
    public void A_second_run_is_expected()
    {
        var runs = Json("pot", "runs", "--out", "1140ml", "--held", "150ml", "--water", "600ml", "--released", "100");
        Assert.Equal(0.2, runs[0].GetProperty("strength").GetDouble(), 1e-9);
    }

    [Theory]
    [InlineData("pot plan moonweed --liquor 1L", "no ratio for moonweed")]
    [InlineData("pot plan elderberry", "Neither bottles nor liquor")]
    [InlineData("pot sums --plant 5g", "Neither the liquid in")]
    [InlineData("pot reduce --from 700ml", "not clear how far")]
    [InlineData("pot reduce --from 700ml --to 900ml", "not between")]
    [InlineData("pot reduce --from 700ml --to 400ml --add moonsalt=2g", "moonsalt")]
    [InlineData("pot curve missing.csv", "no file")]
    [InlineData("pot runs --out 100ml", "missing")]
    [InlineData("strength missing.csv", "no file")]
    public void Bad_input_gets_a_clear_line_and_exit_2(string arguments, string part)
    {
        var (code, output, error) = Run(arguments.Split(' '));
        Assert.Equal((2, ""), (code, output));
        Assert.Contains(part, error, StringComparison.Ordinal);
        Assert.DoesNotContain("   at ", error, StringComparison.Ordinal);
    }
}

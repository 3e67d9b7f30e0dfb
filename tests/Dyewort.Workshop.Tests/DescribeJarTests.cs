using System.Globalization;
using System.Text.Json;
using Dyewort.Testing;
using Dyewort.Workshop.Chemistry;
using Xunit;

namespace Dyewort.Workshop.Tests;

public sealed class DescribeJarTests
{
    public static TheoryData<string> Ids() => [.. Rows().Select(row => row[0])];

    [Theory, MemberData(nameof(Ids)), Published("Mixtures2026", "pH and solids columns")]
    public void The_answer_for_machines_agrees_with_the_independent_program(string id)
    {
        var row = Rows().Single(one => one[0] == id);
        var answer = Ask("90ml", [.. row[2].Split("; ", StringSplitOptions.RemoveEmptyEntries).Select(Swap)]);
        var (member, plain) = row[3] switch
        {
            "open" => ("pHOpen", "open"),
            "vents" => ("pH", "afterFizzing"),
            _ => ("pHSealed", "held"),
        };
        var independent = double.Parse(row[4], CultureInfo.InvariantCulture);
        Assert.Equal(independent, answer.GetProperty("pHPlainConstants").GetProperty(plain).GetDouble(), 0.01);

        // What is corrected beyond the constants is alum, iron(II) and copper sulfate, all downwards; of all else the headline is the same.
        var isCorrected = new[] { "alum", "iron", "copper" }.Any(metal => row[2].Contains(metal, StringComparison.Ordinal));
        Assert.InRange(answer.GetProperty(member).GetDouble(), independent - (isCorrected ? 1.7 : 0.01), independent + 0.01);
        Assert.InRange(
            answer.GetProperty("pH").GetDouble(),
            answer.GetProperty("pHLow").GetDouble(),
            answer.GetProperty("pHHigh").GetDouble()
        );
        var solids = answer.GetProperty(
            row[3] switch
            {
                "open" => "solidsOpen",
                "vents" => "solids",
                _ => "solidsSealed",
            }
        );
        Assert.Equal(row[6].Length > 0 ? 1 : 0, solids.GetArrayLength());
        if (row[6].Length == 0)
            return;
        var grams = double.Parse(row[6].Split(' ')[1], CultureInfo.InvariantCulture);
        Assert.InRange(solids[0].GetProperty("g").GetDouble(), (grams * 0.98) - 0.0005, (grams * 1.02) + 0.0005);

        static string Swap(string part)
        {
            var words = part.Split(' ', 3);
            return $"{words[2]}={words[0]} {words[1]}";
        }
    }

    [Fact]
    public void The_answer_has_every_member_that_was_promised()
    {
        var answer = Ask("90ml", "bicarbonate of soda=1/4 tsp", "white vinegar 5 %=1 tbsp", "turmeric=1 pinch");
        foreach (var name in (string[])["pH", "pHLow", "pHHigh", "pHSealed", "pHOpen", "ionicStrengthMolPerL", "volumeMl", "gasMl"])
            Assert.Equal(JsonValueKind.Number, answer.GetProperty(name).ValueKind);
        Assert.Equal(105, answer.GetProperty("volumeMl").GetDouble(), 1e-6);
        var dissolved = answer
            .GetProperty("dissolved")
            .EnumerateArray()
            .Single(one => one.GetProperty("name").GetString() == "bicarbonate of soda");
        Assert.Equal(1.15 / 0.105, dissolved.GetProperty("gPerL").GetDouble(), 1e-4);
        Assert.Equal(1.15 / 0.105 / 84.007, dissolved.GetProperty("molPerL").GetDouble(), 1e-5);
        Assert.Contains(
            answer.GetProperty("solids").EnumerateArray(),
            one => one.GetProperty("name").GetString()!.Contains("turmeric", StringComparison.Ordinal)
        );
        Assert.Contains(answer.GetProperty("warnings").EnumerateArray(), one => one.GetProperty("code").GetString() == "foam");
    }

    [Theory]
    [InlineData("90ml", "alum=lots", null, "is not")]
    [InlineData("90ml", "unobtainium=1 g", null, "not in the cupboard")]
    [InlineData("90ml", "alum", null, "not an addition")]
    [InlineData("90ml", "=1 g", null, "not an addition")]
    [InlineData("", "alum=1 g", null, "missing")]
    [InlineData("0 ml", "alum=1 g", null, "cannot be computed")]
    [InlineData("90ml", "alum=1 g", "120", "temperature")]
    [InlineData("90ml", "alum=1 g", "NaN", "temperature")]
    [InlineData("1ml", "caustic soda=50 g", null, "more in this jar than water can hold")]
    public void Bad_input_is_refused_in_a_sentence(string volume, string addition, string? temperature, string says)
    {
        var outcome = new DescribeJar().Handle(
            new()
            {
                Volume = volume,
                Additions = [addition],
                Temperature = temperature,
            }
        );
        Assert.False(outcome.TryGet(out _));
        Assert.Contains(outcome.Problems, problem => problem.What.Contains(says, StringComparison.Ordinal));
    }

    [Theory]
    [InlineData("vinegar=1 tsp", "vinegar in water")]
    [InlineData("bicarbonate of soda=1/4 tsp", "bicarbonate of soda")]
    public void The_ladder_shows_the_pH_its_interval_and_what_it_is_like_without_colour(string addition, string like)
    {
        var words = Handle(new() { Volume = "90ml", Additions = [addition] }).Words;
        var svg = System.Xml.Linq.XElement.Parse(PhLadder.Svg(words));
        var title = svg.Elements().First(element => element.Name.LocalName == "title").Value;
        Assert.Contains(words.Ph.ToString("0.0", CultureInfo.InvariantCulture), title, StringComparison.Ordinal);
        Assert.EndsWith(like, title, StringComparison.Ordinal);
        Assert.All(
            svg.Descendants()
                .SelectMany(element => element.Attributes())
                .Where(attribute => attribute.Name.LocalName is "fill" or "stroke"),
            attribute => Assert.Equal("currentColor", attribute.Value)
        );
    }

    [Fact]
    public void A_reading_before_and_one_after_an_addition_each_make_the_pH_surer()
    {
        var untested = Handle(new() { Volume = "90ml", Liquor = "elderberry" });
        var tested = Handle(
            new()
            {
                Volume = "90ml",
                Liquor = "elderberry",
                LiquorPh = "3.6",
                PhTool = "meter",
            }
        );
        Assert.True(Width(tested) < 0.6 * Width(untested));
        string[] soda = ["bicarbonate of soda=1/16 tsp"];
        var guessed = Handle(
            new()
            {
                Volume = "90ml",
                Liquor = "elderberry",
                LiquorPh = "3.6",
                PhTool = "meter",
                Additions = soda,
            }
        );
        var known = Handle(
            new()
            {
                Volume = "90ml",
                Liquor = "elderberry",
                LiquorPh = "3.6",
                JarPh = "5.0",
                PhTool = "meter",
                Additions = soda,
            }
        );
        Assert.True(Width(known) < 0.6 * Width(guessed));
        Assert.Equal(5.0, known.Words.Ph, 0.2);
        Assert.Contains("more firmly", known.Learnt, StringComparison.Ordinal);
        Assert.Single(known.Words.Steps);

        static double Width(DescribeJarAnswer answer) => answer.Report.PhHigh - answer.Report.PhLow;
    }

    [Fact]
    public void In_a_plant_liquor_cream_of_tartar_and_twice_the_vinegar_act_alike_and_bicarbonate_goes_the_other_way()
    {
        // A fact of the trade (common practice, no source), in the same 90 ml of a plant liquor.
        var plain = Handle(new() { Volume = "90ml", Liquor = "butterfly pea" });
        var tartar = Handle(
            new()
            {
                Volume = "90ml",
                Liquor = "butterfly pea",
                Additions = ["cream of tartar=1/4 tsp"],
            }
        );
        var vinegar = Handle(
            new()
            {
                Volume = "90ml",
                Liquor = "butterfly pea",
                Additions = ["household vinegar=1/2 tsp"],
            }
        );
        var soda = Handle(
            new()
            {
                Volume = "90ml",
                Liquor = "butterfly pea",
                Additions = ["bicarbonate of soda=1/4 tsp"],
            }
        );
        Assert.InRange(
            vinegar.Words.Ph,
            tartar.Report.PhLow - (vinegar.Words.Ph - vinegar.Report.PhLow),
            tartar.Report.PhHigh + (vinegar.Report.PhHigh - vinegar.Words.Ph)
        );
        Assert.True(tartar.Words.PhHigh < plain.Words.Ph && vinegar.Words.PhHigh < plain.Words.Ph);
        Assert.True(soda.Words.PhLow > plain.Words.PhHigh);
    }

    private static DescribeJarAnswer Handle(DescribeJarForm form)
    {
        var outcome = new DescribeJar().Handle(form);
        Assert.True(outcome.TryGet(out var answer), outcome.Problems.Count > 0 ? outcome.Problems[0].What : "");
        return answer;
    }

    private static JsonElement Ask(string volume, params string[] additions) =>
        JsonDocument.Parse(LiquidJson.Write(Handle(new() { Volume = volume, Additions = additions }))).RootElement;

    private static List<string[]> Rows() =>
        [
            .. File.ReadLines(Repository.PathOf("data", "published", "mixtures-independent-program.csv"))
                .Where(line => !line.StartsWith('#'))
                .Skip(1)
                .Select(Cells),
        ];

    private static string[] Cells(string line)
    {
        var cells = new List<string>();
        var cell = new System.Text.StringBuilder();
        var quoted = false;
        foreach (var c in line)
        {
            if (c == '"')
                quoted = !quoted;
            else if (c == ',' && !quoted)
            {
                cells.Add(cell.ToString());
                cell.Clear();
            }
            else
                cell.Append(c);
        }

        cells.Add(cell.ToString());
        return [.. cells];
    }
}

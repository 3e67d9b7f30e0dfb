using Dyewort.Testing;
using Xunit;

namespace Dyewort.Cli.Tests;

/// <summary>Every answer with <c>--json</c> keeps its keys and the kinds of its values: programs of other people read them.</summary>
public sealed class JsonShapeTests(BenchFolder bench)
{
    private static readonly string[] Approved = ["tests", "Dyewort.Cli.Tests", "Approved", "Json"];

    /// <summary>The approved file, and the command with | between its words; names of files are those of <see
    /// cref="BenchFolder"/>.</summary>
    private static readonly (string Name, string Words)[] Answers =
    [
        ("bench-correct", "bench|correct|--recipe|E7|--measured|E6|--volume|500ml|--in|copperas=0.15 g|--trials|trials.csv"),
        ("bench-reach", "bench|reach|lab(85 -70 80)|--trials|trials.csv"),
        ("bench-repeats", "bench|repeats|--first|E0|--second|E8|--trials|trials.csv"),
        ("bench-slips", "bench|slips|--trials|swapped.csv"),
        ("bench-step", "bench|step|copperas=0.05 g|--volume|90ml|--jar|E8|--trials|trials.csv"),
        ("choose", "choose|4|--trials|trials.csv"),
        ("choose-bottles", "choose|3|--trials|pot.csv|--bottle|30"),
        ("choose-palette", "choose|2|--trials|trials.csv|--palette|#5b3f7a|--palette|#303030"),
        ("colour-difference", "colour|difference|#5b3f7a|#604080"),
        ("colour-show", "colour|show|#5b3f7a"),
        ("labels", "labels|bottles.json|--out|labels.pdf"),
        ("liquid", "liquid|--volume|90ml|--liquor|hibiscus|--add|alum=1/4 tsp|--add|chalk=1/4 tsp"),
        ("match", "match|lab(45 20 -15)|--trials|trials.csv"),
        ("mix", "mix|#5b3f7a=2|#d9b94a=1|--wash|1/4"),
        ("mix-samples", "mix|E3=1|E8=1|--trials|trials.csv"),
        ("plan-design", "plan|--design|alum,copperas|--count|7|--trials|trials.csv"),
        ("plan-ladder", "plan|--trials|trials.csv|--ladder|alum|--steps|5"),
        ("plan-next", "plan|--next|3|--trials|trials.csv"),
        ("pot-curve", "pot|curve|drops.csv|--class|anthocyanin|--temperature|72"),
        ("pot-plan", "pot|plan|elderberry|--bottles|40|--fill|29ml|--reduce-to|68|--pot|8L"),
        ("pot-reduce", "pot|reduce|--from|700ml|--to|410ml|--add|alum=14 g"),
        ("pot-runs", "pot|runs|--out|1140ml|--held|150ml|--water|600ml|--released|100"),
        ("pot-sums", "pot|sums|--in|1500ml|--out|1410ml|--boiled-off|210|--held|150|--plant|75g|--state|dry|--hours|0.75|--heat|1"),
        ("predict", "predict|--trials|trials.csv|--at|points.csv"),
        ("read", "read|photo.jpg|--layout|sheet.json|--dries"),
        ("read-folder", "read|photos|--layout|sheet.json"),
        ("read-propose", "read|photo.jpg|--propose|proposed.json"),
        ("scale", "scale|90ml: bicarbonate of soda=1/4 tsp, alum=2g|--to|1.5L"),
        ("sheet", "sheet|--cells|4x6|--page|A5|--out|sheet.pdf"),
        ("strength", "strength|liquors.csv|--paper|96.1,-0.4,2.6|--yield|A=790ml/900g"),
    ];

    public static TheoryData<string, string> Commands()
    {
        var data = new TheoryData<string, string>();
        foreach (var (name, words) in Answers)
            data.Add(name, words);
        return data;
    }

    [Theory, MemberData(nameof(Commands))]
    public void An_answer_has_the_shape_that_was_approved(string name, string words)
    {
        var (code, output, error) = bench.Run([.. words.Split('|'), "--json"]);
        Assert.True(code == 0, error);
        Golden.Check(JsonShape.Of(output), [.. Approved, name + ".txt"]);
    }

    [Fact]
    public void Every_command_with_json_has_an_approved_shape()
    {
        var shown = Answers.Select(one => one.Words.Replace('|', ' ')).ToList();
        Assert.All(
            CommandLine.All.Where(one => one.Json),
            one => Assert.Contains(shown, words => words.StartsWith(one.Words + " ", StringComparison.Ordinal))
        );
        Assert.Equal(
            Answers.Select(one => one.Name + ".txt").Order(StringComparer.Ordinal),
            Directory.GetFiles(Repository.PathOf(Approved), "*.txt").Select(Path.GetFileName).Order(StringComparer.Ordinal)
        );
    }

    [Fact]
    public void A_shape_tells_a_key_that_went_and_a_value_of_another_kind()
    {
        Assert.Equal(
            "answer: list\nanswer[]: object\nanswer[].id: text\nanswer[].lab?: list\nanswer[].lab[]: null or number\n",
            JsonShape.Of("""[{"id":"A1","lab":[1,null]},{"id":"B1"}]""")
        );
        Assert.NotEqual(JsonShape.Of("""{"a":1}"""), JsonShape.Of("""{"a":"1"}"""));
    }
}

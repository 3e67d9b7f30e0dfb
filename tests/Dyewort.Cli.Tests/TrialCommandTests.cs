using System.Globalization;
using System.Text;
using System.Text.Json;
using Dyewort.Response;
using Dyewort.Testing;
using Xunit;

namespace Dyewort.Cli.Tests;

/// <summary>The commands that work from a table of trials, each in a process of its own.</summary>
public sealed class TrialCommandTests : IDisposable
{
    private readonly string folder = Directory.CreateTempSubdirectory("dyewort-trials-").FullName;

    public TrialCommandTests() => File.WriteAllText(Path.Combine(folder, "trials.csv"), Table());

    public void Dispose() => Directory.Delete(folder, recursive: true);

    private (int ExitCode, string Output, string Error) Run(params string[] arguments) =>
        Tool.Run(
            "dotnet",
            [
                Path.Combine(AppContext.BaseDirectory, "dyewort.dll"),
                .. arguments.Select(one =>
                    one.EndsWith(".csv", StringComparison.Ordinal)
                    || one.EndsWith(".pdf", StringComparison.Ordinal)
                    || one == "sheet.json"
                    || one.EndsWith(".png", StringComparison.Ordinal)
                        ? Path.Combine(folder, one)
                        : one
                ),
            ],
            TimeSpan.FromSeconds(120)
        );

    /// <summary>An invented plant: alum and copperas share out its dye, citric acid reddens what is left.</summary>
    private static string Table()
    {
        var film = new Film(Film.GuessedPaper);
        var text = new StringBuilder("sample,plant,alum g/L,copperas g/L,citric acid g/L,pH,wash,paper,state,mood,L,a,b\n");
        (double Alum, double Iron, double Acid)[] jars =
        [
            (0, 0, 0),
            (1, 0, 0),
            (3, 0, 0),
            (8, 0, 0),
            (20, 0, 0),
            (0, 0.1, 0),
            (0, 0.3, 0),
            (0, 1, 0),
            (0, 3, 0),
            (0, 0, 0.5),
            (0, 0, 2),
            (0, 0, 5),
            (3, 0.3, 0),
            (10, 1, 0),
            (3, 0, 2),
            (0, 0.3, 2),
        ];
        for (var i = 0; i < jars.Length; i++)
        {
            var (alum, iron, acid) = jars[i];
            var (a, f) = (alum / 3, iron / 0.25);
            var sum = 1 + a + f;
            var red = acid / (acid + 1);
            double Mix(double free, double acidic, double withAlum, double withIron) =>
                ((((1 - red) * free) + (red * acidic)) + (a * withAlum) + (f * withIron)) / sum;
            var colour = film.ColourOf(new(Mix(0.5, 0.6, 0.4, 1.1), Mix(0.9, 1.4, 1.2, 1.3), Mix(0.4, 0.15, 0.9, 1.2)));
            text.Append(
                CultureInfo.InvariantCulture,
                $"E{i},elder,{alum},{iron},{acid},,1,P1,dry,good,{colour.L:0.00},{colour.A:0.00},{colour.B:0.00}\n"
            );
        }

        return text.ToString();
    }

    private static JsonElement Json(string output) => JsonDocument.Parse(output).RootElement;

    [Fact]
    public void Predict_answers_in_the_agreed_shape_and_names_the_unknown_column_aside()
    {
        File.WriteAllText(
            Path.Combine(folder, "points.csv"),
            "sample,plant,alum g/L,copperas g/L,paper,state\nP1,elder,5,,P1,dry\nP2,elder,60,20,P1,dry\n"
        );
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
            Path.Combine(folder, "thread.png"),
            Png(96, (x, y) => x is > 28 and < 67 && y is > 28 and < 67 ? (0x5b, 0x3f, 0x7a) : (235, 235, 232))
        );
        var (code, output, error) = Run("match", "--photo", "thread.png", "--trials", "trials.csv", "--json");
        Assert.True(code == 0, error);
        Assert.Contains("as the camera saw it: 32.", error, StringComparison.Ordinal);
        Assert.NotEqual(0, Json(output).GetArrayLength());
        (code, _, error) = Run("match", "--photo", "thread.png", "--paper-around", "--trials", "trials.csv", "--json");
        Assert.True(code == 0, error);
        Assert.Contains("reckoned against the paper", error, StringComparison.Ordinal);
    }

    /// <summary>A PNG of 8-bit RGB (ISO/IEC 15948) with one unfiltered row after another.</summary>
    private static byte[] Png(int side, Func<int, int, (int R, int G, int B)> pixel)
    {
        var raw = new MemoryStream();
        for (var y = 0; y < side; y++)
        {
            raw.WriteByte(0);
            for (var x = 0; x < side; x++)
            {
                var (r, g, b) = pixel(x, y);
                raw.Write([(byte)r, (byte)g, (byte)b]);
            }
        }

        var packed = new MemoryStream();
        using (var zlib = new System.IO.Compression.ZLibStream(packed, System.IO.Compression.CompressionLevel.Fastest, leaveOpen: true))
            zlib.Write(raw.ToArray());
        var file = new MemoryStream();
        file.Write([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]);
        void Chunk(string name, byte[] data)
        {
            byte[] body = [.. Encoding.ASCII.GetBytes(name), .. data];
            Span<byte> number = stackalloc byte[4];
            System.Buffers.Binary.BinaryPrimitives.WriteInt32BigEndian(number, data.Length);
            file.Write(number);
            file.Write(body);
            var crc = 0xffffffffu;
            foreach (var one in body)
            {
                crc ^= one;
                for (var bit = 0; bit < 8; bit++)
                    crc = (crc & 1) == 1 ? (crc >> 1) ^ 0xedb88320u : crc >> 1;
            }

            System.Buffers.Binary.BinaryPrimitives.WriteUInt32BigEndian(number, crc ^ 0xffffffffu);
            file.Write(number);
        }

        Chunk("IHDR", [0, 0, 0, (byte)side, 0, 0, 0, (byte)side, 8, 2, 0, 0, 0]);
        Chunk("IDAT", packed.ToArray());
        Chunk("IEND", []);
        return file.ToArray();
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
            "sheet.pdf",
            "--layout",
            "sheet.json",
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
        Assert.StartsWith("%PDF", File.ReadAllText(Path.Combine(folder, "tags.pdf"))[..4], StringComparison.Ordinal);
        Assert.StartsWith("%PDF", File.ReadAllText(Path.Combine(folder, "sheet.pdf"))[..4], StringComparison.Ordinal);
        Assert.Equal(6, Json(File.ReadAllText(Path.Combine(folder, "sheet.json"))).GetProperty("cells").GetArrayLength());
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

        // E3 and E8 exchanged on the sheet: the lines keep what was typed, the colours change places.
        var lines = File.ReadAllLines(Path.Combine(folder, "trials.csv"));
        string Colour(string line) => string.Join(',', line.Split(',')[^3..]);
        string Typed(string line) => string.Join(',', line.Split(',')[..^3]);
        (lines[4], lines[9]) = ($"{Typed(lines[4])},{Colour(lines[9])}", $"{Typed(lines[9])},{Colour(lines[4])}");
        File.WriteAllLines(Path.Combine(folder, "swapped.csv"), lines);
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
            Path.Combine(folder, "drops.csv"),
            "liquor,L,a,b,wash\nold,45,40,-5,1\nold,61,28,-4,0.5\nnew,61,28,-4,1\nnew,76,15,-2,0.5\n"
        );
        var (code, output, error) = Run("strength", "drops.csv", "--carry", "800ml", "--dose", "alum=10", "--dose", "citric acid=4");
        Assert.True(code == 0, error);
        Assert.Contains("Boil 800 ml down", output, StringComparison.Ordinal);
        Assert.Contains("go by the recipe's pH", output, StringComparison.Ordinal);
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
        File.WriteAllText(
            Path.Combine(folder, "pot.csv"),
            "sample,plant,pot,left ml,L,a,b\nA,elder,EB1,70,30,10,-10\nB,elder,EB1,70,60,20,-5\nC,elder,EB1,70,80,5,20\nD,weld,WE1,300,85,-5,60\n"
        );
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
    [InlineData("plan|--trials|trials.csv", "not said what to plan")]
    [InlineData("plan|--trials|trials.csv|--ladder|alum|--next|3", "Two kinds of plan")]
    [InlineData("plan|--trials|trials.csv|--ladder|moonshine", "never tested")]
    [InlineData("plan|--trials|trials.csv|--design|alum|--sample|5ml|--left|2ml", "do not fill one sample")]
    [InlineData("plan|--trials|trials.csv|--design|alum|--spoon|a bit", "bit")]
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

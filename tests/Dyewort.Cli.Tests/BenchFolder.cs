using System.Collections.Concurrent;
using System.Globalization;
using System.Text;
using Dyewort.Response;
using Dyewort.Testing.Photos;

[assembly: Xunit.AssemblyFixture(typeof(Dyewort.Cli.Tests.BenchFolder))]

namespace Dyewort.Cli.Tests;

/// <summary>A folder with the files that a maker would hand to the commands, one for all tests.</summary>
public sealed class BenchFolder : IDisposable
{
    private static readonly string[] Endings = [".csv", ".pdf", ".json", ".png", ".jpg"];

    private readonly ConcurrentDictionary<string, Lazy<(int ExitCode, string Output, string Error)>> said = new(StringComparer.Ordinal);

    public BenchFolder()
    {
        Write("trials.csv", Elder());

        // E3 and E8 exchanged on the sheet: the lines keep what was typed, the colours change places.
        var lines = Elder().Split('\n', StringSplitOptions.RemoveEmptyEntries);
        string Colour(string line) => string.Join(',', line.Split(',')[^3..]);
        string Typed(string line) => string.Join(',', line.Split(',')[..^3]);
        (lines[4], lines[9]) = ($"{Typed(lines[4])},{Colour(lines[9])}", $"{Typed(lines[9])},{Colour(lines[4])}");
        Write("swapped.csv", string.Join('\n', lines));
        Write("points.csv", "sample,plant,alum g/L,copperas g/L,paper,state\nP1,elder,5,,P1,dry\nP2,elder,60,20,P1,dry\n");
        Write(
            "pot.csv",
            "sample,plant,pot,left ml,L,a,b\nA,elder,EB1,70,30,10,-10\nB,elder,EB1,70,60,20,-5\nC,elder,EB1,70,80,5,20\n"
                + "D,weld,WE1,300,85,-5,60\n"
        );
        Write("drops.csv", "minute,L,a,b\n4,70,14,-4\n10,55,20,-8\n20,46,22,-10\n40,42,22,-10\n80,43,21,-9\n");
        Write("liquors.csv", "liquor,wash,L,a,b\nA,,35,14,-21\nA,1:1,58,11,-15\nA,1:3,75,6,-8\nB,,39,12.5,-18\n");
        Write("bottles.json", """[{"code":"AAC-AD7","name":"Dusk","contains":["copperas"],"made":"2025-10-18"}]""");
        var photo = DrawnPhoto.OfSmallSheet();
        Write("sheet.json", photo.Layout.ToJson());
        File.WriteAllBytes(PathOf("photo.jpg"), photo.Jpeg());
        Directory.CreateDirectory(PathOf("photos"));
        File.Copy(PathOf("photo.jpg"), Path.Combine(PathOf("photos"), "one.jpg"));
        File.WriteAllText(Path.Combine(PathOf("photos"), "two.jpg"), "no picture");
    }

    public string Folder { get; } = Directory.CreateTempSubdirectory("dyewort-bench-").FullName;

    public void Dispose() => Directory.Delete(Folder, recursive: true);

    public string PathOf(string name) => Path.Combine(Folder, name);

    /// <summary>Runs a command; a word that names a file, or the folder “photos”, means the one in this folder. The same words are run
    /// once:
    /// several tests look at one answer, and what takes long is learning from the trials.</summary>
    public (int ExitCode, string Output, string Error) Run(params string[] words) =>
        said.GetOrAdd(string.Join('|', words), _ => new(() => CommandLine.Run([.. words.Select(Placed)]))).Value;

    private string Placed(string word) =>
        word == "photos" || (Endings.Any(ending => word.EndsWith(ending, StringComparison.Ordinal)) && !word.Contains(' '))
            ? PathOf(word)
            : word;

    /// <summary>An invented plant: alum and copperas share out its dye, citric acid reddens what is left.</summary>
    public static string Elder()
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

    private void Write(string name, string text) => File.WriteAllText(PathOf(name), text);
}

using System.Diagnostics;
using System.Globalization;
using Dyewort.Mutants;

// Plants small faults in a room, one at a time, and asks the room's own tests whether they notice.
//   dotnet run --project tools/Dyewort.Mutants -c Release -- Readings --sample 100 --seed 1 [--in Words] [--class Tests] [--class- Tests]
if (args.Length == 0 || args[0].StartsWith('-'))
{
    Console.Error.WriteLine(
        "Which room? Such as: Readings --sample 100 --seed 1 [--in CardFit,LightMap] [--lines 40-60] [--again REPORT] [--class Tests] "
            + "[--class- Tests] [--list]"
    );
    return 2;
}

var room = $"Dyewort.{args[0]}";
var project = $"{room}.Tests";
var sample = int.Parse(Option("--sample") ?? "100", CultureInfo.InvariantCulture);
var seed = int.Parse(Option("--seed") ?? "1", CultureInfo.InvariantCulture);
var words = Option("--in")?.Split(',') ?? [];
var root = Directory.GetCurrentDirectory();
if (!File.Exists(Path.Combine(root, "src", room, $"{room}.csproj")))
{
    Console.Error.WriteLine($"There is no src/{room} here. Start in the repository's own folder and name a room, such as Readings.");
    return 2;
}

if (Run("dotnet", ["build", $"tests/{project}", "-c", "Release", "-v", "quiet", "-nologo", "-p:RunAnalyzers=false"], root, 1800) != 0)
{
    Console.Error.WriteLine("The tests do not build.");
    return 1;
}

// The mutants run in a copy, so that the built tests stay sound.
var bin = Path.Combine(root, "artifacts", "bin", project, "release");
var stage = Path.Combine(root, "artifacts", "mutants", project);
if (Directory.Exists(stage))
    Directory.Delete(stage, recursive: true);
foreach (var file in Directory.EnumerateFiles(bin, "*", SearchOption.AllDirectories))
{
    var to = Path.Combine(stage, Path.GetRelativePath(bin, file));
    Directory.CreateDirectory(Path.GetDirectoryName(to)!);
    File.Copy(file, to);
}

var source = Room.Read(root, room, bin);
var all = source.Mutants(words);
if (Option("--lines")?.Split('-') is [var from, var until])
    all = [.. all.Where(one => one.Line >= Number(from) && one.Line <= Number(until))];

// One fault in a line is enough of a question; the shuffle is the seed's.
var chosen = all.OrderBy(_ => 0).ToArray();
new Random(seed).Shuffle(chosen);
if (!args.Contains("--every"))
    chosen = [.. chosen.DistinctBy(one => (one.Tree, one.Line))];

// What survived before, by an earlier run's report; lines may have moved since.
if (Option("--again") is { } report)
{
    var before = File.ReadAllLines(report);
    var survived = Enumerable
        .Range(0, Math.Max(0, before.Length - 2))
        .Select(i => Mutant.Unnumbered(string.Join('\n', before[i..(i + 3)])));
    var known = survived.ToHashSet(StringComparer.Ordinal);
    chosen = [.. all.DistinctBy(one => Mutant.Unnumbered(one.ToString())).Where(one => known.Contains(Mutant.Unnumbered(one.ToString())))];
}

Console.WriteLine($"{room}: {all.Count} mutants, {Math.Min(sample, chosen.Length)} drawn with seed {seed}.");
if (args.Contains("--list"))
{
    foreach (var one in chosen.Take(sample).OrderBy(one => one.Tree.FilePath, StringComparer.Ordinal).ThenBy(one => one.Line))
        Console.WriteLine(one);
    return 0;
}

var dll = Path.Combine(stage, $"{room}.dll");
string[] ask =
[
    Path.Combine(stage, $"{project}.dll"),
    "-stopOnFail",
    "-noLogo",
    "-noColor",
    .. Options("--class").SelectMany(name => new[] { "-class", name }),
    .. Options("--class-").SelectMany(name => new[] { "-class-", name }),
];
var notes = Path.Combine(stage, "notes.txt");
var reached = source.WriteNoted(dll);
var watch = Stopwatch.StartNew();
if (Run("dotnet", ask, stage, 3600, notes) != 0)
{
    Console.Error.WriteLine("The tests fail without any mutant.");
    return 1;
}

reached.Read(notes);
var limit = Math.Max(30, 4 * watch.Elapsed.TotalSeconds);
Console.WriteLine($"The tests take {watch.Elapsed.TotalSeconds:0} s; a mutant that takes {limit:0} s counts as killed.");
int tried = 0,
    killed = 0,
    hung = 0,
    unreached = 0;
foreach (var mutant in chosen)
{
    if (tried == sample)
        break;
    if (!source.Write(mutant, dll))
        continue;
    tried++;
    var tests = reached.By(mutant);
    if (tests.Count == 0)
    {
        unreached++;
        Console.WriteLine($"{mutant}\n    no test comes here");
        continue;
    }

    var which = tests.Contains(Reached.Everything) ? [] : tests.SelectMany(name => new[] { "-method", name });
    switch (Run("dotnet", ask.Concat(which), stage, limit))
    {
        case null:
            killed++;
            hung++;
            break;
        case 0:
            Console.WriteLine($"{mutant}\n    seen by {string.Join(", ", tests.Select(name => name.Split('.')[^1]))}");
            break;
        default:
            killed++;
            break;
    }
}

Console.WriteLine(
    $"{room}: {tried} tried, {killed} killed ({hung} by the clock), {tried - killed} survived ({unreached} where no test comes); seed "
        + $"{seed}."
);
return 0;

static int Number(string text) => int.Parse(text, CultureInfo.InvariantCulture);

string? Option(string name) => Options(name).FirstOrDefault();

IEnumerable<string> Options(string name) => args.Zip(args.Skip(1)).Where(pair => pair.First == name).Select(pair => pair.Second);

// The exit code, or null where the time ran out.
static int? Run(string program, IEnumerable<string> arguments, string folder, double seconds, string notes = "")
{
    var start = new ProcessStartInfo(program, arguments)
    {
        WorkingDirectory = folder,
        UseShellExecute = false,
        RedirectStandardOutput = true,
        RedirectStandardError = true,
        Environment = { ["MUTANTS_NOTES"] = notes },
    };
    using var process = Process.Start(start)!;
    process.OutputDataReceived += (_, _) => { };
    process.ErrorDataReceived += (_, _) => { };
    process.BeginOutputReadLine();
    process.BeginErrorReadLine();
    if (process.WaitForExit(TimeSpan.FromSeconds(seconds)))
        return process.ExitCode;
    process.Kill(entireProcessTree: true);
    process.WaitForExit();
    return null;
}

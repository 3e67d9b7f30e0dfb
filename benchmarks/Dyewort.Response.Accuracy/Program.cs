using System.Globalization;
using Dyewort.Response.Accuracy;
using Dyewort.Response.Tests.Generated;

CultureInfo.CurrentCulture = CultureInfo.InvariantCulture;

// response-accuracy [inks] [match|wash|bench part=step|next|correct|slips] [plants] [ph=given|none|half] [sizes=8,16,30] [scatter=1]
// [first=1] [wanted=12] [paper] [bins] [kinds] [stated=yes|no]
string Option(string name, string otherwise) =>
    args.FirstOrDefault(arg => arg.StartsWith($"{name}=", StringComparison.Ordinal))?[(name.Length + 1)..] ?? otherwise;
var plants = args.Select(arg => int.TryParse(arg, out var n) ? n : 0).FirstOrDefault(n => n > 0);
if (plants == 0)
    plants = 24;
var scatter = Option("scatter", "1") == "mixed" ? -1 : double.Parse(Option("scatter", "1"));
var first = int.Parse(Option("first", "1"));
if (args.Contains("bench"))
{
    BenchCheck.Run(plants, Option("part", ""), first);
    return;
}

Func<int, IPlant> grow = seed => new PlantMaker(seed);
if (args.Contains("inks"))
{
    if (InkTable.Load() is not { } table)
    {
        Console.WriteLine("Skipped: the photo simulator (or /usr/bin/python3 with numpy) does not lie beside this checkout.");
        return;
    }

    grow = seed => new InkPlant(table, seed);
}

if (args.Contains("match"))
{
    MatchCheck.Run(
        grow,
        plants,
        int.Parse(Option("wanted", "12")),
        int.Parse(Option("sizes", "16")),
        scatter,
        Option("ph", "given"),
        first + 3999,
        args.Contains("paper")
    );
}
else if (args.Contains("wash"))
    WashCheck.Run(grow, plants, int.Parse(Option("sizes", "16")), scatter, first);
else
    PredictCheck.Run(
        grow,
        plants,
        [.. Option("sizes", "8,16,30").Split(',').Select(int.Parse)],
        scatter,
        Option("ph", "given"),
        first,
        args.Contains("bins"),
        args.Contains("kinds"),
        Option("stated", "")
    );

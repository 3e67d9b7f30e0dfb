namespace Dyewort.Benchmarks;

/// <summary>Prints speeds as ratios to a named floor measured in the same run: <c>dotnet run --project benchmarks/Dyewort.Benchmarks -c
/// Release -- colour</c>.</summary>
internal static class Program
{
    private static readonly Dictionary<string, Action> Areas = new(StringComparer.Ordinal)
    {
        ["colour"] = ColourBenchmarks.Run,
        ["chemistry"] = ChemistryBenchmarks.Run,
        ["reading"] = ReadingBenchmarks.Run,
        ["response"] = ResponseBenchmarks.Run,
    };

    private static int Main(string[] args)
    {
        if (args.Length != 1 || !Areas.TryGetValue(args[0], out var run))
        {
            Console.Error.WriteLine($"Say which area to measure: {string.Join(", ", Areas.Keys)}.");
            return 2;
        }

        run();
        return 0;
    }
}

using System.Globalization;
using Dyewort.Testing;
using Xunit;

namespace Dyewort.Chemistry.Tests;

/// <summary>Published pH of things the program has a word for, against the range it states.</summary>
public sealed class PublishedPhTests
{
    /// <summary>Rows that miss, each explained in docs/accuracy.md; one that leaves this list or comes to it is a change to look
    /// at.</summary>
    private static readonly string[] Explained = ["beets, steamed, cooked", "household ammonia, 5-10 %", "vinegar, "];

    [Fact, Published("PhTables2026", "every row the program has a word for")]
    public void Nine_of_ten_published_pH_meet_the_range_that_is_stated()
    {
        var asked = Rows().Where(row => row.Asked.Length > 0).ToList();
        Assert.True(asked.Count >= 73, $"Only {asked.Count} rows are computed.");
        var judged = asked.Select(row => (Row: row, Report: Report(row))).Where(one => one.Report.IsPhKnown).ToList();
        foreach (var how in (ReadOnlySpan<string>)["seen", "memory"])
        {
            var these = judged.Where(one => one.Row.Seen == how).ToList();
            var met = these.Count(one => one.Row.Meets(one.Report));
            var near = these.Count(one => one.Row.Off(one.Report.AfterFizzing.Ph) <= 0.3);
            TestContext.Current.TestOutputHelper!.WriteLine($"{how}: {met} of {these.Count} meet; headline within 0.3 for {near}.");
            Assert.True(met >= 0.9 * these.Count, $"Of the rows that are {how} only {met} of {these.Count} meet.");
        }

        foreach (var (row, report) in judged)
            TestContext.Current.TestOutputHelper!.WriteLine(
                string.Create(
                    CultureInfo.InvariantCulture,
                    $"{(row.Meets(report) ? "" : "MISS "), 5}{row.Seen} {row.What}: {row.Low} to {row.High}, here "
                        + $"{report.AfterFizzing.Ph:0.00} "
                        + $"({report.PhLow:0.00} to {report.PhHigh:0.00})"
                )
            );
        Assert.Equal(Explained, judged.Where(one => !one.Row.Meets(one.Report)).Select(one => $"{one.Row.What}, {one.Row.How}"));
    }

    /// <summary>A range that covers the whole scale would meet everything: what is told as known is told within bounds.</summary>
    [Fact]
    public void No_stated_range_is_wide_only_to_be_right()
    {
        foreach (var row in Rows().Where(row => row.Asked.Length > 0))
        {
            var report = Report(row);
            if (report.IsPhKnown)
                Assert.True(report.PhHigh - report.PhLow < 2.2, $"{row.What}: {report.PhLow:0.0} to {report.PhHigh:0.0}");
        }
    }

    private static JarReport Report(Row row)
    {
        var (liquid, additions) = (row.Asked.Split('|')[0].Split(' '), row.Asked.Split('|')[1]);
        var contents = new JarContents { LiquorMillilitres = 1000, Portions = [.. MixtureTests.Read(additions)] };
        switch (liquid[0])
        {
            case "water":
                contents = contents with { LiquorMillilitres = PublishedTable.Number(liquid[1]) };
                break;
            case "tap":
                contents = contents with { Liquor = Liquor.Tap(PublishedTable.Number(liquid[1]), PublishedTable.Number(liquid[2])) };
                break;
            default:
                var isMeasured = double.TryParse(liquid[^1], NumberStyles.Float, CultureInfo.InvariantCulture, out var millilitres);
                Assert.True(
                    ExtractBuffer.Find("liquor", string.Join(' ', liquid[1..^(isMeasured ? 1 : 0)])).TryGet(out var extract),
                    row.Asked
                );
                contents = contents with { Liquor = Liquor.Of(extract), LiquorMillilitres = isMeasured ? millilitres : 1000 };
                break;
        }

        var celsius = row.Celsius.StartsWith("25", StringComparison.Ordinal) ? 25 : 20;
        Assert.True(JarReport.Of(contents, celsius).TryGet(out var report), row.Asked);
        return report;
    }

    private static IEnumerable<Row> Rows() =>
        PublishedTable
            .Read("published-ph.csv")
            .Select(row => new Row(
                row["what"],
                row["how_made"],
                row["temperature_c"],
                row["ph_low"],
                row["ph_high"],
                row["how_seen"],
                row["computed_as"]
            ));

    private sealed record Row(string What, string How, string Celsius, string Low, string High, string Seen, string Asked)
    {
        /// <summary>True where the published range, each end widened by half a unit of its last printed place, and the stated one have a
        /// pH in
        /// common.</summary>
        public bool Meets(JarReport report) => LowEnd <= report.PhHigh && HighEnd >= report.PhLow;

        /// <summary>How far a pH lies outside the published range; 0 within it.</summary>
        public double Off(double ph) => Math.Max(0, Math.Max(LowEnd - ph, ph - HighEnd));

        public double LowEnd => PublishedTable.Number(Low) - Half(Low);

        public double HighEnd => PublishedTable.Number(High) + Half(High);

        private static double Half(string printed) =>
            0.5
            * Math.Pow(
                10,
                -(printed.Contains('.', StringComparison.Ordinal) ? printed.Length - printed.IndexOf('.', StringComparison.Ordinal) - 1 : 0)
            );
    }
}

using Dyewort.Testing;
using Xunit;

namespace Dyewort.Colour.Tests;

public sealed class DifferenceTests
{
    private const double PrintedTo4Decimals = 0.00005;

    [Fact, Published("Sharma2005", "Table 1, all 34 pairs")]
    public void Ciede2000_gives_the_published_difference_both_ways_round()
    {
        var rows = Data.Published("sharma2005-ciede2000.csv");
        Assert.Equal(34, rows.Count);
        foreach (var row in rows)
        {
            Assert.Equal(row.Number("dE00"), Difference.Ciede2000(row.Lab("1"), row.Lab("2")), PrintedTo4Decimals);
            Assert.Equal(row.Number("dE00"), Difference.Ciede2000(row.Lab("2"), row.Lab("1")), PrintedTo4Decimals);
        }
    }
}

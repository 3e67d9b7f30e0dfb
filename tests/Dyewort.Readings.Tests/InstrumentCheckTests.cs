using System.Globalization;
using System.Text;
using Dyewort.Colour;
using Dyewort.Testing;
using Xunit;

namespace Dyewort.Readings.Tests;

public sealed class InstrumentCheckTests
{
    [Fact, Published("Sharma2005", "Table 1")]
    public void Differences_are_those_of_the_published_pairs()
    {
        var pairs = Table("sharma2005-ciede2000.csv");
        var file = new StringBuilder(
            "CGATS.17\nWEIGHTING_FUNCTION \"ILLUMINANT,D65\"\nBEGIN_DATA_FORMAT\nSAMPLE_ID LAB_L LAB_A LAB_B\nEND_DATA_FORMAT\nBEGIN_DATA\n"
        );
        foreach (var pair in pairs)
            file.Append('P')
                .Append(pair["pair"])
                .Append(' ')
                .Append(pair["L2"])
                .Append(' ')
                .Append(pair["a2"])
                .Append(' ')
                .Append(pair["b2"])
                .Append('\n');
        var check = Check(
            [.. pairs.Select(pair => Swatch(" p" + pair["pair"], new(Number(pair, "L1"), Number(pair, "a1"), Number(pair, "b1")), 2))],
            file.Append("END_DATA\n").ToString()
        );
        Assert.Equal(34, check.Swatches.Count);
        foreach (var (pair, swatch) in pairs.Zip(check.Swatches))
        {
            Assert.Equal(Number(pair, "dE00"), swatch.De00, 1e-4);
            Assert.Equal(Number(pair, "dE00") <= 2, swatch.IsInside);
        }

        // Mean, median and 95th percentile of the printed column, worked out from its sorted figures.
        var printed = pairs.Select(pair => Number(pair, "dE00")).Order().ToArray();
        Assert.Equal(printed.Sum() / 34, check.MeanDe00, 1e-4);
        Assert.Equal((printed[16] + printed[17]) / 2, check.MedianDe00, 1e-4);
        Assert.Equal(printed[31] + (0.35 * (printed[32] - printed[31])), check.P95De00, 1e-4);
        Assert.Equal(printed.Count(value => value <= 2) / 34.0, check.InsideShare, 1e-9);
    }

    [Fact]
    public void One_swatch_is_its_own_median_and_percentile()
    {
        var check = Check(
            [Swatch("A1", new(50, 0, 0), 2)],
            "CGATS.17\nWEIGHTING_FUNCTION \"ILLUMINANT,D65\"\nBEGIN_DATA_FORMAT\nSAMPLE_ID LAB_L LAB_A LAB_B\nEND_DATA_FORMAT\n"
                + "BEGIN_DATA\nA1 51 0 0\nEND_DATA\n"
        );
        Assert.Equal(check.MeanDe00, check.MedianDe00);
        Assert.Equal(check.MeanDe00, check.P95De00);
        Assert.Equal((-1, 0), (Math.Round(check.MeanShift.L, 6), Math.Round(check.MeanShift.A, 6)));
    }

    [Fact, Published("Ohta1997", "24 reflectances; the chart maker's CIELAB under D50")]
    public void Spectra_of_a_published_chart_agree_with_its_makers_figures()
    {
        // Dark skin, blue sky, orange, white and black as the maker states them before November 2014 (CIELAB, D50, 2°).
        (int Patch, Lab D50)[] stated =
        [
            (1, new(37.99, 13.55, 14.06)),
            (3, new(49.93, -4.88, -21.91)),
            (7, new(62.66, 36.07, 57.10)),
            (19, new(96.54, -0.42, 1.19)),
            (24, new(20.46, -0.08, -0.97)),
        ];
        var rows = Table("ohta1997-card24-spectra.csv");
        var bands = rows[0].Keys.Where(key => key[0] is 'R' or 'r' && char.IsAsciiDigit(key[^1])).ToArray();
        foreach (var prefix in new[] { "SPECTRAL_NM", "nm" })
        {
            var file = new StringBuilder("CGATS.17\nBEGIN_DATA_FORMAT\nSAMPLE_ID ")
                .AppendJoin(' ', bands.Select(band => prefix + band[1..]))
                .Append("\nEND_DATA_FORMAT\nBEGIN_DATA\n");
            foreach (var row in rows)
                file.Append(row["patch"]).Append(' ').AppendJoin(' ', bands.Select(band => row[band])).Append('\n');
            var photo = stated
                .Select(one => Swatch(one.Patch.ToString(CultureInfo.InvariantCulture), Adaptation.LabFromD50(one.D50), 3))
                .ToList();
            var check = Check(photo, file.Append("END_DATA\n").ToString());
            Assert.Equal(stated.Length, check.Swatches.Count);
            Assert.Equal(24 - stated.Length, check.OnlyInstrument.Count);

            // Two sets of real charts differ by 0.84 in the mean and 1.85 at most between publications.
            Assert.All(check.Swatches, swatch => Assert.True(swatch.De00 < 2, $"{swatch.Id}: {swatch.De00:0.00}"));
        }
    }

    [Fact]
    public void A_file_for_d50_is_brought_to_d65_and_its_own_doubt_counts()
    {
        var d50 = new Lab(52, 18, -20);
        var text =
            "CGATS.17\nBEGIN_DATA_FORMAT\nSAMPLE_ID LAB_L LAB_A LAB_B STDEV_DE\nEND_DATA_FORMAT\nBEGIN_DATA\nA1 52 18 -20 1\nEND_DATA\n";
        var check = Check([Swatch("A1", Adaptation.LabFromD50(d50), 3)], text);
        Assert.Equal(0, check.Swatches[0].De00, 1e-6);
        Assert.Equal(Math.Sqrt(9 + (1.96 * 1.96)), check.Swatches[0].StatedDe00, 1e-9);
    }

    [Fact]
    public void Names_that_only_one_side_has_are_told_and_none_in_common_is_refused()
    {
        const string Text =
            "CGATS.17\nBEGIN_DATA_FORMAT\nSAMPLE_ID LAB_L LAB_A LAB_B\nEND_DATA_FORMAT\nBEGIN_DATA\nA1 50 0 0\nB7 50 0 0\nEND_DATA\n";
        var check = Check([Swatch("A1", new(50, 0, 0), 2), Swatch("C2", new(50, 0, 0), 2)], Text);
        Assert.Equal(["B7"], check.OnlyInstrument);
        Assert.Equal(["C2"], check.OnlyPhoto);
        Assert.True(CardFile.Parse("check", Text).TryGet(out var patches));
        Assert.Contains("name of a swatch", Assert.Single(InstrumentCheck.Of([Swatch("D4", new(50, 0, 0), 2)], patches).Problems).What);
        Assert.Contains(
            "two samples",
            Assert.Single(InstrumentCheck.Of([Swatch("A1", new(50, 0, 0), 2)], [.. patches, patches[0]]).Problems).What
        );
        Assert.Contains(
            "instrument's file",
            Assert
                .Single(
                    CardFile
                        .Parse(
                            "check",
                            "CGATS.17\nBEGIN_DATA_FORMAT\nSAMPLE_ID\nEND_DATA_FORMAT\nBEGIN_DATA\nA1\nEND_DATA\n",
                            "instrument's file"
                        )
                        .Problems
                )
                .What
        );
    }

    [Fact]
    public void A_strip_that_was_written_is_read_back_with_its_uncertainty()
    {
        CardPatch[] strip =
        [
            new("1", new(41.256, 12.5, -30.125)) { UncertaintyDe00 = 2.5 },
            new("2", new(80, -0.004, 0)) { UncertaintyDe00 = 1 },
        ];
        Assert.True(CardFile.Parse("strip", CardFile.Write(strip, "House strip \"blue tape\"")).TryGet(out var back));
        foreach (var (first, second) in strip.Zip(back))
        {
            Assert.Equal(first.Id, second.Id);
            Assert.Equal(0, Difference.Ciede2000(first.Lab, second.Lab), 0.01);
            Assert.Equal(first.UncertaintyDe00!.Value, second.UncertaintyDe00!.Value, 0.002);
        }
    }

    private static InstrumentCheck Check(IReadOnlyList<SwatchReading> photo, string text)
    {
        Assert.True(CardFile.Parse("check", text).TryGet(out var instrument));
        Assert.True(InstrumentCheck.Of(photo, instrument).TryGet(out var check));
        return check;
    }

    private static SwatchReading Swatch(string id, Lab lab, double uncertainty) => new(id, lab.ToXyz(), uncertainty, 1, 1, []);

    private static double Number(Dictionary<string, string> row, string column) =>
        double.Parse(row[column], NumberStyles.Float, CultureInfo.InvariantCulture);

    private static List<Dictionary<string, string>> Table(string name)
    {
        var lines = File.ReadLines(Repository.PathOf("data", "published", name))
            .Where(line => line.Length > 0 && line[0] != '#')
            .Select(line => line.Split(','))
            .ToList();
        return
        [
            .. lines
                .Skip(1)
                .Select(cells => lines[0].Zip(cells).ToDictionary(pair => pair.First, pair => pair.Second, StringComparer.Ordinal)),
        ];
    }
}

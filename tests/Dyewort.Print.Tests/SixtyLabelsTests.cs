using System.Globalization;
using Dyewort.Chemistry;
using Dyewort.Making;
using Dyewort.Numerics;
using UglyToad.PdfPig;
using Xunit;

namespace Dyewort.Print.Tests;

/// <summary>Labels of sixty inks, printed and read back: what the rules for mixtures ask for stands there, nothing is cut off.</summary>
public sealed class SixtyLabelsTests
{
    /// <summary>Wording of Regulation (EC) 1272/2008, Annex III, from memory.</summary>
    private static readonly Dictionary<string, string> Wording = new()
    {
        ["H226"] = "flammable liquid and vapour",
        ["H302"] = "harmful if swallowed",
        ["H314"] = "causes severe skin burns and eye damage",
        ["H315"] = "causes skin irritation",
        ["H317"] = "may cause an allergic skin reaction",
        ["H318"] = "causes serious eye damage",
        ["H319"] = "causes serious eye irritation",
        ["H360FD"] = "may damage fertility. May damage the unborn child",
        ["H400"] = "very toxic to aquatic life",
        ["H411"] = "toxic to aquatic life with long lasting effects",
        ["H412"] = "harmful to aquatic life with long lasting effects",
    };

    public static TheoryData<string, string, string, string, string> Inks =>
        [
            .. TextTable
                .Embedded(typeof(SixtyLabelsTests), "inks.csv")
                .Rows.Select(row => new TheoryDataRow<string, string, string, string, string>(
                    row["plant"],
                    row["latin"],
                    row["contents"],
                    row["signal"],
                    row["statements"]
                )),
        ];

    [Fact]
    public void There_are_sixty() => Assert.Equal(60, Inks.Count);

    [Theory]
    [MemberData(nameof(Inks))]
    public void A_label_read_back_says_what_is_in_it(string plant, string latin, string contents, string signal, string statements)
    {
        var label = LabelText.Of(
            new LabelFacts
            {
                Name = "Dusk",
                Code = "AAC-AD7",
                Recipe = $"{plant} with {contents} to 100 ml",
                MadeOn = new DateOnly(2025, 10, 18),
                KeepBy = new DateOnly(2026, 10, 18),
                Volume = "29 ml",
                Plants = [plant],
                Contents = [.. contents.Split(';').Select(Content)],
            }
        );
        var drawn = LabelsPdf.Draw([label], LabelSheet.UsualFront, null, 0, new DateOnly(2026, 3, 14));
        Assert.True(drawn.TryGet(out var pdf), string.Join(' ', drawn.Problems));
        var said = ReadBack(pdf);
        Assert.Contains(latin, said, StringComparison.Ordinal);
        Assert.Contains("Not for eating or drinking.", said, StringComparison.Ordinal);
        Assert.Contains("bin it closed", said, StringComparison.Ordinal);
        Assert.Contains("keep by 2026-10-18", said, StringComparison.Ordinal);
        Assert.Contains("licensed work", said, StringComparison.Ordinal);
        Assert.Equal(signal == "Danger", said.Contains("Danger. By", StringComparison.Ordinal));
        Assert.Equal(signal == "Warning", said.Contains("Warning. By", StringComparison.Ordinal));
        foreach (var code in statements.Split(' ', StringSplitOptions.RemoveEmptyEntries))
            Assert.Contains(Wording[code], said, StringComparison.Ordinal);
        if (statements.Length == 0)
            Assert.Contains("no hazard statement remains", said, StringComparison.Ordinal);

        // Every word that the label was to say is on the paper.
        foreach (var warning in label.Warnings)
            Assert.Contains(warning, said, StringComparison.Ordinal);
    }

    private static LabelContent Content(string written)
    {
        var cut = written.LastIndexOf(' ');
        var share = double.Parse(written[(cut + 1)..], CultureInfo.InvariantCulture);
        Assert.True(SubstanceCatalogue.Standard.Find("name", written[..cut]).TryGet(out var found));
        return new(written[..cut], found.Substance.Hazard)
        {
            GramsPer100Ml = share,
            MlPer100Ml = found.Substance.Form is SubstanceForm.Liquid or SubstanceForm.Spirit ? share : null,
        };
    }

    private static string ReadBack(byte[] pdf)
    {
        using var document = PdfDocument.Open(pdf);
        return string.Join(' ', document.GetPages().SelectMany(page => page.GetWords()).Select(word => word.Text));
    }
}

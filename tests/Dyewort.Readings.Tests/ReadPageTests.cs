using Dyewort.Colour;
using Xunit;

namespace Dyewort.Readings.Tests;

public sealed class ReadPageTests
{
    private static readonly Lab Paper = new(95, -0.5, 3);

    /// <summary>Markers of a scanner that changes nothing: black is 4 % of the paper, and there is no stray light.</summary>
    private static readonly InkSample[] Markers = [.. Enumerable.Range(0, 4).Select(i => new InkSample(Grey(0.028), Grey(0.7), 12))];

    [Theory, InlineData(0.19, false), InlineData(0.21, true)]
    public void A_page_is_called_overexposed_from_a_fifth_of_burnt_out_paper(double burnt, bool said)
    {
        CellSample[] cells =
        [
            .. Enumerable.Range(0, 100).Select(i => Cell(Grey(0.5), Grey(0.9)) with { PaperClipped = i < burnt * 100 ? 1 : 0 }),
        ];
        var (swatches, _, warnings) = Read(cells, Paper);
        Assert.Equal(said, warnings.Any(one => one.Code == "overexposed"));

        // What burns out is the page's light, so the cells beside are doubted with it.
        var (calm, _, _) = Read([.. cells.Select(cell => cell with { PaperClipped = 0 })], Paper);
        Assert.True(swatches[^1].UncertaintyDe00 > calm[^1].UncertaintyDe00 + 0.1);
    }

    [Fact]
    public void The_cell_itself_counts_where_it_is_burnt_out_and_not_its_paper()
    {
        var (_, _, warnings) = Read([Cell(Grey(1), Grey(0.9)) with { ClippedHigh = 0.5 }], Paper);
        Assert.Contains(warnings, one => one.Code == "overexposed");
    }

    [Fact]
    public void The_guess_of_the_paper_does_not_hang_on_the_exposure()
    {
        // A cream paper, L* 92, b* 12, under full light and half of it.
        var cream = FileColour.Srgb.FromXyz(new Lab(92, 0.5, 12).ToXyz());
        var guesses = new[] { 1.0, 0.5 }
            .Select(light => Read([Cell(Grey(0.5), cream * light)], null, PaperKind.Cream).Calibration.Paper)
            .ToArray();
        Assert.Equal(12, guesses[0].B, 0.5);
        Assert.Equal(0.5, guesses[0].A, 0.5);
        Assert.All(guesses, guess => Assert.True(Difference.Ciede2000(guess, guesses[0]) < 0.35, $"{guess} beside {guesses[0]}"));
    }

    [Fact]
    public void A_wash_is_its_share_of_the_papers_light()
    {
        // Half of the light in every channel: the paper's XYZ halved.
        var (swatches, _, _) = Read([Cell(Grey(0.5), Grey(0.8))], Paper);
        Assert.True(Difference.Ciede2000(Lab.FromXyz(Paper.ToXyz() * 0.5), swatches[0].Lab) < 1.2, $"{swatches[0].Lab}");
    }

    [Fact]
    public void The_evenness_is_one_over_one_and_a_fifth_of_the_difference_between_palest_and_deepest()
    {
        var even = Read([Cell(Grey(0.5), Grey(0.8))], Paper).Swatches[0];
        Assert.Equal(1, even.Evenness, 1e-9);
        Assert.Equal(0, even.SpreadDe00, 1e-9);
        var uneven = Read([Cell(Grey(0.5), Grey(0.8)) with { Pale = Grey(0.6), Deep = Grey(0.4) }], Paper).Swatches[0];
        var (pale, deep) = (Lab.FromXyz(Paper.ToXyz() * 0.6), Lab.FromXyz(Paper.ToXyz() * 0.4));
        Assert.Equal(Difference.Ciede2000(pale, deep), uneven.SpreadDe00, 0.5);
        Assert.Equal(5 / (5 + uneven.SpreadDe00), uneven.Evenness, 1e-9);
    }

    [Fact]
    public void What_the_uncertainty_is_made_from_is_what_was_read()
    {
        var sample = Cell(Grey(0.5), Grey(0.8)) with
        {
            Coverage = 0.7,
            ClippedHigh = 0.1,
            LightStep = 0.05,
            LightDoubt = 0.02,
            Noise = 0.03,
        };
        var (swatches, _, _) = Read([sample, Cell(Grey(0.5), Grey(0.8))], Paper);
        var (features, lab) = (swatches[0].Features!, swatches[0].Lab);
        Assert.Equal(Paper.L - lab.L, features.Depth, 1e-9);
        Assert.Equal((lab.L + 16) / (Paper.L + 16), features.PaperShare, 1e-9);
        Assert.Equal(lab.Chroma, features.Chroma, 1e-9);
        Assert.Equal(0.3, features.PaperDoubt);
        Assert.Equal(0.7, features.Coverage);
        Assert.Equal(0.05, features.LightStep);
        Assert.Equal(0.1, features.Clipped);
        Assert.Equal(0.05, swatches[1].Features!.Clipped, 1e-12);
        Assert.True(features.IsScan);

        // The file shows the paper as a neutral grey, and it is known to be Paper.
        Assert.Equal(Math.Sqrt((0.5 * 0.5) + (3 * 3)), features.WhiteOff, 0.01);
    }

    [Fact]
    public void Paper_that_light_does_not_explain_shows_as_the_residual()
    {
        // A tenth of a paper of Y 88: dL*/dlnY = 116/3 · ∛0.88 = 37.
        var residual = Read([Cell(Grey(0.5), Grey(0.8))], Paper, residual: 0.1).Calibration.ResidualDe00;
        var (y, step) = (Paper.ToXyz().Y, 1e-4);
        var slope = (LightnessOf(y * (1 + step)) - LightnessOf(y * (1 - step))) / (2 * step);
        Assert.Equal(0.1 * slope, residual, 1e-4);

        static double LightnessOf(double y) => Lab.FromXyz(new Xyz(y, y, y)).L;
    }

    [Fact]
    public void A_page_without_cells_or_reference_is_read_as_nothing()
    {
        var (swatches, calibration, warnings) = Read([], null);
        Assert.Empty(swatches);
        Assert.Equal("paper", calibration.Method);
        Assert.False(calibration.PaperKnown);
        Assert.Contains(warnings, one => one.Code == "paper");
    }

    private static (IReadOnlyList<SwatchReading> Swatches, Calibration Calibration, IReadOnlyList<ReadingWarning> Warnings) Read(
        CellSample[] cells,
        Lab? paper,
        PaperKind? kind = null,
        double residual = 0.01
    ) =>
        ReadPage.Of(
            new(
                cells,
                [.. Markers.Select(one => cells.Length == 0 ? one : new(cells[0].Paper * 0.04, cells[0].Paper, 12))],
                FileColour.Srgb,
                cells.Length == 0 ? Grey(0.5) : cells[0].Paper * 0.5,
                true,
                residual
            ),
            paper,
            null,
            kind: kind
        );

    private static FileRgb Grey(double light) => new(light, light, light);

    private static CellSample Cell(FileRgb wash, FileRgb paper) => new("A1", wash, wash, wash, paper, 1, 0, 0, 0, 2000, 0.01, 0.003, 0.003);
}

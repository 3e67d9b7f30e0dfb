using Dyewort.Colour;
using Xunit;

namespace Dyewort.Readings.Tests;

public sealed class FirstStripTests
{
    private static readonly Lab FirstDay = new(95.3, -0.6, 3);

    [Fact]
    public void The_paper_is_kept_with_the_strip_and_told_from_its_patches_whatever_its_capitals()
    {
        CardPatch[] file = [new("1", new(50, 0, 0)), new("paper", FirstDay), new("2", new(60, 0, 0))];
        var (patches, paper) = FirstStrip.Parts(file);
        Assert.Equal(["1", "2"], patches.Select(patch => patch.Id));
        Assert.Equal(FirstDay, paper!.Lab);
        Assert.Null(FirstStrip.Parts(file[..1]).Paper);
    }

    [Theory, InlineData(11, true), InlineData(12, false)]
    public void A_short_strip_takes_the_paper_in_as_one_more_patch(int patches, bool joins) =>
        Assert.Equal(patches + (joins ? 1 : 0), FirstStrip.WithPaper(Strip(patches, FirstDay), FileColour.Srgb).Count);

    [Fact]
    public void Another_paper_beside_a_short_strip_is_not_taken_in()
    {
        // White copy paper with brightener is 6.5 away in b*: through a short strip that may be the same. Brown is not, nor is a shadow.
        Assert.Equal(7, FirstStrip.WithPaper(Strip(6, new(96.2, 1.6, -3.2)), FileColour.Srgb).Count);
        Assert.Equal(6, FirstStrip.WithPaper(Strip(6, new(95.3, 1, 14)), FileColour.Srgb).Count);
        Assert.Equal(7, FirstStrip.WithPaper(Strip(6, new(82, -0.6, 3)), FileColour.Srgb).Count);
        Assert.Equal(6, FirstStrip.WithPaper(Strip(6, new(76, -0.6, 3)), FileColour.Srgb).Count);
    }

    [Fact]
    public void The_first_days_paper_keeps_its_doubt_and_is_known_where_that_is_small()
    {
        CardPatch Paper(double? uncertainty) => new(FirstStrip.PaperId, FirstDay) { UncertaintyDe00 = uncertainty };
        Assert.Equal(1, FirstStrip.PaperOf(Paper(1.96)).Doubt, 1e-9);
        Assert.False(FirstStrip.PaperOf(Paper(1.96)).Known);
        Assert.True(FirstStrip.PaperOf(Paper(0.8)).Known);
        Assert.Equal(0.3, FirstStrip.PaperOf(Paper(0.1)).Doubt, 1e-9);
        Assert.Equal(4 / 1.96, FirstStrip.PaperOf(Paper(null)).Doubt, 1e-9);
    }

    [Theory, InlineData(-0.6, 3, true), InlineData(2, 16, false)]
    public void The_first_days_paper_is_stood_on_where_the_paper_is_the_same(double a, double b, bool same)
    {
        var reference = Strip(8, new(95.3, a, b));
        var paper = reference.PaperBeside!.Value;
        CellSample[] cells = [new("A1", Grey(0.5), Grey(0.5), Grey(0.5), paper, 1, 0, 0, 0, 2000, 0.01, 0.003, 0.003)];
        InkSample[] markers = [.. Enumerable.Range(0, 4).Select(_ => new InkSample(paper * 0.04, paper, 12))];
        var (_, calibration, warnings) = ReadPage.Of(new(cells, markers, FileColour.Srgb, paper * 0.5, true, 0.01), null, reference);
        Assert.Equal("strip", calibration.Method);
        Assert.Equal(same, calibration.Paper == FirstDay);
        Assert.Equal(!same, warnings.Any(one => one.Code == "strip paper"));
    }

    /// <summary>A strip of even colours in a faithful picture at 70 % of the light, and a paper beside it.</summary>
    private static Reference Strip(int patches, Lab beside) =>
        new(
            [
                .. Enumerable
                    .Range(0, patches)
                    .Select(i => new Lab(35 + (5 * (i % 10)), 20 * Math.Cos(i), 20 * Math.Sin(i)))
                    .Select(
                        (lab, i) =>
                            new ReferencePatch(
                                $"{i + 1}",
                                FileColour.Srgb.FromXyz(lab.ToXyz()) * 0.7,
                                lab.ToXyz(),
                                (i + 0.5) / patches,
                                0.5,
                                0
                            )
                    ),
            ],
            true,
            FileColour.Srgb.FromXyz(beside.ToXyz()) * 0.7
        )
        {
            FirstPaper = new(FirstStrip.PaperId, FirstDay) { UncertaintyDe00 = 1.96 },
        };

    private static FileRgb Grey(double light) => new(light, light, light);
}

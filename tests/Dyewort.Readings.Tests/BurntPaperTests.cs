using Xunit;

namespace Dyewort.Readings.Tests;

public sealed class BurntPaperTests
{
    private static readonly CameraLook Faithful = CameraLook.Of(0, 0, Grey(1));

    [Fact]
    public void No_paper_is_believed_to_be_more_than_1_8_times_as_light_as_the_file_can_say()
    {
        // The light grows by e to the 0.8 from column to column and passes the top of the file at the fourth: the last must have e to the
        // 1.6.
        static double Light(int i) => Math.Exp(0.8 * ((i % 6) - 3));
        CellSample[] cells =
        [
            .. Page(Grey(1), 1)
                .Select((cell, i) => cell with { Paper = Grey(Math.Min(1, Light(i))), PaperClipped = Light(i) > 0.99 ? 1 : 0 }),
        ];
        var excess = BurntPaper.Excess(cells, Faithful);
        Assert.InRange(excess[4].G, 1.2, 1.8);
        Assert.Equal(Math.Exp(0.6), excess[5].G, 1e-9);
    }

    [Fact]
    public void A_card_says_how_far_paper_is_burnt_out()
    {
        double By(FileRgb? card) => BurntPaper.Excess(Page(Grey(1), 1), Faithful, card)[7].G;
        Assert.Equal(1.4, By(Grey(1.4)), 0.07);
        Assert.True(By(Grey(1.1)) < By(Grey(1.4)) - 0.05 && By(Grey(1.4)) < By(Grey(1.8)) - 0.05);

        // More than twice is believed of no card, and a card that saw half of the paper's light lay in another light.
        Assert.Equal(By(Grey(2)), By(Grey(9)), 1e-12);
        Assert.Equal(By(null), By(Grey(0.45)), 1e-12);
    }

    [Fact]
    public void A_channel_that_is_not_full_tells_the_others()
    {
        // The camera balances its channels within a tenth, so blue at 0.93 leaves red and green little above the top.
        var told = BurntPaper.Excess(Page(new(1, 1, 0.93), 1), Faithful);
        var alone = BurntPaper.Excess(Page(Grey(1), 1), Faithful);
        Assert.All(told, one => Assert.True(one.G < alone[0].G - 0.05, $"{one.G:0.000} and {alone[0].G:0.000}"));
    }

    [Fact]
    public void Channels_near_their_top_share_one_factor_and_others_keep_their_own()
    {
        Assert.All(BurntPaper.Excess(Page(new(1, 1, 0.9), 1), Faithful), one => Assert.True(one.R == one.G && one.G == one.B && one.B > 1));
        Assert.All(BurntPaper.Excess(Page(new(1, 1, 0.6), 1), Faithful), one => Assert.True(one.R > 1 && one.B == 1));
        Assert.All(BurntPaper.Excess(Page(new(0.6, 1, 1), 1), Faithful), one => Assert.True(one.R == 1 && one.B > 1));
        Assert.All(BurntPaper.Excess(Page(new(1, 0.6, 1), 1), Faithful), one => Assert.True(one.G == 1 && one.B > 1));
    }

    [Fact]
    public void The_less_of_the_paper_is_full_the_less_is_added()
    {
        double Of(double share) => Math.Log(BurntPaper.Excess(Page(Grey(1), share), Faithful)[0].G);
        Assert.Equal(0, Of(0.4), 1e-9);
        Assert.InRange(Of(0.65) / Of(0.9), 0.45, 0.55);
        Assert.Equal(0, Of(0.3), 1e-12);
    }

    [Fact]
    public void A_full_wash_is_put_halfway_between_the_top_and_its_paper()
    {
        Assert.Equal(1.2, BurntPaper.WashFactor(1, 1.44), 1e-12);
        Assert.Equal(1.2, BurntPaper.WashFactor(BurntPaper.Full, 1.44), 1e-12);
        Assert.Equal(1, BurntPaper.WashFactor(0.9, 1.44), 1e-12);
        Assert.Equal(Math.Sqrt(1.2), BurntPaper.WashFactor(BurntPaper.Full - 0.015, 1.44), 1e-12);
    }

    private static FileRgb Grey(double light) => new(light, light, light);

    private static CellSample[] Page(FileRgb paper, double clipped) =>
        [
            .. Enumerable
                .Range(0, 24)
                .Select(i => new CellSample("A1", Grey(0.5), Grey(0.5), Grey(0.5), paper, 1, 0, 0, 0, 2000, 0.01, 0.003, 0.003)
                {
                    X = i % 6,
                    Y = i / 6,
                    PaperClipped = clipped,
                }),
        ];
}

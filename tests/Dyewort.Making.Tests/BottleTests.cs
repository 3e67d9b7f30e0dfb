using Dyewort.Quantities;
using Xunit;

namespace Dyewort.Making.Tests;

public sealed class BottleTests
{
    private static Volume Ml(double millilitres) => Volume.FromMillilitres(millilitres);

    [Fact]
    public void The_invented_season_s_bottling_comes_out_as_its_sums_say()
    {
        // Invented worked sums: 1354 ml, 3 % lost in the filter → 1313; 30 ml kept back → 1283; 29 ml fills → 44 bottles, 7 ml over.
        Assert.True(Bottling.Plan(Ml(1354), 0.03, Ml(30), Ml(29), Ml(30)).TryGet(out var plan));
        Assert.Equal(1313, plan.Filtered.Millilitres, 0.5);
        Assert.Equal(44, plan.Bottles);
        Assert.Equal(7, plan.Over.Millilitres, 0.5);
        Assert.Equal(1.0 / 30, plan.UllageShare, 1e-12);
        Assert.Empty(plan.Remarks);
    }

    [Fact]
    public void Working_backwards_fills_exactly_the_bottles_wanted()
    {
        for (var bottles = 1; bottles <= 200; bottles++)
        {
            var needed = Bottling.Needed(bottles, Ml(29), Ml(30), 0.035);
            Assert.True(Bottling.Plan(needed, 0.035, Ml(30), Ml(29), Ml(30)).TryGet(out var plan));
            Assert.Equal(bottles, plan.Bottles);
            Assert.Equal(0, plan.Over.Millilitres, 1e-6);
        }
    }

    [Fact]
    public void Too_few_empty_bottles_are_noticed()
    {
        Assert.True(Bottling.Plan(Ml(1354), 0.03, Ml(30), Ml(29), Ml(30), atHand: 22).TryGet(out var plan));
        Assert.Equal(22, plan.Bottles);
        Assert.Contains("22 short", Assert.Single(plan.Remarks), StringComparison.Ordinal);
    }

    [Fact]
    public void What_just_goes_is_not_refused()
    {
        // No bottle at hand, less than a millilitre left to fill, fills of half a millilitre.
        Assert.True(Bottling.Plan(Ml(100), 0, Ml(0), Ml(29), Ml(30), atHand: 0).TryGet(out var none));
        Assert.Equal(0, none.Bottles);
        Assert.True(Bottling.Plan(Ml(100), 0, Ml(99.5), Ml(29), Ml(30)).TryGet(out var little));
        Assert.Equal((0, 0.5), (little.Bottles, Math.Round(little.Over.Millilitres, 9)));
        Assert.True(Bottling.Plan(Ml(10), 0, Ml(0), Ml(0.5), Ml(0.5)).TryGet(out var drops));
        Assert.Equal(20, drops.Bottles);
        Assert.Equal("bottles", Assert.Single(Bottling.Plan(Ml(100), 0, Ml(0), Ml(29), Ml(30), atHand: -1).Problems).Field);
        Assert.Throws<ArgumentOutOfRangeException>(() => Bottling.Needed(-1, Ml(29), Ml(0), 0));
        Assert.Throws<ArgumentOutOfRangeException>(() => Bottling.Needed(1, Ml(29), Ml(0), 1));
    }

    [Theory, InlineData(0), InlineData(121), InlineData(-3)]
    public void A_bottle_keeps_from_one_month_to_ten_years(int months)
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => Keeping.KeepBy(new(2025, 9, 6), months));
        Assert.Equal(new(2025, 10, 6), Keeping.KeepBy(new(2025, 9, 6), 1));
        Assert.Equal(new(2035, 9, 6), Keeping.KeepBy(new(2025, 9, 6), 120));
    }

    [Fact]
    public void A_shop_without_commission_takes_the_own_price()
    {
        var cost = new Cost(10, 50, 5, 20, 5, 0);
        Assert.Equal(8, cost.OwnPrice(0), 1e-12);
        Assert.Equal(16, cost.ShopPrice(0.5, 0), 1e-12);
        Assert.Throws<ArgumentOutOfRangeException>(() => cost.ShopPrice(0.5, 1));
    }

    [Fact]
    public void Label_sheets_end_where_the_page_ends()
    {
        Assert.Equal(21, LabelSheet.UsualFront.PerPage);
        Assert.Equal(21, LabelSheet.UsualFront.Places.Count);

        // Three of 60 mm from 10 mm on: 10 mm between them reach 210 mm, the page's edge, and 10.1 mm reach beyond it.
        static string Json(string gap) =>
            $$"""{"page":"A4","columns":3,"rows":1,"widthMm":60,"heightMm":38,"leftMm":10,"topMm":15,"gapXMm":{{gap}},"gapYMm":0}""";
        Assert.True(LabelSheet.Parse("labels", Json("10")).TryGet(out _));
        Assert.Contains("210.2", Assert.Single(LabelSheet.Parse("labels", Json("10.1")).Problems).What, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(1, 30, 29, 30, "loss")]
    [InlineData(-0.1, 30, 29, 30, "loss")]
    [InlineData(double.NaN, 30, 29, 30, "loss")]
    [InlineData(0.03, 30, 31, 30, "fill")]
    [InlineData(0.03, 30, 0, 30, "fill")]
    [InlineData(0.03, 99999, 29, 30, "kept")]
    public void What_cannot_be_bottled_is_refused(double loss, double kept, double fill, double holds, string field) =>
        Assert.Equal(field, Assert.Single(Bottling.Plan(Ml(1354), loss, Ml(kept), Ml(fill), Ml(holds)).Problems).Field);

    [Fact]
    public void The_invented_season_s_prices_come_out_as_its_sums_say()
    {
        // Invented worked sums: 11 h × 14, 44 × 0.82, 2.6, 0.7 → 4.39 each, 5.05 with 15 %, 10.10 at half, 16.84 through a shop at 40 %.
        // They were rounded at every step, so they hold to a hundredth.
        var cost = new Cost(44, 11 * 14, 44 * 0.82, 2.6, 0.7, 0.15);
        Assert.Equal(4.39, cost.EachBare, 0.01);
        Assert.Equal(5.05, cost.Each, 0.01);
        Assert.Equal(10.10, cost.OwnPrice(0.5), 0.01);
        Assert.Equal(16.84, cost.ShopPrice(0.5, 0.4), 0.01);
        Assert.Throws<ArgumentOutOfRangeException>(() => cost.OwnPrice(1));
    }

    [Fact]
    public void Bottle_codes_are_unique_and_read_back()
    {
        var codes = new HashSet<string>();
        foreach (var batch in new[] { 1, 2, 23, 24, 529, 530, BottleCode.LastBatch })
        {
            foreach (var bottle in new[] { 1, 2, 22, 23, 24, BottleCode.LastBottle })
            {
                var code = BottleCode.ForBottle(batch, bottle);
                Assert.True(codes.Add(code));
                Assert.StartsWith(BottleCode.ForBatch(batch), code, StringComparison.Ordinal);
                Assert.True(BottleCode.Parse("code", code).TryGet(out var read));
                Assert.Equal((batch, bottle), read);
                Assert.True(
                    BottleCode.Parse("code", $" {code.ToLowerInvariant().Replace("-", " ", StringComparison.Ordinal)} ").TryGet(out _)
                );
            }
        }
    }

    [Fact]
    public void One_misread_sign_and_any_two_swapped_are_always_noticed()
    {
        var noticed = 0;
        foreach (var (batch, bottle) in new[] { (1, 1), (77, 44), (12_000, 500) })
        {
            var code = BottleCode.ForBottle(batch, bottle).Replace("-", "", StringComparison.Ordinal);
            for (var place = 0; place < 6; place++)
            {
                foreach (var sign in BottleCode.Signs.Where(sign => sign != code[place]))
                {
                    Assert.False(BottleCode.Parse("code", code[..place] + sign + code[(place + 1)..]).TryGet(out _));
                    noticed++;
                }

                for (var other = place + 1; other < 6; other++)
                {
                    if (code[place] == code[other])
                        continue;
                    var swapped = code.ToCharArray();
                    (swapped[place], swapped[other]) = (swapped[other], swapped[place]);
                    Assert.False(BottleCode.Parse("code", new string(swapped)).TryGet(out _));
                    noticed++;
                }
            }
        }

        Assert.True(noticed > 400);
    }

    [Theory]
    [InlineData("", "0 signs")]
    [InlineData("AAC", "3 signs")]
    [InlineData("OAC-AD7", "“O”")]
    [InlineData("AA1-AD7", "“1”")]
    [InlineData("AAAAAAAAAAAAAAAAAAAAAAAAAAAAA", "too long")]
    public void What_is_no_bottle_code_is_refused(string text, string part) =>
        Assert.Contains(part, Assert.Single(BottleCode.Parse("code", text).Problems).What, StringComparison.Ordinal);

    [Fact]
    public void Signs_that_are_mixed_up_are_left_out()
    {
        Assert.Equal(23, BottleCode.Signs.Distinct().Count());
        Assert.DoesNotContain(BottleCode.Signs, sign => "OQ0IL1S5B8Z2U".Contains(sign, StringComparison.Ordinal));
    }

    [Fact]
    public void Days_are_counted_from_the_oldest_part()
    {
        var made = Keeping.MadeOn([new(2025, 10, 18), new(2025, 9, 6)]);
        Assert.Equal(new DateOnly(2025, 9, 6), made);
        Assert.Equal(new DateOnly(2026, 2, 28), Keeping.KeepBy(new(2025, 11, 30), 3));
        // Invented season: made 2025-10-18, look again 2026-01-18, best before 2026-10-18.
        var keepBy = Keeping.KeepBy(new(2025, 10, 18), 12);
        Assert.Equal(new DateOnly(2026, 10, 18), keepBy);
        Assert.Equal(
            [new(2025, 11, 1), new(2026, 1, 18), new(2026, 4, 18), new(2026, 7, 18), new(2026, 10, 18)],
            Keeping.LooksAgain(new(2025, 10, 18), keepBy)
        );
    }
}

using Dyewort.Testing;
using Xunit;

namespace Dyewort.Readings.Tests;

/// <summary>Sheets that were printed and painted must be readable for ever: their layout may not move.</summary>
public sealed class SheetGoldenTests
{
    [Theory]
    [InlineData("A5", 4, 6)]
    [InlineData("A4", 6, 8)]
    public void A_printed_sheet_s_layout_does_not_move(string page, int columns, int rows)
    {
        Assert.True(PageSize.Parse("page", page).TryGet(out var size));
        Assert.True(
            SheetPlan
                .Make(
                    new SheetWish
                    {
                        Page = size,
                        Columns = columns,
                        Rows = rows,
                        Code = "EB25-1/3",
                        Number = 3,
                    }
                )
                .TryGet(out var plan)
        );
        Golden.Check(plan.Layout.ToJson(), "tests", "Dyewort.Readings.Tests", "Golden", $"sheet-{page}-{columns}x{rows}.json");
    }
}

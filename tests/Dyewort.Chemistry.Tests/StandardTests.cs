using Dyewort.Chemistry.Solving;
using Dyewort.Testing;
using Xunit;

namespace Dyewort.Chemistry.Tests;

/// <summary>The primary pH standards, over their temperature tables.</summary>
public sealed class StandardTests
{
    /// <summary>Below 10 °C the promise ends; docs/accuracy.md says what happens there.</summary>
    private const double ColdestPromised = 10;

    public static TheoryData<string, double, double> Rows() =>
        [
            .. PublishedTable
                .Read("bates1962-ph-standards.csv")
                .Select(row => (row["standard"], PublishedTable.Number(row["temp_c"]), PublishedTable.Number(row["ph"]))),
        ];

    [Theory, MemberData(nameof(Rows)), Published("Bates1962", "temperature table")]
    public void A_primary_standard_reads_what_it_should(string standard, double celsius, double published)
    {
        var tolerance =
            celsius == 25 ? 0.03
            : celsius >= ColdestPromised ? 0.05
            : 0.09;
        Assert.Equal(published, Compute(standard, celsius), tolerance);
    }

    [Fact, Published("Bates1962", "25 °C")]
    public void Saturated_lime_water_and_cream_of_tartar_hold_the_standards_pH_whatever_the_excess()
    {
        foreach (var (name, published) in (ReadOnlySpan<(string, double)>)[("slaked lime", 12.454), ("cream of tartar", 3.557)])
        {
            Assert.True(SubstanceCatalogue.Standard.Find("add", name).TryGet(out var named));
            foreach (var grams in (ReadOnlySpan<double>)[10, 20, 40])
            {
                Assert.True(
                    Jar.Equilibrate(new() { LiquorMillilitres = 1000, Portions = [Portion.OfGrams(named, grams)] }, 25)
                        .TryGet(out var state)
                );
                Assert.Equal(published, state.Ph, 0.03);
                Assert.True(state.Solids.Single().Grams > 0);
            }
        }
    }

    private static double Compute(string standard, double celsius)
    {
        // Molalities as the standards are made up, mol per kg of water.
        Dictionary<string, double> totals = standard switch
        {
            "Saturated potassium hydrogen tartrate (25 C)" => new()
            {
                ["K+"] = 0.0341,
                ["H+"] = 0.0341,
                ["Tartrate-2"] = 0.0341,
            },
            "Potassium dihydrogen citrate 0.05 m" => new()
            {
                ["K+"] = 0.05,
                ["H+"] = 0.1,
                ["Citrate-3"] = 0.05,
            },
            "Potassium hydrogen phthalate 0.05 m" => new()
            {
                ["K+"] = 0.05,
                ["H+"] = 0.05,
                ["Phthalate-2"] = 0.05,
            },
            "Phosphate 1:1" => new()
            {
                ["K+"] = 0.025,
                ["Na+"] = 0.05,
                ["H+"] = 0.075,
                ["PO4-3"] = 0.05,
            },
            "Phosphate 1:3.5" => new()
            {
                ["K+"] = 0.008695,
                ["Na+"] = 0.06086,
                ["H+"] = 0.01739 + 0.03043,
                ["PO4-3"] = 0.039125,
            },
            "Borax 0.01 m" => new()
            {
                ["Na+"] = 0.02,
                ["H3BO3"] = 0.04,
                ["H+"] = -0.02,
            },
            "Carbonate 0.025 + 0.025 m" => new()
            {
                ["Na+"] = 0.075,
                ["H+"] = 0.025,
                ["CO3-2"] = 0.05,
            },
            "Saturated calcium hydroxide (25 C)" => new() { ["Ca+2"] = 0.0203, ["H+"] = -0.0406 },
            _ => throw new ArgumentOutOfRangeException(nameof(standard), standard, "Not a standard."),
        };
        // The two saturated standards are saturated at 25 °C and then warmed or cooled without their solid.
        var output = EquilibriumSolver.Solve(
            new()
            {
                Totals = totals,
                Celsius = celsius,
                CarbonDioxide = CarbonDioxide.Sealed,
                AllowSolids = false,
            }
        );
        Assert.NotNull(output);
        return output.PH;
    }
}

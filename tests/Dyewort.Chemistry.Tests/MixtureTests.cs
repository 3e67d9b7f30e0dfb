using System.Globalization;
using Dyewort.Testing;
using Xunit;

namespace Dyewort.Chemistry.Tests;

/// <summary>Mixtures computed by an independent program from the same constants: the arithmetic, not reality.</summary>
public sealed class MixtureTests
{
    public static TheoryData<string> Ids() => [.. Rows().Select(row => row["id"])];

    [Theory, MemberData(nameof(Ids)), Published("Mixtures2026", "pH and solids columns")]
    public void A_practical_mixture_comes_out_as_the_independent_program_says(string id)
    {
        var row = Rows().Single(one => one["id"] == id);
        var contents = new JarContents { LiquorMillilitres = 90, Portions = [.. Read(row["additions"])] };
        var mode = row["gas"] switch
        {
            "open" => CarbonDioxide.Open,
            "vents" => CarbonDioxide.AfterFizzing,
            _ => CarbonDioxide.Sealed,
        };
        Assert.True(Jar.Equilibrate(contents, 20, mode, JarModel.PlainConstants).TryGet(out var state));
        // The task's own tolerance is 0.05; the arithmetic agrees far better than that.
        Assert.Equal(PublishedTable.Number(row["ph"]), state.Ph, 0.005);
        Assert.InRange(state.WorstBalance, 0, 1e-9);
        if (row["gas_ml"].Length > 0)
            Assert.Equal(PublishedTable.Number(row["gas_ml"]), state.GasMillilitres, 1.0);
        var expected = row["solids"];
        if (expected.Length == 0)
        {
            Assert.Empty(state.Solids);
            return;
        }

        var words = expected.Split(' ');
        var grams = PublishedTable.Number(words[1]);
        var solid = Assert.Single(state.Solids);
        Assert.Equal(words[0], solid.Key);
        // Printed to a milligram; a bottle of solid may be small.
        Assert.InRange(solid.Grams, (grams * 0.98) - 0.0005, (grams * 1.02) + 0.0005);
    }

    internal static List<Dictionary<string, string>> Rows() => PublishedTable.Read("mixtures-independent-program.csv");

    internal static IEnumerable<Portion> Read(string additions)
    {
        foreach (var part in additions.Split("; ", StringSplitOptions.RemoveEmptyEntries))
        {
            var words = part.Split(' ', 3);
            Assert.True(SubstanceCatalogue.Standard.Find("add", words[2]).TryGet(out var named), $"{words[2]} is not found.");
            var amount = double.Parse(words[0], CultureInfo.InvariantCulture);
            yield return words[1] == "g" ? Portion.OfGrams(named, amount) : Portion.OfMillilitres(named, amount);
        }
    }
}

using Dyewort.Chemistry;
using Xunit;

namespace Dyewort.Notebook.Tests;

public sealed class CommonMaterialsTests
{
    [Fact]
    public void Every_substance_that_a_common_material_names_is_in_the_chemistry_tables()
    {
        var named = CommonMaterial.All.Where(material => material.Key is not null).ToList();
        Assert.NotEmpty(named);
        var unknown = named
            .Where(material => SubstanceCatalogue.Standard.ByKey(material.Key!) is null)
            .Select(material => $"{material.Name} ({material.Key})")
            .ToList();
        Assert.True(unknown.Count == 0, $"Unknown: {string.Join(", ", unknown)}.");
    }
}

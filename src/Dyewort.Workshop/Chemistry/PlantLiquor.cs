using Dyewort.Chemistry;

namespace Dyewort.Workshop.Chemistry;

/// <summary>What is believed of a plant's liquor before anybody tested it.</summary>
internal static class PlantLiquor
{
    /// <summary>The belief for this plant; for one the tables do not know, that of any plant.</summary>
    public static ExtractBuffer Of(string plant) =>
        ExtractBuffer.Find("plant", plant).TryGet(out var known)
            ? known
            : ExtractBuffer.Prior(ExtractBuffer.Kinds.First(kind => kind.Name == "any plant"));
}

using Xunit.v3;

namespace Dyewort.Testing;

/// <summary>Marks a test whose expected values were printed by somebody outside this project.</summary>
/// <remarks>The key must stand in docs/REFERENCES.md; the architecture tests check that it does.</remarks>
[AttributeUsage(AttributeTargets.Method | AttributeTargets.Class, AllowMultiple = true)]
public sealed class PublishedAttribute(string key, string where) : Attribute, ITraitAttribute
{
    public string Key { get; } = key;

    public string Where { get; } = where;

    public IReadOnlyCollection<KeyValuePair<string, string>> GetTraits() => [new("Published", $"{Key}, {Where}")];
}

using System.Globalization;

namespace Dyewort.Chemistry.Solving;

/// <summary>Moles of each component in one mole of something. "H+" may be negative (a base), "H2O" is carried apart.</summary>
internal sealed class Composition
{
    public static readonly Composition Nothing = new([]);

    private Composition(Dictionary<string, double> moles) => Moles = moles;

    public IReadOnlyDictionary<string, double> Moles { get; }

    /// <summary>Reads "Na+ 1 H+ 1 CO3-2 1".</summary>
    public static Composition Parse(string text)
    {
        var words = text.Split(' ', StringSplitOptions.RemoveEmptyEntries);
        var moles = new Dictionary<string, double>();
        for (var i = 0; i + 1 < words.Length; i += 2)
            moles[words[i]] = double.Parse(words[i + 1], CultureInfo.InvariantCulture);
        return moles.Count == 0 ? Nothing : new(moles);
    }

    public static Composition Of(IReadOnlyDictionary<string, double> moles) => new(new(moles));
}

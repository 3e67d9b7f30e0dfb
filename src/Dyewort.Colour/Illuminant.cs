using System.Collections.Concurrent;
using Dyewort.Numerics;

namespace Dyewort.Colour;

/// <summary>A light by its relative spectral power, 380 to 780 nm every 5 nm.</summary>
/// <remarks>Source: CIE 15:2004 and CIE 015:2018 tables [CIE15].</remarks>
public sealed class Illuminant
{
    private static readonly Dictionary<string, Illuminant> Known = Load();
    private readonly ConcurrentDictionary<Observer, Weighting> weights = new();

    private Illuminant(string name, double[] power) => (Name, Power) = (name, power);

    /// <summary>Every light of the table: A, C, D50, D65, FL2, FL7, FL11 and the CIE LED lights.</summary>
    public static IReadOnlyCollection<Illuminant> All => Known.Values;

    /// <summary>Average daylight, the light colours are stored under.</summary>
    public static Illuminant D65 => Known["D65"];

    /// <summary>Warm daylight, the light of the printing trade.</summary>
    public static Illuminant D50 => Known["D50"];

    /// <summary>An incandescent lamp.</summary>
    public static Illuminant A => Known["A"];

    /// <summary>Daylight of the 1931 system, the light of the Munsell renotation.</summary>
    public static Illuminant C => Known["C"];

    /// <summary>The CIE's name.</summary>
    public string Name { get; }

    internal double[] Power { get; }

    /// <summary>A light of the table by its name, such as FL11 or LED-B3; null if there is none.</summary>
    public static Illuminant? Find(string name) => Known.GetValueOrDefault(name);

    /// <summary>XYZ of the perfect diffuser under this light, by summation, Y = 100.</summary>
    public Xyz White(Observer observer) => Spectrum.PerfectDiffuser.ToXyz(this, observer);

    internal Weighting Weights(Observer observer) => weights.GetOrAdd(observer, (key, light) => Weighting.Of(light, key), this);

    private static Dictionary<string, Illuminant> Load()
    {
        var table = TextTable.Embedded(typeof(Illuminant), "illuminants.csv");
        var known = new Dictionary<string, Illuminant>(StringComparer.OrdinalIgnoreCase);
        foreach (var name in table.Columns.Skip(1))
            known.Add(name, new(name, [.. table.Rows.Select(row => row.NumberOf(name))]));

        return known;
    }
}

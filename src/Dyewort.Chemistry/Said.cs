using Dyewort.Quantities;

namespace Dyewort.Chemistry;

/// <summary>Amounts as this room says them in sentences.</summary>
internal static class Said
{
    /// <summary>"12.0 g", "0.25 g", "4 mg".</summary>
    public static string Grams(double grams) =>
        grams >= 1 ? InvariantText.Of($"{grams:0.0} g")
        : grams >= 0.01 ? InvariantText.Of($"{grams:0.00} g")
        : InvariantText.Of($"{grams * 1000:0} mg");

    /// <summary>"1.2 litres", "90 ml".</summary>
    public static string Volume(double millilitres) =>
        millilitres >= 1000 ? InvariantText.Of($"{millilitres / 1000:0.0} litres") : InvariantText.Of($"{millilitres:0} ml");

    /// <summary>A name at the beginning of a sentence.</summary>
    public static string Capital(string name) => char.ToUpperInvariant(name[0]) + name[1..];
}

using Dyewort.Numerics;

namespace Dyewort.Colour;

/// <summary>A CIE standard colorimetric observer, 380 to 780 nm every 5 nm.</summary>
/// <remarks>Source: CIE 15 tables [CIE15].</remarks>
public sealed class Observer
{
    private Observer(string name, int field)
    {
        Name = name;
        var table = TextTable.Embedded(typeof(Observer), "observers.csv");
        double[] Column(char letter) => [.. table.Rows.Select(row => row.NumberOf($"{letter}{field}"))];
        (X, Y, Z) = (Column('x'), Column('y'), Column('z'));
    }

    /// <summary>CIE 1931, for fields of 2°: the observer colours are stored for.</summary>
    public static Observer Cie1931 { get; } = new("CIE 1931 2°", 2);

    /// <summary>CIE 1964, for fields of 10°: the observer of textile standards.</summary>
    public static Observer Cie1964 { get; } = new("CIE 1964 10°", 10);

    /// <summary>What it is called.</summary>
    public string Name { get; }

    internal double[] X { get; }

    internal double[] Y { get; }

    internal double[] Z { get; }
}

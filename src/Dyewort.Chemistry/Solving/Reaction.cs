using System.Globalization;
using Dyewort.Numerics;

namespace Dyewort.Chemistry.Solving;

/// <summary>A species or solid written on the components, with its constant against temperature.</summary>
internal sealed class Reaction
{
    private const double GasConstant = 8.314462618;
    private readonly double logK25;
    private readonly double? enthalpyKilojoules;
    private readonly double[]? analytic;

    private Reaction(
        string name,
        int charge,
        Dictionary<string, double> components,
        double waters,
        double logK25,
        double? enthalpy,
        double[]? analytic
    )
    {
        (Name, Charge, Components, Waters) = (name, charge, components, waters);
        (this.logK25, enthalpyKilojoules, this.analytic) = (logK25, enthalpy, analytic);
    }

    public string Name { get; }

    public int Charge { get; }

    /// <summary>For a species: log a = log K + Σ ν log a(component) + waters · log a(water). For a solid the same sum without log a equals
    /// log K when saturated.</summary>
    public IReadOnlyDictionary<string, double> Components { get; }

    public double Waters { get; }

    /// <summary>log10 K at a temperature: the published expression where there is one, else van 't Hoff with a constant enthalpy.</summary>
    public double LogK(double celsius)
    {
        var t = celsius + 273.15;
        if (analytic is { } a)
            return a[0] + (a[1] * t) + (a[2] / t) + (a[3] * Math.Log10(t)) + (a[4] / (t * t));
        return logK25 - ((enthalpyKilojoules ?? 0) * 1000 / (GasConstant * Math.Log(10)) * ((1 / t) - (1 / 298.15)));
    }

    /// <summary>A row of which only the constant is wanted, such as the solubility of a gas.</summary>
    public static Reaction ConstantOnly(TextRow row) =>
        new(row["name"], 0, [], 0, row.Number("log_k_25") ?? 0, row.Number("dh_kj_per_mol"), Expression(row));

    public static Reaction Parse(TextRow row)
    {
        var name = row["name"];
        var isSolid = row["kind"] == "solid";
        var sides = row["reaction"].Split(" = ");
        var components = new Dictionary<string, double>();
        var waters = 0.0;
        var own = 0.0;
        // A dissolved species stands on the right and is made from what stands left; a solid stands on the left and gives what stands
        // right.
        Take(sides[0], isSolid ? -1 : 1);
        Take(sides[1], isSolid ? 1 : -1);
        if (own == 0)
            throw new InvalidOperationException($"{name} is not in its own reaction “{row["reaction"]}”.");
        return new(
            name,
            int.Parse(row["charge"], CultureInfo.InvariantCulture),
            components,
            waters,
            row.Number("log_k_25") ?? 0,
            row.Number("dh_kj_per_mol"),
            Expression(row)
        );

        void Take(string side, int sign)
        {
            foreach (var term in side.Split(" + "))
            {
                var words = term.Trim().Split(' ');
                var (count, what) = words.Length == 2 ? (double.Parse(words[0], CultureInfo.InvariantCulture), words[1]) : (1.0, words[0]);
                if (what == "H2O")
                    waters += sign * count;
                else if (own == 0 && (isSolid ? sign < 0 : sign < 0 && what == name))
                    own = count;
                else
                    components[what] = components.GetValueOrDefault(what) + (sign * count);
            }
        }
    }

    private static double[]? Expression(TextRow row) =>
        row["analytic"] is { Length: > 0 } text
            ? [.. text.Split(' ', StringSplitOptions.RemoveEmptyEntries).Select(part => double.Parse(part, CultureInfo.InvariantCulture))]
            : null;
}

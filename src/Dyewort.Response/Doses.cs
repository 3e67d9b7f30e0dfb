using System.Collections;
using System.Runtime.CompilerServices;

namespace Dyewort.Response;

/// <summary>So much of one addition.</summary>
/// <param name="Name">The addition, as the trials name it.</param>
/// <param name="Amount">How much, above 0, in the unit of the <see cref="Doses"/> it stands in.</param>
public readonly record struct Dose(string Name, double Amount);

/// <summary>So much of each addition, found by its name in upper or lower case.</summary>
/// <remarks>All amounts are of one unit, which the property that holds them names: grams per litre of liquor, grams for a batch, grams of a
/// smallest measure. Amounts are finite and above 0; what is not in it is 0, so setting 0 takes an addition out. Nothing in it ever
/// changes. Enumerated in the order in which the additions were named; two are equal where names and amounts are, in whatever
/// order.</remarks>
[CollectionBuilder(typeof(Doses), nameof(Of))]
#pragma warning disable CA1710 // The trade's own word.
public sealed class Doses : IReadOnlyCollection<Dose>, IEquatable<Doses>
#pragma warning restore CA1710
{
    private readonly Dose[] all;

    private Doses(Dose[] all) => this.all = all;

    /// <summary>Nothing of anything.</summary>
    public static Doses None { get; } = new([]);

    /// <summary>How many additions are in it.</summary>
    public int Count => all.Length;

    /// <summary>The additions.</summary>
    public IEnumerable<string> Names => all.Select(dose => dose.Name);

    /// <summary>How much of an addition; 0 where it is not in it.</summary>
    public double this[string name] => Find(name) ?? 0;

    /// <summary>Doses in the order given; those of 0 are left out.</summary>
    /// <exception cref="ArgumentException">An addition is named twice.</exception>
    /// <exception cref="ArgumentOutOfRangeException">An amount is below 0 or not a finite number.</exception>
    public static Doses Of(params ReadOnlySpan<Dose> doses)
    {
        var kept = new List<Dose>(doses.Length);
        foreach (var dose in doses)
        {
            if (!(Checked(dose.Amount) > 0))
                continue;
            if (kept.Exists(known => Same(known.Name, dose.Name)))
                throw new ArgumentException($"{dose.Name} is named twice.", nameof(doses));
            kept.Add(dose);
        }

        return kept.Count == 0 ? None : new([.. kept]);
    }

    /// <summary>How much of an addition; null where it is not in it.</summary>
    public double? Find(string name)
    {
        foreach (var dose in all)
        {
            if (Same(dose.Name, name))
                return dose.Amount;
        }

        return null;
    }

    /// <summary>True where it holds the addition.</summary>
    public bool Contains(string name) => Find(name) is not null;

    /// <summary>The same with one amount set; 0 takes the addition out.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The amount is below 0 or not a finite number.</exception>
    public Doses With(string name, double amount)
    {
        var place = Array.FindIndex(all, dose => Same(dose.Name, name));
        if (!(Checked(amount) > 0))
            return place < 0 ? this : new([.. all[..place], .. all[(place + 1)..]]);
        if (place < 0)
            return new([.. all, new(name, amount)]);
        var changed = (Dose[])all.Clone();
        changed[place] = changed[place] with { Amount = amount };
        return new(changed);
    }

    /// <summary>The same with more of one addition.</summary>
    public Doses Plus(string name, double amount) => With(name, this[name] + amount);

    /// <summary>Both together.</summary>
    public Doses Plus(Doses other)
    {
        ArgumentNullException.ThrowIfNull(other);
        return other.all.Aggregate(this, (sum, dose) => sum.Plus(dose.Name, dose.Amount));
    }

    /// <summary>Every amount times a factor of 0 or above.</summary>
    public Doses Scale(double factor) =>
        Checked(factor) > 0 ? new(Array.ConvertAll(all, dose => dose with { Amount = Checked(dose.Amount * factor) })) : None;

    /// <inheritdoc cref="Plus(Doses)"/>
    public static Doses operator +(Doses one, Doses other) => one.Plus(other);

    /// <inheritdoc cref="Scale"/>
    public static Doses operator *(double factor, Doses doses) => doses.Scale(factor);

    /// <inheritdoc/>
    public IEnumerator<Dose> GetEnumerator() => ((IEnumerable<Dose>)all).GetEnumerator();

    IEnumerator IEnumerable.GetEnumerator() => GetEnumerator();

    /// <inheritdoc/>
    public bool Equals(Doses? other) =>
        other is not null && Count == other.Count && Array.TrueForAll(all, dose => other.Find(dose.Name) == dose.Amount);

    /// <inheritdoc/>
    public override bool Equals(object? obj) => Equals(obj as Doses);

    /// <inheritdoc/>
    public override int GetHashCode() =>
        all.Aggregate(0, (sum, dose) => sum + HashCode.Combine(StringComparer.OrdinalIgnoreCase.GetHashCode(dose.Name), dose.Amount));

    private static bool Same(string one, string other) => string.Equals(one, other, StringComparison.OrdinalIgnoreCase);

    private static double Checked(double amount) =>
        amount is >= 0 and < double.PositiveInfinity
            ? amount
            : throw new ArgumentOutOfRangeException(nameof(amount), amount, "An amount is 0 or above, and finite.");
}

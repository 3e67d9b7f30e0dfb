namespace Dyewort.Making;

/// <summary>What a batch cost, and what it must be sold for; any currency.</summary>
/// <param name="Bottles">Bottles it gave, at least 1.</param>
/// <param name="Labour">Hours times wage.</param>
/// <param name="Packing">Bottles, caps and labels.</param>
/// <param name="Materials">Plants, additions, paper.</param>
/// <param name="Heat">Gas or electricity.</param>
/// <param name="OverheadShare">Rent, breakage, failed pots and testers as a share of the rest, zero or more.</param>
public sealed record Cost(int Bottles, double Labour, double Packing, double Materials, double Heat, double OverheadShare)
{
    /// <summary>Without overhead.</summary>
    public double Total => Labour + Packing + Materials + Heat;

    /// <summary>One bottle, without overhead.</summary>
    public double EachBare => Total / Bottles;

    /// <summary>One bottle, with overhead.</summary>
    public double Each => EachBare * (1 + OverheadShare);

    /// <summary>The price at which the maker keeps a share of it.</summary>
    /// <param name="margin">Share of the price that stays with the maker, 0 to under 1.</param>
    /// <exception cref="ArgumentOutOfRangeException">Outside that range.</exception>
    public double OwnPrice(double margin) =>
        margin is >= 0 and < 1
            ? Each / (1 - margin)
            : throw new ArgumentOutOfRangeException(nameof(margin), margin, "Allowed: 0 to under 1.");

    /// <summary>The shop's price at which the maker gets as much as at the own price.</summary>
    /// <param name="margin">Share of the own price that stays with the maker, 0 to under 1.</param>
    /// <param name="commission">Share of the shop's price that the shop takes, 0 to under 1.</param>
    /// <exception cref="ArgumentOutOfRangeException">Outside those ranges.</exception>
    public double ShopPrice(double margin, double commission) =>
        commission is >= 0 and < 1
            ? OwnPrice(margin) / (1 - commission)
            : throw new ArgumentOutOfRangeException(nameof(commission), commission, "Allowed: 0 to under 1.");
}

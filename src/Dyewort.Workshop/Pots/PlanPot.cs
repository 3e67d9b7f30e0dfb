using Dyewort.Pots;
using Dyewort.Quantities;

namespace Dyewort.Workshop.Pots;

/// <summary>Plans a pot backwards from the bottles wanted.</summary>
public sealed class PlanPot : IUseCase
{
    /// <param name="form">What was typed.</param>
    /// <param name="past">The maker's pots of this plant.</param>
    /// <param name="kitchen">Whose cups and pints are meant.</param>
    public Outcome<PotPlan> Handle(PlanPotForm form, IReadOnlyList<PastPot> past, Teaspoon kitchen = Teaspoon.Metric)
    {
        var entered = new Entered(kitchen);
        var plant = entered.Words("plant", form.Plant, "The plant", 80);
        var bottles = string.IsNullOrWhiteSpace(form.Bottles)
            ? 0
            : entered.Whole("bottles", form.Bottles, "How many bottles", 0, 100_000, 40);
        var fill = entered.Volume("fill", form.Fill) ?? 30;
        var liquor = entered.Volume("liquor", form.Liquor) ?? 0;
        var keep = entered.Volume("keep-back", form.KeepBack) ?? 0;
        var loss = entered.OptionalNumber("filter-loss", form.FilterLoss, "%", 0, 50, "3") ?? 3;
        var additions = entered.Volume("additions", form.Additions, 0, 300) ?? 0;
        var reduce = entered.OptionalNumber("reduce-to", form.ReduceTo, "%", 1, 100, "50") ?? 100;
        var strength = entered.OptionalNumber("strength", form.Strength, "strength", 0.001, 20, "0.6");
        var ratio = entered.Mass("ratio", form.Ratio, 0.01, 2000);
        var pot = entered.Volume("pot", form.Pot);
        var onHand = entered.Mass("on-hand", form.OnHand);
        var state = string.IsNullOrWhiteSpace(form.State) ? (PlantForm?)null : entered.OneOf("state", form.State, PlantForm.Dry);
        var colourants = string.IsNullOrWhiteSpace(form.Class)
            ? (ColourantClass?)null
            : entered.OneOf("class", form.Class, ColourantClass.Unknown);
        var liquid = string.IsNullOrWhiteSpace(form.Base) ? (PotBase?)null : entered.OneOf("base", form.Base, PotBase.Water);
        var metal = entered.OneOf("metal", form.Metal, PotMetal.None);
        var rate = entered.OptionalNumber("boil-off", form.BoilOff, "litres an hour", 0.01, 20, "0.4");
        var spirit = entered.OptionalNumber("spirit-strength", form.SpiritStrength, "% by volume", 1, 100, "40");
        if (!entered.Sound)
            return Outcome.Refused<PotPlan>(entered.Problems);
        var planned = PotPlanner.Plan(
            new PotWish(plant, bottles, fill, liquor, keep, loss / 100, additions, reduce / 100, strength),
            new PotMeans(
                state,
                colourants,
                ratio,
                pot,
                null,
                onHand,
                past,
                rate is { } known ? new BoilOffRate(known, 0.75 * known, 1.3 * known, 0) : null,
                liquid,
                metal,
                spirit
            )
        );
        return planned.TryGet(out var plan) ? entered.Made(plan) : planned;
    }
}

public sealed record PlanPotForm
{
    public string? Plant { get; init; }

    public string? Bottles { get; init; }

    public string? Fill { get; init; }

    public string? Liquor { get; init; }

    public string? KeepBack { get; init; }

    public string? FilterLoss { get; init; }

    public string? Additions { get; init; }

    public string? ReduceTo { get; init; }

    public string? Strength { get; init; }

    public string? Ratio { get; init; }

    public string? Pot { get; init; }

    public string? OnHand { get; init; }

    public string? State { get; init; }

    public string? Class { get; init; }

    public string? Base { get; init; }

    public string? Metal { get; init; }

    public string? BoilOff { get; init; }

    public string? SpiritStrength { get; init; }
}

using Dyewort.Pots;
using Dyewort.Quantities;

namespace Dyewort.Workshop.Pots;

/// <summary>Expects the second and third run of a plant.</summary>
public sealed class ExpectFurtherRuns : IUseCase
{
    public Outcome<IReadOnlyList<FurtherRun>> Handle(ExpectFurtherRunsForm form)
    {
        var entered = new Entered();
        double Needed(string field, string? text, string name)
        {
            var value = entered.Volume(field, text);
            if (value is null && !entered.Problems.Any(problem => problem.Field == field))
                entered.Refuse(field, $"{name} is missing.", "Give a volume, such as 600 ml.");
            return value ?? 0;
        }

        var outMl = Needed("out", form.Out, "The first run's liquor");
        var held = Needed("held", form.Held, "What the plant still holds");
        var water = Needed("water", form.Water, "The water for a further run");
        var released = entered.OptionalNumber("released", form.Released, "%", 1, 100, "90") ?? 90;
        var rate = entered.OptionalNumber("boil-off", form.BoilOff, "litres an hour", 0.01, 20, "0.4") ?? 0.42;
        var plant = entered.OptionalNumber("plant-price", form.PlantPrice, "money", 0, 1e6, "4");
        var heat = entered.OptionalNumber("heat-price", form.HeatPrice, "money a kilowatt-hour", 0, 1000, "0.3");
        return entered.Sound
            ? ColourSums.Further(
                outMl,
                held,
                water,
                released / 100,
                3,
                new BoilOffRate(rate, 0.75 * rate, 1.3 * rate, 0),
                plant is { } a && heat is { } b ? new RunPrices(a, b) : null
            )
            : Outcome.Refused<IReadOnlyList<FurtherRun>>(entered.Problems);
    }
}

public sealed record ExpectFurtherRunsForm
{
    public string? Out { get; init; }

    public string? Held { get; init; }

    public string? Water { get; init; }

    public string? Released { get; init; }

    public string? BoilOff { get; init; }

    public string? PlantPrice { get; init; }

    public string? HeatPrice { get; init; }
}

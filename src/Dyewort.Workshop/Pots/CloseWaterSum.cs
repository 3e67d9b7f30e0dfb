using Dyewort.Pots;
using Dyewort.Quantities;

namespace Dyewort.Workshop.Pots;

/// <summary>Closes a pot's water sum.</summary>
public sealed class CloseWaterSum : IUseCase
{
    public Outcome<WaterSumAnswer> Handle(CloseWaterSumForm form)
    {
        var entered = new Entered();
        var figures = new List<WaterFigure>();
        void Line(WaterLine line, string field, string? text)
        {
            // A tilde marks what was judged by eye.
            var guessed = text?.TrimStart().StartsWith('~') == true;
            if (entered.Volume(field, guessed ? text!.TrimStart()[1..] : text) is { } ml)
                figures.Add(new(line, ml, guessed ? FigureSource.Estimated : FigureSource.Measured));
        }

        Line(WaterLine.In, "in", form.In);
        Line(WaterLine.FromPlant, "from-plant", form.FromPlant);
        Line(WaterLine.Out, "out", form.Out);
        Line(WaterLine.BoiledOff, "boiled-off", form.BoiledOff);
        Line(WaterLine.Held, "held", form.Held);
        Line(WaterLine.Spilt, "spilt", form.Spilt);
        var grams = entered.Mass("plant", form.Plant);
        var state = entered.OneOf("state", form.State, PlantForm.Fresh);
        var hours = entered.Hours("hours", form.Hours, 0, 10_000) ?? 0;
        var celsius = entered.Temperature("temperature", form.Temperature, 0, 100) ?? 90;
        var heat = entered.OptionalNumber("heat", form.Heat, "kW", 0.01, 50, "1");
        return entered.Sound
            ? WaterSum.Close(figures, new PotFacts(grams, state, form.Pressed, hours, celsius, null, heat))
            : Outcome.Refused<WaterSumAnswer>(entered.Problems);
    }
}

public sealed record CloseWaterSumForm
{
    public string? In { get; init; }

    public string? FromPlant { get; init; }

    public string? Out { get; init; }

    public string? BoiledOff { get; init; }

    public string? Held { get; init; }

    public string? Spilt { get; init; }

    public string? Plant { get; init; }

    public string? State { get; init; }

    public bool Pressed { get; init; }

    public string? Hours { get; init; }

    public string? Temperature { get; init; }

    public string? Heat { get; init; }
}

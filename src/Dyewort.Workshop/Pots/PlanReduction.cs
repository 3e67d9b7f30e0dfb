using Dyewort.Chemistry;
using Dyewort.Pots;
using Dyewort.Quantities;

namespace Dyewort.Workshop.Pots;

/// <summary>Plans reducing a liquor, with every dose re-stated and what falls out computed.</summary>
public sealed class PlanReduction : IUseCase
{
    /// <param name="form">What was typed.</param>
    /// <param name="boils">Boils of the past in this pot on this ring.</param>
    /// <param name="pot">The pot's name in those.</param>
    /// <param name="ring">The ring's name in those.</param>
    public Outcome<PlanReductionAnswer> Handle(
        PlanReductionForm form,
        IReadOnlyList<BoilOffRecord> boils,
        string pot = "",
        string ring = ""
    )
    {
        var entered = new Entered();
        var from = entered.Volume("from", form.From);
        if (from is null && entered.Sound)
            entered.Refuse("from", "The liquor to start from is missing.", "Give its volume, such as 700 ml.");
        var to = entered.Volume("to", form.To);
        var times = entered.OptionalNumber("times", form.Times, "times the strength", 1.0001, 50, "1.5");
        if (to is null == times is null && entered.Sound)
            entered.Refuse(
                "to",
                "It is not clear how far to reduce.",
                "Give either the volume to reach or how many times as strong it shall be."
            );
        var celsius = entered.Temperature("temperature", form.Temperature, 20, 100) ?? 96;
        var across = entered.Length("diameter", form.Diameter, 50, 1000, centimetres: true) / 10;
        var heat = entered.OptionalNumber("heat", form.Heat, "kW", 0.01, 50, "1");
        var given = entered.OptionalNumber("boil-off", form.BoilOff, "litres an hour", 0.01, 20, "0.4");
        var colourants = entered.OneOf("class", form.Class, ColourantClass.Unknown);
        var portions = form.Add.Select(text => ReadPortion(entered, text)).OfType<Portion>().ToList();
        if (Caution.WhyNever(portions.Select(portion => portion.Named.Substance.Name)) is { } never)
            entered.Refuse("add", $"That is not boiled down. {never}", "Leave it out.");
        if (!entered.Sound)
            return Outcome.Refused<PlanReductionAnswer>(entered.Problems);

        var predicted = BoilOff.Predict(boils, pot, ring, form.Lid, celsius, across, heat);
        if (!predicted.TryGet(out var learned))
            return Outcome.Refused<PlanReductionAnswer>(predicted.Problems);
        var rate = given is { } litres ? new BoilOffRate(litres, 0.8 * litres, 1.25 * litres, 0) : learned;
        var prior = CurvePrior.For(colourants, Tissue.Soft);
        var loss = colourants == ColourantClass.Unknown ? 0 : new Arrhenius(prior.LossPerHourAt80, 80, prior.LossKilojoules).At(celsius);
        var start = new PotToReduce(
            from!.Value,
            rate,
            loss,
            [.. portions.Select(portion => new DissolvedDose(portion.Named.Name, portion.Grams))],
            across,
            Math.Exp(1.645 * prior.LossSpread)
        );
        var planned = to is { } end ? Reduction.ToVolume(start, end) : Reduction.ToStrength(start, times!.Value);
        if (!planned.TryGet(out var plan))
            return Outcome.Refused<PlanReductionAnswer>(planned.Problems);
        if (portions.Count == 0)
            return Outcome.Of(new PlanReductionAnswer(plan, rate, null));

        var poured = portions.Sum(portion => portion.Millilitres);
        if (poured >= from.Value)
            return Outcome.Refused<PlanReductionAnswer>(
                "add",
                "The liquids added are more than the whole liquor.",
                "Check their amounts, or the volume to start from."
            );
        var reduced = ReducedJar.Of(new JarContents { LiquorMillilitres = from.Value - poured, Portions = portions }, plan.EndMillilitres);
        return reduced.TryGet(out var jar)
            ? Outcome.Of(new PlanReductionAnswer(plan with { Warnings = [.. jar.Warnings, .. plan.Warnings] }, rate, jar))
            : Outcome.Refused<PlanReductionAnswer>(reduced.Problems);
    }

    private static Portion? ReadPortion(Entered entered, string text)
    {
        var sign = text.IndexOf('=', StringComparison.Ordinal);
        if (sign <= 0)
        {
            entered.Refuse("add", $"“{text}” does not say what and how much.", "Write it as alum=14 g.");
            return null;
        }

        var (named, amount) = (
            entered.Take(SubstanceCatalogue.Standard.Find("add", text[..sign])),
            entered.Take(Amount.Parse("add", text[(sign + 1)..]))
        );
        return named is null || amount is null ? null : entered.Take(Portion.Measured("add", named, amount, Teaspoon.Metric));
    }
}

public sealed record PlanReductionAnswer(ReductionPlan Plan, BoilOffRate Rate, ReducedJar? Jar);

public sealed record PlanReductionForm
{
    public string? From { get; init; }

    public string? To { get; init; }

    public string? Times { get; init; }

    /// <summary>Additions already in the pot, as "alum=14 g".</summary>
    public IReadOnlyList<string> Add { get; init; } = [];

    public string? BoilOff { get; init; }

    public string? Temperature { get; init; }

    public string? Diameter { get; init; }

    public string? Heat { get; init; }

    public bool Lid { get; init; }

    public string? Class { get; init; }
}

using System.Globalization;
using Dyewort.Chemistry;
using Dyewort.Quantities;
using Dyewort.Safety;

namespace Dyewort.Workshop.Chemistry;

/// <summary>The small sums of the trade: a lake, a stock bottle, iron against tannin, gum, spirit, an unknown iron liquor.</summary>
public sealed class WorkASum : IUseCase
{
    public Outcome<WorkASumAnswer> Handle(WorkASumForm form)
    {
        ArgumentNullException.ThrowIfNull(form);
        return form.Sum switch
        {
            "lake" => LakeOf(form),
            "stock" => StockOf(form),
            "iron" => IronOf(form),
            "titration" => TitrationOf(form),
            "gum" => GumOf(form),
            "spirit" => SpiritOf(form),
            _ => Outcome.Refused<WorkASumAnswer>(
                nameof(form.Sum),
                $"“{form.Sum}” is not one of the sums.",
                "Choose lake, stock, iron, titration, gum or spirit."
            ),
        };
    }

    private static Outcome<WorkASumAnswer> LakeOf(WorkASumForm form)
    {
        var salt = SubstanceCatalogue.Standard.Find(nameof(form.Salt), form.Salt);
        var alkali = SubstanceCatalogue.Standard.Find(nameof(form.Alkali), form.Alkali);
        var grams = Number(nameof(form.SaltGrams), form.SaltGrams, 0.001, 100_000, "g");
        var liquor = Number(nameof(form.LiquorMl), form.LiquorMl, 1, 1e6, "ml");
        if (
            !salt.TryGet(out var metal)
            || !alkali.TryGet(out var alkaline)
            || !grams.TryGet(out var much)
            || !liquor.TryGet(out var millilitres)
        )
            return Outcome.Refused<WorkASumAnswer>([.. salt.Problems, .. alkali.Problems, .. grams.Problems, .. liquor.Problems]);
        var planned = Lake.Plan(metal, much, alkaline, millilitres);
        if (!planned.TryGet(out var lake))
            return Outcome.Refused<WorkASumAnswer>(planned.Problems);
        var lines = new List<string> { lake.Words };
        if (!string.IsNullOrWhiteSpace(form.DryYieldGrams))
        {
            var weighed = Number(nameof(form.DryYieldGrams), form.DryYieldGrams, 0, 100_000, "g");
            if (!weighed.TryGet(out var dry))
                return Outcome.Refused<WorkASumAnswer>(weighed.Problems);
            lines.Add(lake.Judge(dry));
        }

        if (alkaline.Hazard is { } hazard)
            lines.Add($"Careful with the {alkaline.Name}. {hazard.Words} {Hazard.GoesFirst}");
        return Outcome.Of(new WorkASumAnswer(lines));
    }

    private static Outcome<WorkASumAnswer> StockOf(WorkASumForm form)
    {
        var found = SubstanceCatalogue.Standard.Find(nameof(form.Substance), form.Substance);
        if (!found.TryGet(out var named))
            return Outcome.Refused<WorkASumAnswer>(found.Problems);
        var doses = new List<double>();
        foreach (var text in (form.Doses ?? "").Split([' ', ',', ';', '\n', '\r', 'g'], StringSplitOptions.RemoveEmptyEntries))
        {
            var dose = Number(nameof(form.Doses), text, 1e-6, 1000, "g");
            if (!dose.TryGet(out var grams))
                return Outcome.Refused<WorkASumAnswer>(dose.Problems);
            doses.Add(grams);
        }

        var tool = form.Tool == "drops" ? StockTool.Drops : StockTool.Syringe;
        var planned = StockSolution.Plan(named, doses, tool);
        if (!planned.TryGet(out var stock))
            return Outcome.Refused<WorkASumAnswer>(planned.Problems);
        var lines = new List<string> { stock.Words };
        lines.AddRange(
            stock.Doses.Select(dose =>
                dose.Drops > 0
                    ? Say($"{dose.WantedGrams:0.####} g: {dose.Drops} drops ({100 * dose.Error:+0.0;−0.0;0} %)")
                    : Say($"{dose.WantedGrams:0.####} g: {dose.Millilitres:0.#} ml ({100 * dose.Error:+0.0;−0.0;0} %)")
            )
        );
        lines.Add(stock.Keeps);
        if (named.Hazard is { SignalWord: not "none" } hazard)
            lines.Add($"Careful with the {named.Name}. {hazard.Words} {Hazard.GoesFirst}");
        return Outcome.Of(new WorkASumAnswer(lines));
    }

    private static Outcome<WorkASumAnswer> IronOf(WorkASumForm form)
    {
        var iron = Number(nameof(form.CopperasGrams), form.CopperasGrams, 0, 100_000, "g");
        var tannin = Number(nameof(form.TanninGrams), form.TanninGrams, 0, 100_000, "g");
        if (!iron.TryGet(out var copperas) || !tannin.TryGet(out var acid))
            return Outcome.Refused<WorkASumAnswer>([.. iron.Problems, .. tannin.Problems]);
        var balance = IronTannin.Balance(copperas, acid);
        var lines = new List<string>
        {
            balance.Words,
            Say($"{acid:0.###} g of tannin binds {acid * IronTannin.CopperasPerGramTannicAcid:0.##} g of copperas."),
        };
        if (balance.SpareIronGrams > 0.001)
            lines.Add(Say($"{balance.SpareIronGrams:0.##} g of the copperas is spare."));
        var shares = IronTannin.Shares.Select(share => Say($"{share.Plant} {100 * share.Share:0.#} %"));
        lines.Add($"Tannin in dry matter: {string.Join(", ", shares)}.");
        return Outcome.Of(new WorkASumAnswer(lines));
    }

    private static Outcome<WorkASumAnswer> TitrationOf(WorkASumForm form)
    {
        var tannin = Number(nameof(form.TanninGrams), form.TanninGrams, 0.001, 1000, "g");
        var liquor = Number(nameof(form.IronLiquorMl), form.IronLiquorMl, 0.01, 10_000, "ml");
        if (!tannin.TryGet(out var acid) || !liquor.TryGet(out var millilitres))
            return Outcome.Refused<WorkASumAnswer>([.. tannin.Problems, .. liquor.Problems]);
        return Outcome.Of(new WorkASumAnswer([IronTitration.Of(acid, millilitres, 0.1 * millilitres).Words, IronTitration.Method]));
    }

    private static Outcome<WorkASumAnswer> GumOf(WorkASumForm form)
    {
        var gum = Number(nameof(form.GumParts), form.GumParts, 0.01, 100, "parts");
        var water = Number(nameof(form.WaterParts), form.WaterParts, 0.01, 1000, "parts");
        var goal = Number(nameof(form.GumPer100), form.GumPer100, 0, 60, "g per 100 ml");
        var ink = Number(nameof(form.InkMl), form.InkMl, 0.1, 1e6, "ml");
        if (
            !gum.TryGet(out var gumParts)
            || !water.TryGet(out var waterParts)
            || !goal.TryGet(out var dry)
            || !ink.TryGet(out var millilitres)
        )
            return Outcome.Refused<WorkASumAnswer>([.. gum.Problems, .. water.Problems, .. goal.Problems, .. ink.Problems]);
        if (gumParts > waterParts)
            return Outcome.Refused<WorkASumAnswer>(
                nameof(form.GumParts),
                "A solution with more gum than water no longer flows.",
                "Take at least as much water as gum."
            );
        var solution = GumSolution.Of(gumParts, waterParts);
        if (dry >= 100 * solution.DryGramsPerMillilitre)
            return Outcome.Refused<WorkASumAnswer>(
                nameof(form.GumPer100),
                Say($"The solution itself holds only {100 * solution.DryGramsPerMillilitre:0.#} g per 100 ml."),
                "Ask for less, or make it thicker."
            );
        var needed = solution.MillilitresFor(dry, millilitres);
        return Outcome.Of(
            new WorkASumAnswer([
                Say($"{needed:0.#} ml of the gum solution brings {millilitres:0.#} ml of ink to {dry:0.##} g of dry gum per 100 ml."),
                Say($"Its water costs {100 * solution.ColourLost(needed, millilitres):0} % of the colour's strength."),
                Say(
                    $"One millilitre of it holds {solution.DryGramsPerMillilitre:0.00} g of dry gum. Gum feeds moulds: keep the ",
                    $"solution cold and use it within a month."
                ),
            ])
        );
    }

    private static Outcome<WorkASumAnswer> SpiritOf(WorkASumForm form)
    {
        var spirit = Number(nameof(form.SpiritPercent), form.SpiritPercent, 1, 99.9, "% by volume");
        var goal = Number(nameof(form.GoalPercent), form.GoalPercent, 0.1, 95, "% by volume");
        var ink = Number(nameof(form.InkMl), form.InkMl, 0.1, 1e6, "ml");
        if (!spirit.TryGet(out var strength) || !goal.TryGet(out var wanted) || !ink.TryGet(out var millilitres))
            return Outcome.Refused<WorkASumAnswer>([.. spirit.Problems, .. goal.Problems, .. ink.Problems]);
        if (wanted >= strength)
            return Outcome.Refused<WorkASumAnswer>(
                nameof(form.GoalPercent),
                Say($"A spirit of {strength:0.#} % cannot make anything of {wanted:0.#} %."),
                "Take a stronger spirit or a lower goal."
            );
        var needed = AlcoholMix.SpiritToReach(millilitres, 0, strength, wanted);
        var blend = AlcoholMix.Mix([(millilitres, 0), (needed, strength)]);
        var lines = new List<string>
        {
            Say(
                $"{needed:0.#} ml of {strength:0.#} % spirit brings {millilitres:0.#} ml of water ink to {wanted:0.#} %: ",
                $"{blend.Millilitres:0.#} ml in all."
            ),
        };
        lines.Add(
            AlcoholMix.FlashPoint(wanted) is { } flash
                ? Say(
                    $"Its vapour can catch fire from about {flash:0} °C: no flame, no hot plate, window open. Local rules and the ",
                    $"safety data sheet go first."
                )
                : "Its vapour hardly burns when cold; keep it from flames all the same."
        );
        return Outcome.Of(new WorkASumAnswer(lines));
    }

    private static Outcome<double> Number(string field, string? text, double low, double high, string unit) =>
        double.TryParse((text ?? "").Trim().Replace(',', '.'), NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out var value)
        && value >= low
        && value <= high
            ? Outcome.Of(value)
            : Outcome.Refused<double>(
                field,
                $"“{text}” is not a number of {unit} that can be used here.",
                Say($"Type {low:0.######} to {high:0.######} {unit}.")
            );

    private static string Say(params FormattableString[] parts) =>
        string.Concat(parts.Select(part => part.ToString(CultureInfo.InvariantCulture)));
}

/// <param name="Lines">The answer, a sentence each; the first is what was asked.</param>
public sealed record WorkASumAnswer(IReadOnlyList<string> Lines);

/// <summary>What was typed; each sum reads its own fields.</summary>
public sealed record WorkASumForm
{
    /// <summary>lake, stock, iron, titration, gum or spirit.</summary>
    public string? Sum { get; init; }

    public string? Salt { get; init; }

    public string? SaltGrams { get; init; }

    public string? Alkali { get; init; }

    public string? LiquorMl { get; init; }

    public string? DryYieldGrams { get; init; }

    public string? Substance { get; init; }

    /// <summary>Grams of each dose, separated by blanks.</summary>
    public string? Doses { get; init; }

    /// <summary>syringe or drops.</summary>
    public string? Tool { get; init; }

    public string? CopperasGrams { get; init; }

    public string? TanninGrams { get; init; }

    public string? IronLiquorMl { get; init; }

    public string? GumParts { get; init; }

    public string? WaterParts { get; init; }

    public string? GumPer100 { get; init; }

    public string? InkMl { get; init; }

    public string? SpiritPercent { get; init; }

    public string? GoalPercent { get; init; }
}

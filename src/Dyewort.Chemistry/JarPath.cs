using Dyewort.Quantities;

namespace Dyewort.Chemistry;

/// <summary>The jar after one more addition.</summary>
/// <param name="Portion">What was added.</param>
/// <param name="State">The jar after it fizzed.</param>
/// <param name="PhBefore">pH just before.</param>
/// <param name="GasMillilitres">CO2 that left at this step.</param>
/// <param name="Fell">What lies there now that did not lie there before, g.</param>
/// <param name="Dissolved">What lay there before and dissolved, g.</param>
public sealed record JarStep(
    Portion Portion,
    JarState State,
    double PhBefore,
    double GasMillilitres,
    IReadOnlyList<UndissolvedSolid> Fell,
    IReadOnlyList<UndissolvedSolid> Dissolved
)
{
    /// <summary>What this addition changed, as a sentence.</summary>
    public string Words
    {
        get
        {
            var change = State.Ph - PhBefore;
            var moved =
                Math.Abs(change) < 0.05
                    ? InvariantText.Of($"leaves the pH at {State.Ph:0.0}")
                    : InvariantText.Of($"takes the pH from {PhBefore:0.0} {(change > 0 ? "up" : "down")} to {State.Ph:0.0}");
            var parts = new List<string> { InvariantText.Of($"{Portion.Named.Name}, {Amount}: {moved}") };
            if (GasMillilitres > 1)
                parts.Add(InvariantText.Of($"{Said.Volume(GasMillilitres)} of gas foams off"));
            foreach (var solid in Fell)
                parts.Add(InvariantText.Of($"{Said.Grams(solid.Grams)} of {solid.Name} lies undissolved"));
            foreach (var solid in Dissolved)
                parts.Add(InvariantText.Of($"{Said.Grams(solid.Grams)} of {solid.Name} dissolves"));
            return string.Join("; ", parts) + ".";
        }
    }

    private string Amount => Portion.Millilitres > 0 ? InvariantText.Of($"{Portion.Millilitres:0.##} ml") : Said.Grams(Portion.Grams);
}

/// <summary>Additions one after the other: gas that has left does not come back, so order matters where it foams.</summary>
public static class JarPath
{
    /// <summary>The path of a jar, one step per addition; empty for a jar without any.</summary>
    /// <param name="contents">The jar with its additions in order.</param>
    /// <param name="celsius">0 to 100 °C.</param>
    public static Outcome<IReadOnlyList<JarStep>> Of(JarContents contents, double celsius = 20)
    {
        ArgumentNullException.ThrowIfNull(contents);
        var now = contents with { Portions = [] };
        var gone = 0.0;
        var first = Solve(now, celsius, ref gone);
        if (!first.TryGet(out var state))
            return Outcome.Refused<IReadOnlyList<JarStep>>(first.Problems);
        var steps = new List<JarStep>();
        foreach (var portion in contents.Portions)
        {
            now = now.Plus(portion);
            var goneBefore = gone;
            var outcome = Solve(now, celsius, ref gone);
            if (!outcome.TryGet(out var next))
                return Outcome.Refused<IReadOnlyList<JarStep>>(outcome.Problems);
            var (fell, dissolved) = Changes(state, next);
            var gas = (gone - goneBefore) * 82.0573661 * (celsius + 273.15);
            steps.Add(new(portion, next, state.Ph, Math.Max(0, gas), fell, dissolved));
            state = next;
        }

        return Outcome.Of<IReadOnlyList<JarStep>>(steps);
    }

    private static Outcome<JarState> Solve(JarContents contents, double celsius, ref double gone)
    {
        var left = gone;
        // CO2 is 2 H+ + CO3-2 less water: what has bubbled away is taken off the jar's totals.
        var outcome = Jar.Equilibrate(
            contents,
            celsius,
            CarbonDioxide.AfterFizzing,
            JarCorrections.Usual,
            totals =>
            {
                if (left <= 0)
                    return;
                totals["CO3-2"] = Math.Max(0, totals.GetValueOrDefault("CO3-2") - left);
                totals["H+"] = totals.GetValueOrDefault("H+") - (2 * left);
            }
        );
        if (outcome.TryGet(out var state))
            gone += Math.Max(0, state.CarbonDioxideMoles);
        return outcome;
    }

    private static (List<UndissolvedSolid> Fell, List<UndissolvedSolid> Dissolved) Changes(JarState before, JarState after)
    {
        var fell = new List<UndissolvedSolid>();
        var dissolved = new List<UndissolvedSolid>();
        foreach (var key in before.Solids.Concat(after.Solids).Select(solid => solid.Key).Distinct())
        {
            var was = before.Solids.FirstOrDefault(solid => solid.Key == key);
            var now = after.Solids.FirstOrDefault(solid => solid.Key == key);
            var change = (now?.Grams ?? 0) - (was?.Grams ?? 0);
            // A milligram is the least anybody could see.
            if (change > 1e-3)
                fell.Add(now! with { Grams = change });
            if (change < -1e-3)
                dissolved.Add(was! with { Grams = -change });
        }

        return (fell, dissolved);
    }
}

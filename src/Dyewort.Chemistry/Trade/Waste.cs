using System.Globalization;

namespace Dyewort.Chemistry;

/// <summary>What to do with a jar before it is tipped away.</summary>
/// <param name="Neutraliser">What brings it to between pH 6.5 and 8.5; null where it is there already or where nothing of the kitchen
/// does.</param>
/// <param name="MetalMilligrams">Each metal in the whole jar, mg.</param>
/// <param name="Words">The steps, each a sentence.</param>
public sealed record Waste(
    ReachAnswer? Neutraliser,
    IReadOnlyList<(string Metal, double Milligrams)> MetalMilligrams,
    IReadOnlyList<string> Words
)
{
    private const string AskFirst = "Ask your local waste service: their rules go before this.";

    /// <summary>Plans it.</summary>
    public static Waste Of(JarContents contents, double celsius = 20)
    {
        ArgumentNullException.ThrowIfNull(contents);
        var totals = contents.Totals(celsius);
        List<(string Metal, double Milligrams)> metals = [];
        foreach (
            var (metal, components, molarMass) in (ReadOnlySpan<(string, string[], double)>)
                [("copper", ["Cu+2"], 63.546), ("iron", ["Fe+2", "Fet+3"], 55.845), ("aluminium", ["Al+3"], 26.982)]
        )
        {
            var milligrams = components.Sum(component => totals.GetValueOrDefault(component)) * molarMass * 1000;
            if (milligrams > 0)
                metals.Add((metal, milligrams));
        }

        var words = new List<string>();
        ReachAnswer? neutraliser = null;
        var copper = metals.FirstOrDefault(one => one.Metal == "copper").Milligrams;
        if (contents.OutsideTheSums is { Count: > 0 } untold)
            words.Add(
                $"It holds {string.Join(" and ", untold)}, of which nothing is known here: read its own data sheet, and test the pH before "
                    + "anything else."
            );
        var isHarmless = Jar.Equilibrate(contents, celsius).TryGet(out var state) && state.Ph is >= 6 and <= 9;
        if (state is not null && !isHarmless && words.Count == 0)
        {
            var goal = state.Ph < 6 ? 7.0 : 8.5;
            // The gentlest of what can do it: bicarbonate for acids, vinegar for alkalis.
            var options = Reach.Options(contents, goal, celsius);
            neutraliser =
                options.FirstOrDefault(answer => answer.Named.Substance.Key is "baking-soda" or "white-vinegar")
                ?? (options.Count > 0 ? options[0] : null);
            words.Add(
                neutraliser is not null
                    ? string.Create(
                        CultureInfo.InvariantCulture,
                        $"Neutralise first: {Said.Grams(neutraliser.Grams)} of {neutraliser.Named.Name} brings it from pH "
                            + $"{state.Ph:0.0} to {neutraliser.State.Ph:0.0}. Slowly, with goggles, in an open vessel: it may foam."
                    )
                    : string.Create(CultureInfo.InvariantCulture, $"At pH {state.Ph:0.0} it is too strong to neutralise in a kitchen.")
            );
        }

        if (copper > 0)
            words.Add(
                string.Create(
                    CultureInfo.InvariantCulture,
                    $"It holds {copper:0} mg of copper: none of it goes down the drain or into the garden. Let the mud settle, "
                        + $"collect mud and liquid, and take them to the hazardous-waste point."
                )
            );
        foreach (var (metal, milligrams) in metals.Where(one => one.Metal != "copper"))
            words.Add(
                string.Create(
                    CultureInfo.InvariantCulture,
                    $"It holds {milligrams:0} mg of {metal}: small amounts go down the foul drain with plenty of water where local "
                        + $"rules allow; the settled mud goes in the bin."
                )
            );
        if (contents.AlcoholPercent >= 5)
            words.Add("Alcohol does not go down the drain in quantity: its vapour can catch fire there.");
        if (
            contents.Portions.Any(portion =>
                portion.Substance.Key.EndsWith("-oil", StringComparison.Ordinal) || portion.Substance.Key == "thymol"
            )
        )
            words.Add("Oils go into the bin soaked up on paper, not into the drain.");
        if (words.Count == 0)
            words.Add("Nothing in it is known to do harm: down the drain with plenty of water.");
        words.Add(AskFirst);
        return new(neutraliser, metals, words);
    }
}

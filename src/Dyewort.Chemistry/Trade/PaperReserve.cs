using System.Globalization;
using Dyewort.Quantities;

namespace Dyewort.Chemistry;

/// <summary>Paper as an ingredient: the alkali in it against the ink that is laid on it.</summary>
/// <param name="Name">Kind of paper.</param>
/// <param name="GramsPerSquareMetre">Weight.</param>
/// <param name="AlkaliMolesPerKilogram">Alkali reserve, mol of acid it can take up per kg; negative for an acid sizing.</param>
/// <param name="Source">Where that comes from.</param>
public sealed record PaperReserve(string Name, double GramsPerSquareMetre, double AlkaliMolesPerKilogram, string Source)
{
    /// <summary>Ink that a wash lays down, ml per square metre: 60, between 30 and 120 (estimate, weigh a sheet before and
    /// after).</summary>
    public static Spread UsualInkMillilitresPerSquareMetre { get; } = new(60, 30, 120, "estimate: weigh a sheet before and after a wash");

    /// <summary>Share of the reserve that a drying wash reaches: a tenth, between 2 and 40 % (estimate): chalk lies inside the sheet and
    /// ink dries in minutes.</summary>
    public static Spread ReachedShare { get; } = new(0.1, 0.02, 0.4, "estimate, no source");

    /// <summary>Papers a maker meets.</summary>
    public static IReadOnlyList<PaperReserve> Usual { get; } =
    [
        new(
            "chalk-buffered watercolour paper",
            300,
            0.4,
            "2 % chalk, the least alkali reserve of permanent paper in ISO 9706, 0.4 mol/kg (from memory)"
        ),
        new("chalk-filled printing paper", 80, 2.0, "10 to 20 % chalk filler is usual (from memory); 10 % gives 2 mol/kg"),
        new("neutral cotton paper", 300, 0.02, "no filler; a trace of alkali from the water (estimate)"),
        new("acid-sized paper", 90, -0.02, "alum and rosin size, cold extract about pH 4.5 to 5 (from memory); amount of acid estimated"),
    ];

    /// <summary>Alkali reserve in mol per square metre.</summary>
    public double AlkaliMolesPerSquareMetre => AlkaliMolesPerKilogram * GramsPerSquareMetre / 1000;

    /// <summary>Predicts the pH an ink dries at on this paper.</summary>
    /// <param name="ink">The jar.</param>
    /// <param name="inkMillilitresPerSquareMetre">ml of ink per square metre; null for a usual wash.</param>
    /// <param name="celsius">0 to 100 °C.</param>
    public Outcome<OnPaper> Predict(JarContents ink, double? inkMillilitresPerSquareMetre = null, double celsius = 20)
    {
        ArgumentNullException.ThrowIfNull(ink);
        if (inkMillilitresPerSquareMetre is { } given && !(given is > 0 and <= 1000))
            return Outcome.Refused<OnPaper>(
                "ink",
                $"{given:0.##} ml on a square metre cannot be.",
                "Give the ml of ink per square metre, 30 to 120 for a wash."
            );
        var laid = inkMillilitresPerSquareMetre is { } known
            ? new Spread(known, known * 0.8, known * 1.25, "as you stated")
            : UsualInkMillilitresPerSquareMetre;
        var report = JarReport.Of(ink, celsius);
        if (!report.TryGet(out var jar))
            return Outcome.Refused<OnPaper>(report.Problems);
        var middle = Dried(ReachedShare.Typical, laid.Typical);
        var most = Dried(ReachedShare.High, laid.Low);
        var least = Dried(ReachedShare.Low, laid.High);
        if (middle is not { } typical || most is not { } far || least is not { } near)
            return Outcome.Refused<OnPaper>("paper", "The balance of this ink with the paper was not found.", "Use less of each addition.");
        if (Dried(ReachedShare.Typical, laid.Typical, CarbonDioxide.AfterFizzing) is not { } early)
            return Outcome.Refused<OnPaper>("paper", "The balance of this ink with the paper was not found.", "Use less of each addition.");

        // An ink of carbonate dries anywhere between what it is with its gas and what it is in balance with air; chalk of the paper alone
        // gives its gas off at once.
        var isOwnGas = Math.Abs(jar.Open.Ph - jar.AfterFizzing.Ph) > 0.5 && ink.Totals(celsius).GetValueOrDefault("CO3-2") > 0;
        var fresh = isOwnGas ? early : typical;
        var low = Math.Min(Math.Min(Math.Min(near, far), typical), fresh) - Math.Min(jar.AfterFizzing.Ph - jar.PhLow, 0.5);
        var high = Math.Max(Math.Max(Math.Max(near, far), typical), fresh) + Math.Min(jar.PhHigh - jar.AfterFizzing.Ph, 0.5);
        var gas =
            Math.Abs(fresh - typical) > 0.5
                ? string.Create(
                    CultureInfo.InvariantCulture,
                    $" Dried fast, with its carbon dioxide still in it, it stands nearer {fresh:0.0}; once air has been at it for days, "
                        + $"at {typical:0.0}."
                )
                : "";
        var words = jar.IsPhKnown
            ? Say(jar.AfterFizzing.Ph, typical, low, high) + gas
            : $"On {Name} nobody can say where it dries: {string.Join(" and ", jar.OutsideTheSums)} cannot be put into these sums.";
        return Outcome.Of(
            new OnPaper(jar.AfterFizzing.Ph, typical, jar.IsPhKnown ? low : jar.PhLow, jar.IsPhKnown ? high : jar.PhHigh, words)
        );

        double? Dried(double share, double millilitres, CarbonDioxide mode = CarbonDioxide.Open)
        {
            // A thin wet film is in touch with air.
            var alkali = AlkaliMolesPerSquareMetre * share / (millilitres / 1000) * ink.VolumeMillilitres / 1000;
            var outcome = Jar.Equilibrate(
                ink,
                celsius,
                mode,
                JarCorrections.Usual,
                totals =>
                {
                    if (alkali > 0)
                    {
                        totals["Ca+2"] = totals.GetValueOrDefault("Ca+2") + (alkali / 2);
                        totals["CO3-2"] = totals.GetValueOrDefault("CO3-2") + (alkali / 2);
                    }
                    else
                    {
                        totals["Cl-"] = totals.GetValueOrDefault("Cl-") - alkali;
                        totals["H+"] = totals.GetValueOrDefault("H+") - alkali;
                    }
                }
            );
            return outcome.TryGet(out var state) ? state.Ph : null;
        }
    }

    private string Say(double jar, double typical, double low, double high)
    {
        var change = typical - jar;
        var shift =
            change > 1
                ? "An ink that is red in the jar because it is sour may dry violet, blue or grey here; test it on this paper before "
                    + "trusting the jar."
            : change > 0.3 ? "Colours that turn with acid may dry a little bluer than in the jar."
            : change < -0.3 ? "Colours that turn with acid may dry a little redder than in the jar."
            : "The paper hardly changes it.";
        return string.Create(
            CultureInfo.InvariantCulture,
            $"On {Name} an ink of pH {jar:0.0} dries at about pH {typical:0.0} (between {low:0.0} and {high:0.0}: how much of the "
                + $"paper's chalk it reaches is not well known). {shift}"
        );
    }
}

/// <summary>An ink on a paper.</summary>
/// <param name="PhInJar">pH in the jar.</param>
/// <param name="PhOnPaper">Where it dries, about.</param>
/// <param name="PhLow">Lower end.</param>
/// <param name="PhHigh">Upper end.</param>
/// <param name="Words">What that may do to the colour.</param>
public sealed record OnPaper(double PhInJar, double PhOnPaper, double PhLow, double PhHigh, string Words);

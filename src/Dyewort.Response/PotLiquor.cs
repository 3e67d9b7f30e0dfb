using System.Collections.Concurrent;
using Dyewort.Chemistry;

namespace Dyewort.Response;

/// <summary>A pH that was read in a pot's liquor or in a jar of it.</summary>
/// <param name="GramsPerLitre">What had been stirred in by then, g/L of liquor; nothing for the liquor as it is.</param>
/// <param name="Ph">What was read, 0 to 14.</param>
public readonly record struct LiquorNote(Doses GramsPerLitre, double Ph)
{
    /// <summary>Standard deviation of the reading itself, by what it was read with; null where nobody said.</summary>
    public double? Uncertainty { get; init; }
}

/// <summary>What is believed of a pot's liquor before anything is stirred in: its pH and its weak acids, with their doubt.</summary>
/// <remarks>Starts from what is usual for liquors of this kind of plant (the table of <see cref="ExtractBuffer"/>) and is sharpened by
/// every pH noted. What was read in the liquor itself stands with its tool's doubt. For the rest a grid over both weighs each liquor by the
/// pH that it would have shown; the doubt of such a note is what the chemistry may be off by, in tails of a Student t [Lange1989]. The one
/// home of this belief: jars, steps and the trials' own pH all ask here.</remarks>
public sealed class PotLiquor
{
    /// <summary>What the chemistry of a sample may be off by where nothing is measured near it: a fifth of a unit for acids and soda; metal
    /// salts hydrolyse and throw down, and chalk loses its gas for days, half a unit more (found on generated plants,
    /// docs/accuracy.md).</summary>
    private const double ChemistryScatter = 0.2;
    private const double SlowScatter = 0.5;

    /// <summary>What the sums do not know at all may be sour, alkaline or neither (a guess, no source).</summary>
    private const double UnknownScatter = 1.5;
    private const int Fine = 41;

    /// <summary>No liquor is believed to be known better than a twentieth of what was believed before a look.</summary>
    private const double LeastVariance = 0.0025;
    private readonly ExtractKind kind;
    private readonly Doses unasked;
    private readonly ConcurrentDictionary<Doses, double[]> nodes = new();
    private readonly ConcurrentDictionary<string, NamedSubstance?> substances;
    private double logAcid;

    private PotLiquor(ExtractKind kind, Doses unasked)
    {
        (this.kind, this.unasked) = (kind, unasked);
        substances = new(StringComparer.OrdinalIgnoreCase);
        (Ph, PhUncertainty) = (kind.Ph, kind.PhSpread);
        (logAcid, LogAcidUncertainty) = (Math.Log(kind.AcidMillimolesPerLitre / 1000), Math.Log(kind.AcidFactor));
    }

    /// <summary>The liquor's own pH, as expected.</summary>
    public double Ph { get; private set; }

    /// <summary>Its standard deviation.</summary>
    public double PhUncertainty { get; private set; }

    /// <summary>Sum of its weak acids, mol/L, as expected (geometric mean).</summary>
    public double AcidMolesPerLitre => Math.Exp(logAcid);

    /// <summary>Standard deviation of the natural logarithm of that.</summary>
    public double LogAcidUncertainty { get; private set; }

    /// <summary>From how many pH it was learned; 0 where only the table of plants speaks.</summary>
    public int Notes { get; private set; }

    /// <summary>The same belief as the chemistry of jars takes it.</summary>
    public ExtractBuffer Buffer => ExtractBuffer.Of(kind, Ph, PhUncertainty, 1000 * AcidMolesPerLitre, Math.Exp(LogAcidUncertainty), Notes);

    /// <summary>What is believed of a plant's liquor.</summary>
    /// <param name="plant">The plant, as the maker writes it; of one the table does not know, what is usual for any plant.</param>
    /// <param name="notes">Every pH noted of it.</param>
    /// <param name="unasked">What pot and water gave to it, g/L; none where that is not known.</param>
    public static PotLiquor Of(string plant, IReadOnlyList<LiquorNote> notes, Doses? unasked = null)
    {
        ArgumentNullException.ThrowIfNull(notes);
        var added = unasked ?? Doses.None;
        var usual = ExtractBuffer.OfPlant(plant).Kind;
        var plain = notes.Where(note => note.GramsPerLitre.Count == 0).ToArray();
        var liquor = new PotLiquor(usual.Read([.. plain.Select(Reading)]), added);
        if (plain.Length > 0 && added.Count > 0)
        {
            // What was read holds what pot and water gave as well: the liquor without it lies as far off as they move it.
            var shift = PhSurface.Of(liquor.PhAt(Doses.None), 0).At(0, 0) - liquor.Ph;
            liquor = new PotLiquor(usual.Read([.. plain.Select(note => Reading(note with { Ph = note.Ph - shift }))]), added);
        }

        // Twice: the first look is coarse, the second lays its nodes where the first says the liquor is.
        LiquorNote[] stirred = [.. notes.Where(note => note.GramsPerLitre.Count > 0)];
        for (var look = 0; look < 2 && stirred.Length > 0; look++)
            liquor.Look(stirred);
        liquor.Notes = notes.Count;
        return liquor;
    }

    /// <summary>What a computed pH may be off by, one standard deviation, where no measured one is near.</summary>
    public static double ScatterOf(Doses gramsPerLitre)
    {
        ArgumentNullException.ThrowIfNull(gramsPerLitre);
        return Math.Sqrt(
            (ChemistryScatter * ChemistryScatter)
                + (gramsPerLitre.Count(dose => IsSlow(dose.Name)) * SlowScatter * SlowScatter)
                + (gramsPerLitre.Any(dose => dose.Amount > 0 && IsUnknown(dose.Name)) ? UnknownScatter * UnknownScatter : 0)
        );
    }

    /// <summary>pH of a composition at the nodes of <see cref="PhSurface"/>.</summary>
    internal double[] PhAt(Doses gramsPerLitre) => nodes.GetOrAdd(gramsPerLitre, Computed);

    private static (double Ph, double Uncertainty) Reading(LiquorNote note) =>
        (Math.Clamp(note.Ph, 0, 14), note.Uncertainty ?? ChemistryScatter);

    private static bool IsUnknown(string addition) => !SubstanceCatalogue.Standard.Find("addition", addition).TryGet(out _);

    private static bool IsSlow(string addition) =>
        Agents.Of(addition) == Action.Binds || addition.Contains("chalk", StringComparison.OrdinalIgnoreCase);

    private double[] Computed(Doses gramsPerLitre)
    {
        var portions = (gramsPerLitre + unasked)
            .Select(dose => (Substance: SubstanceOf(dose.Name), dose.Amount))
            .Where(one => one.Substance is not null)
            .Select(one => KeyValuePair.Create(one.Substance!, one.Amount))
            .ToArray();
        var computed = new double[PhSurface.Nodes * PhSurface.Nodes];
        for (var i = 0; i < PhSurface.Nodes; i++)
        {
            var ph = Math.Clamp(Ph + (PhSurface.Place(i) * PhUncertainty), 1, 12);
            for (var j = 0; j < PhSurface.Nodes; j++)
            {
                var acid = Math.Exp(Math.Clamp(logAcid + (PhSurface.Place(j) * LogAcidUncertainty), -12, 2));
                computed[(i * PhSurface.Nodes) + j] =
                    portions.Length > 0 && Jar.PhOf(Liquor.Known(ph, acid), portions).TryGet(out var found) ? found : ph;
            }
        }

        return computed;
    }

    private NamedSubstance? SubstanceOf(string addition) =>
        substances.GetOrAdd(addition, name => SubstanceCatalogue.Standard.Find("addition", name).TryGet(out var found) ? found : null);

    /// <summary>Weighs every liquor on a fine grid by the pH noted, and takes over mean and spread.</summary>
    private void Look(IReadOnlyList<LiquorNote> notes)
    {
        var surfaces = notes.Select(note => PhSurface.Of(PhAt(note.GramsPerLitre), 0)).ToArray();
        var scatters = notes.Select(note => double.Hypot(ScatterOf(note.GramsPerLitre), note.Uncertainty ?? 0)).ToArray();
        var weights = new double[Fine * Fine];
        for (var i = 0; i < Fine; i++)
        {
            for (var j = 0; j < Fine; j++)
            {
                var (a, b) = (Place(i), Place(j));
                var ph = (Ph + (a * PhUncertainty) - kind.Ph) / kind.PhSpread;
                var acid = (logAcid + (b * LogAcidUncertainty) - Math.Log(kind.AcidMillimolesPerLitre / 1000)) / Math.Log(kind.AcidFactor);
                var log = -0.5 * ((ph * ph) + (acid * acid));
                for (var r = 0; r < surfaces.Length; r++)
                {
                    // Four degrees of freedom: a sample whose chemistry is another than ours must not say all.
                    var off = (notes[r].Ph - surfaces[r].At(a, b)) / scatters[r];
                    log -= 2.5 * Math.Log(1 + (off * off / 4));
                }

                weights[(i * Fine) + j] = log;
            }
        }

        var most = weights.Max();
        double sum = 0,
            phMean = 0,
            acidMean = 0,
            phSquare = 0,
            acidSquare = 0;
        for (var i = 0; i < Fine; i++)
        {
            for (var j = 0; j < Fine; j++)
            {
                var weight = Math.Exp(weights[(i * Fine) + j] - most);
                var (a, b) = (Place(i), Place(j));
                (sum, phMean, acidMean, phSquare, acidSquare) = (
                    sum + weight,
                    phMean + (weight * a),
                    acidMean + (weight * b),
                    phSquare + (weight * a * a),
                    acidSquare + (weight * b * b)
                );
            }
        }

        (phMean, acidMean) = (phMean / sum, acidMean / sum);
        (Ph, PhUncertainty, logAcid, LogAcidUncertainty) = (
            Ph + (phMean * PhUncertainty),
            PhUncertainty * Math.Sqrt(Math.Max((phSquare / sum) - (phMean * phMean), LeastVariance)),
            logAcid + (acidMean * LogAcidUncertainty),
            LogAcidUncertainty * Math.Sqrt(Math.Max((acidSquare / sum) - (acidMean * acidMean), LeastVariance))
        );
        nodes.Clear();

        static double Place(int node) => PhSurface.Reach * ((2.0 * node / (Fine - 1)) - 1);
    }
}

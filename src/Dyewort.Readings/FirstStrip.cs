using Dyewort.Colour;

namespace Dyewort.Readings;

/// <summary>The maker's own strip of stable patches: its first reading says what it is, and later readings bring every photo back to that
/// day.</summary>
/// <remarks>A strip fixes how the camera sees, never how much light fell on it. So the bare paper of the first day is kept with the strip:
/// without it two readings of one chart would each guess the paper anew.</remarks>
public static class FirstStrip
{
    /// <summary>SAMPLE_ID of the bare paper beside the strip on its first day.</summary>
    public const string PaperId = "PAPER";

    /// <summary>How far the paper beside may seem from the first day's in a* and b* and still be taken for the same: white and brightened
    /// papers are 6 to 7 apart, and one paper seen twice through a strip was within 5.2 in 56 pairs of simulated photos.</summary>
    private const double SamePaperHue = 6;

    /// <summary>The same through a short strip, which sees pale colours badly: only a paper of another kind is told.</summary>
    private const double SamePaperHueOfFew = 10;

    /// <summary>The same in L*: a shadow on the strip or on the page makes that much.</summary>
    private const double SamePaperLightness = 17;

    /// <summary>Below this the paper is taken in as one more patch: a short strip has too few pale ones.</summary>
    private const int FewPatches = 12;

    /// <summary>Light on the strip is not the light on the paper beside it: its standard uncertainty, relative.</summary>
    private const double LightBeside = 0.03;

    /// <summary>The first reading: what the patches are as this photo has them, with their uncertainty, and the bare paper.</summary>
    /// <param name="measured">What was measured on the page.</param>
    /// <param name="paper">The bare paper's colour, when it is known.</param>
    /// <param name="patches">The strip's patches as the photo has them, in order; their colours are not looked at.</param>
    /// <param name="beside">Linear channels of the sheet's bare paper nearest to the strip.</param>
    /// <param name="paperDoubt">Standard uncertainty of a known paper, ΔE₀₀; that of a good instrument when null.</param>
    /// <param name="kind">The kind of paper where its colour is not known.</param>
    /// <param name="black">How black the sheet is printed; what is usual when null.</param>
    /// <returns>One patch each, and the paper last; patches that are burnt out are left out.</returns>
    public static IReadOnlyList<CardPatch> Define(
        Measured measured,
        Lab? paper,
        IReadOnlyList<ReferencePatch> patches,
        FileRgb beside,
        double? paperDoubt = null,
        PaperKind? kind = null,
        PrintedBlack? black = null
    )
    {
        var sound = patches.Where(patch => patch.Clipped < 0.2).ToList();
        var cells = sound.Select(patch =>
        {
            var ratio = patch.Light / beside;
            return new CellSample(patch.Id, ratio, ratio, ratio, beside, 1, 0, patch.Clipped, 0, 200, 0.01, LightBeside, LightBeside);
        });
        var (swatches, calibration, _) = ReadPage.Of(
            measured with
            {
                Cells = [.. measured.Cells, .. cells],
            },
            paper,
            null,
            paperDoubt,
            kind,
            black
        );
        var read = swatches
            .Skip(measured.Cells.Count)
            .Select(swatch => new CardPatch(swatch.Id, swatch.Lab) { UncertaintyDe00 = swatch.UncertaintyDe00 });
        var doubt = Uncertainty.TwoSided * (swatches.Count > 0 ? swatches[0].Features?.PaperDoubt ?? 2 : 2);
        return [.. read, new(PaperId, calibration.Paper) { UncertaintyDe00 = doubt }];
    }

    /// <summary>Parts a strip's file into its patches and the first day's paper.</summary>
    public static (IReadOnlyList<CardPatch> Patches, CardPatch? Paper) Parts(IReadOnlyList<CardPatch> file)
    {
        static bool IsPaper(CardPatch patch) => patch.Id.Equals(PaperId, StringComparison.OrdinalIgnoreCase);
        return ([.. file.Where(patch => !IsPaper(patch))], file.FirstOrDefault(IsPaper));
    }

    /// <summary>True where the paper in this photo can be the first day's, as the strip's own correction sees it.</summary>
    internal static bool IsSamePaper(Lab firstDay, CardFit fit, Reference reference, FileRgb beside, FileColour colour)
    {
        var light = fit.Look.Undo(beside);
        return IsNear(
            firstDay,
            colour.ToXyz(fit.Map.Map(new(light.R / fit.White.R, light.G / fit.White.G, light.B / fit.White.B))),
            reference.Patches.Count < FewPatches ? SamePaperHueOfFew : SamePaperHue
        );
    }

    /// <summary>The first day's paper, with the doubt it was written with.</summary>
    internal static PaperColour PaperOf(CardPatch first)
    {
        var doubt = (first.UncertaintyDe00 ?? 4) / Uncertainty.TwoSided;
        return new(first.Lab, Known: doubt < 0.5, Math.Max(0.3, doubt));
    }

    /// <summary>The patches to fit to: of a short strip, the paper beside too, unless it looks like another one.</summary>
    internal static IReadOnlyList<ReferencePatch> WithPaper(Reference reference, FileColour colour)
    {
        if (reference.FirstPaper is not { } first || reference.PaperBeside is not { } beside || reference.Patches.Count >= FewPatches)
            return reference.Patches;
        var gain = new double[3];
        for (var channel = 0; channel < 3; channel++)
        {
            var c = channel;
            var logs = reference
                .Patches.Select(patch => (Seen: patch.Light[c], Known: colour.FromXyz(patch.Colour)[c]))
                .Where(pair => pair.Seen > 1e-4 && pair.Known > 0.02)
                .Select(pair => Math.Log(pair.Seen / pair.Known))
                .Order()
                .ToArray();
            if (logs.Length == 0)
                return reference.Patches;
            gain[c] = Math.Exp((logs[(logs.Length - 1) / 2] + logs[logs.Length / 2]) / 2);
        }

        return IsNear(first.Lab, colour.ToXyz(new(beside.R / gain[0], beside.G / gain[1], beside.B / gain[2])), SamePaperHueOfFew)
            ? [.. reference.Patches, new(PaperId, beside, first.Lab.ToXyz(), 0.5, 0.5, 0)]
            : reference.Patches;
    }

    private static bool IsNear(Lab firstDay, Xyz seen, double hue)
    {
        var levelled = Lab.FromXyz(seen * (firstDay.ToXyz().Y / Math.Max(seen.Y, 1e-3)));
        return Math.Abs(Lab.FromXyz(seen).L - firstDay.L) < SamePaperLightness
            && Math.Sqrt(Math.Pow(levelled.A - firstDay.A, 2) + Math.Pow(levelled.B - firstDay.B, 2)) < hue;
    }
}

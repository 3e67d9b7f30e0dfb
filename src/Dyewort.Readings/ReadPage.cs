using Dyewort.Colour;

namespace Dyewort.Readings;

/// <summary>All that was measured in one picture, before any correction of colour.</summary>
/// <param name="Cells">What each cell shows.</param>
/// <param name="Markers">Black and white of the markers; empty without a sheet.</param>
/// <param name="Colour">The file's colour space.</param>
/// <param name="PictureMean">Mean of the whole picture, linear channels.</param>
/// <param name="IsScan">True for a flatbed scan.</param>
/// <param name="LightResidual">Relative spread of the paper against a smooth light.</param>
public sealed record Measured(
    IReadOnlyList<CellSample> Cells,
    IReadOnlyList<InkSample> Markers,
    FileColour Colour,
    FileRgb PictureMean,
    bool IsScan,
    double LightResidual
);

/// <summary>Reference patches and what they are.</summary>
/// <param name="Patches">The patches.</param>
/// <param name="IsStrip">True for the maker's own strip, false for a card with published values.</param>
/// <param name="PaperBeside">Linear channels of the sheet's paper nearest to the patches, or null.</param>
public sealed record Reference(IReadOnlyList<ReferencePatch> Patches, bool IsStrip, FileRgb? PaperBeside)
{
    /// <summary>The bare paper beside the strip on its first day, or null.</summary>
    public CardPatch? FirstPaper { get; init; }
}

/// <summary>Brings what was measured on a page to colours with uncertainty.</summary>
/// <remarks>Each cell is read relative to the bare paper beside it, so the light and most of the white balance drop out; what is left is
/// the paper's own colour, the camera's look (<see cref="CameraLook"/>) and how its sensors see (<see cref="CardFit"/>).</remarks>
public static class ReadPage
{
    /// <summary>Reads every cell.</summary>
    /// <param name="measured">What was measured.</param>
    /// <param name="paper">The bare paper's colour, when it is known.</param>
    /// <param name="reference">A card or strip in the picture, or null.</param>
    /// <param name="paperDoubt">Standard uncertainty of a known paper, ΔE₀₀; that of a good instrument when null.</param>
    /// <param name="kind">The kind of paper where its colour is not known.</param>
    /// <param name="black">How black the sheet is printed; what is usual when null.</param>
    public static (IReadOnlyList<SwatchReading> Swatches, Calibration Calibration, IReadOnlyList<ReadingWarning> Warnings) Of(
        Measured measured,
        Lab? paper,
        Reference? reference,
        double? paperDoubt = null,
        PaperKind? kind = null,
        PrintedBlack? black = null
    )
    {
        black ??= PrintedBlack.Usual;
        var warnings = new List<ReadingWarning>();
        var colour = measured.Colour;
        var middle = Middle(measured.Cells);
        var mean = CameraLook.Mixed(measured.PictureMean) / Math.Max(1e-4, CameraLook.Mixed(middle));
        CameraLook Look(double times) => CameraLook.Estimate(measured.Markers, middle, mean, measured.IsScan, black.Share * times);
        var look = Look(1);

        // The look with black printed a standard uncertainty lighter and darker. A card may contradict the usual black; a strip was itself
        // read by it.
        CameraLook[] byOtherBlack = [Look(Math.Exp(black.Doubt)), Look(Math.Exp(-black.Doubt))];
        var byBlack = reference is { IsStrip: false } ? (byOtherBlack[0].Curve - byOtherBlack[1].Curve) / 2 : 0;
        var told = look with { CurveDoubt = Math.Sqrt((look.CurveDoubt * look.CurveDoubt) + (byBlack * byBlack)) };
        var fit = reference is null ? null : CardFit.Best(FirstStrip.WithPaper(reference, colour), colour, told);
        if (reference is not null && fit is null)
            warnings.Add(
                new(
                    "reference",
                    "Too few patches of the reference can be read, so the paper alone was used. Keep the card flat, in the same "
                        + "light as the page, and free of shine."
                )
            );
        var map = fit?.Map ?? ColourMap.Identity;
        look = fit?.Look ?? look;

        var seen = Lab.FromXyz(Level(colour.ToXyz(map.Map(look.Undo(middle)))));
        var guess = PaperColour.Guess(seen, measured.IsScan, kind);
        if (fit is not null && reference?.PaperBeside is { } beside)
        {
            guess = Together(guess, look.Undo(beside), fit, colour);
            if (paper is null && reference.FirstPaper is { } first)
            {
                if (FirstStrip.IsSamePaper(first.Lab, fit, reference, beside, colour))
                    guess = FirstStrip.PaperOf(first);
                else
                    warnings.Add(
                        new(
                            "strip paper",
                            "The paper in this photo is not the one beside the strip on its first day, so its colour was guessed "
                                + "anew. Give the paper's colour, or define the strip on this paper too."
                        )
                    );
            }
        }

        var bare = paper is { } known ? PaperColour.Measured(known, paperDoubt ?? 0.3) : guess;
        var white = map.Inverse(colour.FromXyz(bare.Colour.ToXyz()));

        // The same reading with the curve a standard uncertainty stronger: how much a colour hangs on it.
        var stronger = fit is null
            ? CameraLook.Of(Math.Min(0.85, look.Curve + look.CurveDoubt), look.Stray, middle)
            : look with
            {
                Curve = look.Curve + 0.04,
            };

        // A card tells the curve for itself, whatever black is printed.
        if (fit is not null)
            byOtherBlack = [];
        var pageClipped = measured.Cells.Count == 0 ? 0 : measured.Cells.Average(cell => Math.Max(cell.ClippedHigh, cell.PaperClipped));
        if (pageClipped > 0.2)
            warnings.Add(
                new(
                    "overexposed",
                    "Much of the paper in this picture is burnt out, so its readings are rough. Make the picture darker with the "
                        + "camera's exposure slider."
                )
            );
        FileRgb? byCard = fit is null ? null : new(fit.White.R * white.R, fit.White.G * white.G, fit.White.B * white.B);
        var excess = BurntPaper.Excess(measured.Cells, look, byCard);
        var swatches = measured
            .Cells.Select(
                (cell, i) => Swatch(cell, excess[i], measured, look, stronger, byOtherBlack, map, white, bare, seen, fit, pageClipped)
            )
            .ToList();
        var residual = fit?.ResidualDe00 ?? PaperResidual(measured, bare);
        var calibration = new Calibration(
            fit is null ? "paper"
                : reference!.IsStrip ? "strip"
                : "card",
            residual,
            fit?.LeaveOneOutDe00
        )
        {
            Form = fit?.Form switch
            {
                CorrectionForm.ToneCurve => "tone curve",
                CorrectionForm.Matrix => "3 × 3 matrix",
                CorrectionForm.RootPolynomial => "root polynomial",
                _ => "white balance",
            },
            Paper = bare.Colour,
            PaperKnown = bare.Known,
            Black = fit is null or { Form: CorrectionForm.WhiteBalance } ? null : look.BlackOf(measured.Markers),
        };
        if (!bare.Known)
            warnings.Add(
                new("paper", "The paper's own colour is a guess. Measure the bare paper once, and every reading on it gets better.")
            );
        return (swatches, calibration, warnings);
    }

    private static SwatchReading Swatch(
        CellSample cell,
        FileRgb excess,
        Measured measured,
        CameraLook look,
        CameraLook stronger,
        CameraLook[] byOtherBlack,
        ColourMap map,
        FileRgb white,
        PaperColour bare,
        Lab seenPaper,
        CardFit? fit,
        double pageClipped
    )
    {
        var colour = measured.Colour;
        var asSeen = ToColour(cell.Wash, look);

        // No wash is lighter than its paper: what is lighter shines, all over, and is at most the paper.
        var paperY = bare.Colour.ToXyz().Y;
        var sheen = Math.Max(0, (asSeen.Y / paperY) - 1);
        var wash = sheen > 0 && cell.Coverage > 0 ? asSeen * (paperY / asSeen.Y) : asSeen;
        var glare = cell.Coverage > 0 && sheen > 0.06 ? Math.Max(cell.Glare, Math.Min(1, 4 * sheen)) : cell.Glare;
        var lab = Lab.FromXyz(wash);
        var pale = Lab.FromXyz(ToColour(cell.Pale, look));
        var deep = Lab.FromXyz(ToColour(cell.Deep, look));
        var spread = Difference.Ciede2000(pale, deep);
        var byLook = Difference.Ciede2000(lab, Lab.FromXyz(ToColour(cell.Wash, stronger)));
        var byBlack =
            byOtherBlack.Length == 0
                ? 0
                : Math.Sqrt(byOtherBlack.Average(other => Math.Pow(Difference.Ciede2000(lab, Lab.FromXyz(ToColour(cell.Wash, other))), 2)));
        var features = new UncertaintyFeatures(
            PaperDoubt: bare.Doubt,
            PaperShare: Math.Clamp((lab.L + 16) / (bare.Colour.L + 16), 0, 1),
            ByLook: byLook,
            ByBlack: byBlack,
            Spread: spread,
            Coverage: cell.Coverage,
            Glare: glare,
            Clipped: Math.Max(pageClipped, Math.Max(cell.ClippedHigh, cell.PaperClipped)),
            LightDoubt: cell.LightDoubt,
            LightStep: cell.LightStep,
            Chroma: lab.Chroma,
            Depth: Math.Max(0, bare.Colour.L - lab.L),
            WhiteOff: Math.Sqrt(Math.Pow(seenPaper.A - bare.Colour.A, 2) + Math.Pow(seenPaper.B - bare.Colour.B, 2)),
            Curve: look.Curve,
            LeaveOneOut: fit?.LeaveOneOutDe00,
            IsScan: measured.IsScan,
            Noise: cell.Noise
        );
        return new(
            cell.Id,
            wash,
            Uncertainty.Of(features),
            1 / (1 + (spread / 5)),
            cell.Coverage,
            Advice.For(cell with { Glare = glare }, spread)
        )
        {
            IsCovered = cell.IsCovered,
            SpreadDe00 = spread,
            Features = features,
        };

        Xyz ToColour(FileRgb ratio, CameraLook by)
        {
            var paper = by.Undo(cell.Paper);
            var file = new FileRgb(ratio.R * cell.Paper.R, ratio.G * cell.Paper.G, ratio.B * cell.Paper.B);
            var light = by.Undo(file);
            var mapped = map.Map(new(One(0) * white.R, One(1) * white.G, One(2) * white.B));
            var xyz = colour.ToXyz(mapped);
            return new(Math.Max(xyz.X, 1e-3), Math.Max(xyz.Y, 1e-3), Math.Max(xyz.Z, 1e-3));

            double One(int channel)
            {
                if (!(paper[channel] > 1e-6) || !double.IsFinite(light[channel]))
                    return 1;
                var over = excess[channel];
                return Math.Clamp(light[channel] / paper[channel] * BurntPaper.WashFactor(file[channel], over) / over, 1e-4, 3);
            }
        }
    }

    /// <summary>Median paper of the page.</summary>
    private static FileRgb Middle(IReadOnlyList<CellSample> cells)
    {
        if (cells.Count == 0)
            return new(0.7, 0.7, 0.7);
        double Of(int channel) => Math.Max(1e-3, cells.Select(cell => cell.Paper[channel]).Order().ElementAt(cells.Count / 2));
        return new(Of(0), Of(1), Of(2));
    }

    /// <summary>Brought to the lightness of paper, because exposure says nothing about it.</summary>
    private static Xyz Level(Xyz colour) => colour * (88.3 / Math.Max(colour.Y, 1e-3));

    /// <summary>A card in the same light measures the paper too; how far the light is the same is doubted by 2.</summary>
    private static PaperColour Together(PaperColour guess, FileRgb beside, CardFit fit, FileColour colour)
    {
        var byCard = Lab.FromXyz(colour.ToXyz(fit.Map.Map(new(beside.R / fit.White.R, beside.G / fit.White.G, beside.B / fit.White.B))));
        if (Math.Abs(byCard.L - guess.Colour.L) > 8 || Math.Abs(byCard.A - guess.Colour.A) > 6 || Math.Abs(byCard.B - guess.Colour.B) > 10)
            return guess;
        var weightL = 0.8 * 0.8 / ((0.8 * 0.8) + (2 * 2));
        var own = guess.Doubt * guess.Doubt;
        var weight = own / (own + (1.8 * 1.8));
        var lab = new Lab(
            guess.Colour.L + (weightL * (byCard.L - guess.Colour.L)),
            guess.Colour.A + (weight * (byCard.A - guess.Colour.A)),
            guess.Colour.B + (weight * (byCard.B - guess.Colour.B))
        );
        return new(lab, Known: false, Doubt: (1.3 * Math.Sqrt(own * (1 - weight))) + 0.3);
    }

    private static double PaperResidual(Measured measured, PaperColour bare)
    {
        // A relative change of light is a change of L*: the derivative of the cube root.
        var y = Math.Max(1, bare.Colour.ToXyz().Y) / 100;
        return 116.0 / 3 * Math.Cbrt(y) * measured.LightResidual;
    }
}

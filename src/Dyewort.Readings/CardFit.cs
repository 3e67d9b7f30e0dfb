using Dyewort.Colour;
using Dyewort.Numerics;

namespace Dyewort.Readings;

/// <summary>A reference patch in the picture: of a printed card, or of the maker's own strip.</summary>
/// <param name="Id">Its name.</param>
/// <param name="Light">Linear channels as the file has them.</param>
/// <param name="Colour">What it is known to be: XYZ under D65.</param>
/// <param name="X">Place on the card, 0 left to 1 right.</param>
/// <param name="Y">Place on the card, 0 top to 1 bottom.</param>
/// <param name="Clipped">Share of its pixels at the top of a channel.</param>
public sealed record ReferencePatch(string Id, FileRgb Light, Xyz Colour, double X, double Y, double Clipped);

/// <summary>Forms a correction can take, from the simplest.</summary>
public enum CorrectionForm
{
    /// <summary>White alone: the look is the one the markers tell.</summary>
    WhiteBalance,

    /// <summary>White and the camera's tone curve.</summary>
    ToneCurve,

    /// <summary>White, tone curve and a 3 × 3 matrix.</summary>
    Matrix,

    /// <summary>White, tone curve and a root-polynomial of second degree.</summary>
    RootPolynomial,
}

/// <summary>Takes scene light relative to a perfect diffuser to colour.</summary>
/// <remarks>Each output channel is a weighted sum of R, G, B, √RG, √GB, √RB whose weights add up to one, so that greys stay grey
/// and exposure does not matter (the root-polynomial form of Finlayson, Mackiewicz and Hurlbert 2015 [Finlayson2015]).</remarks>
public sealed class ColourMap
{
    private readonly double[] deltas;

    internal ColourMap(double[] deltas) => this.deltas = deltas;

    /// <summary>Changes nothing.</summary>
    public static ColourMap Identity { get; } = new([]);

    /// <summary>Maps scene light (1, 1, 1 = perfect diffuser) to linear channels of the file's space.</summary>
    public FileRgb Map(FileRgb light)
    {
        if (deltas.Length == 0)
            return light;
        Span<double> terms = [light.R, light.G, light.B, Root(light.R, light.G), Root(light.G, light.B), Root(light.R, light.B)];
        Span<double> result = [light.R, light.G, light.B];
        var count = deltas.Length == 6 ? 3 : 6;
        var at = 0;
        for (var channel = 0; channel < 3; channel++)
        {
            for (var term = 0; term < count; term++)
            {
                if (term != channel)
                    result[channel] += deltas[at++] * (terms[term] - terms[channel]);
            }
        }

        return new(result[0], result[1], result[2]);
    }

    /// <summary>The light that maps to given channels, by fixed-point steps; near identity they converge fast.</summary>
    /// <param name="mapped">Linear channels of a paper, about 0.25 to 1; a channel near black may have no single light that maps to
    /// it.</param>
    public FileRgb Inverse(FileRgb mapped)
    {
        var guess = mapped;
        for (var round = 0; round < 200; round++)
        {
            var got = Map(guess);
            var (r, g, b) = (mapped.R - got.R, mapped.G - got.G, mapped.B - got.B);
            guess = new(guess.R + r, guess.G + g, guess.B + b);
            if (Math.Abs(r) + Math.Abs(g) + Math.Abs(b) < 1e-12)
                break;
        }

        return guess;
    }

    private static double Root(double a, double b) => Math.Sqrt(Math.Max(0, a) * Math.Max(0, b));
}

/// <summary>What reference patches taught about the camera and the light.</summary>
/// <param name="Form">The form that predicts patches it has not seen best.</param>
/// <param name="Look">The camera's look.</param>
/// <param name="Map">The map to colour.</param>
/// <param name="White">Scene light of a perfect diffuser in the middle of the card.</param>
/// <param name="ResidualDe00">Mean ΔE₀₀ of the patches after the fit.</param>
/// <param name="LeaveOneOutDe00">Mean ΔE₀₀ of each patch predicted from the others.</param>
/// <param name="WhiteBalanceLeaveOneOutDe00">The same for white balance alone: what the card is measured against.</param>
public sealed record CardFit(
    CorrectionForm Form,
    CameraLook Look,
    ColourMap Map,
    FileRgb White,
    double ResidualDe00,
    double LeaveOneOutDe00,
    double WhiteBalanceLeaveOneOutDe00
)
{
    private const double PatchSigma = 1.5;
    private const double SigmaSaturation = 0.06;
    private const double SigmaStray = 0.7;
    private const double SigmaMatrix = 0.05;
    private const double SigmaGradient = 0.05;

    /// <summary>Fits all forms and keeps the one whose leave-one-out error is smallest; a dearer form must win by 3 %.</summary>
    /// <param name="patches">Reference patches; those that are mostly clipped are left out.</param>
    /// <param name="colour">The file's colour space.</param>
    /// <param name="look">The look as the markers tell it: the prior.</param>
    /// <returns>Null with fewer than three usable patches.</returns>
    public static CardFit? Best(IReadOnlyList<ReferencePatch> patches, FileColour colour, CameraLook look)
    {
        var usable = patches.Where(patch => patch.Clipped < 0.2 && CameraLook.Mixed(patch.Light) > 1e-5).ToArray();
        if (usable.Length < 3)
            return null;
        CardFit? best = null;
        double white = 0;
        foreach (var form in Enum.GetValues<CorrectionForm>())
        {
            if (form is CorrectionForm.Matrix && usable.Length < 6)
                continue;
            if (form is CorrectionForm.RootPolynomial && usable.Length < 12)
                continue;
            var (start, cost) = Solve(form, usable, -1, colour, look, null, 30);
            if (!double.IsFinite(cost))
                continue;
            double residual = 0,
                leaveOneOut = 0;
            for (var i = 0; i < usable.Length; i++)
            {
                residual += Error(form, start, usable[i], colour, look) / usable.Length;
                var (without, _) = Solve(form, usable, i, colour, look, start, 4);
                leaveOneOut += Error(form, without, usable[i], colour, look) / usable.Length;
            }

            if (form is CorrectionForm.WhiteBalance)
                white = leaveOneOut;
            if (best is not null && leaveOneOut > best.LeaveOneOutDe00 * 0.97)
                continue;
            best = new(form, LookOf(form, start, look), new(DeltasOf(form, start)), WhiteOf(start), residual, leaveOneOut, white);
        }

        return best;
    }

    private static int Unknowns(CorrectionForm form) =>
        form switch
        {
            CorrectionForm.WhiteBalance => 5,
            CorrectionForm.ToneCurve => 8,
            CorrectionForm.Matrix => 14,
            _ => 23,
        };

    // Order of unknowns: log white (3), slope of the light across the card (2), curve, saturation beside its tie, log stray, weights.
    private static (double[] Best, double Cost) Solve(
        CorrectionForm form,
        ReferencePatch[] patches,
        int without,
        FileColour colour,
        CameraLook look,
        double[]? start,
        int rounds
    )
    {
        var n = Unknowns(form);
        if (start is null)
        {
            start = new double[n];
            for (var channel = 0; channel < 3; channel++)
            {
                var c = channel;
                var logs = patches
                    .Select(patch => Math.Log(Math.Max(1e-4, look.Undo(patch.Light)[c]) / Math.Max(1e-3, colour.FromXyz(patch.Colour)[c])))
                    .Order()
                    .ToArray();
                start[c] = logs[logs.Length / 2];
            }

            if (n > 5)
                start[5] = look.Curve;
        }

        var count = (patches.Length * 3) + n - 3;
        var steps = Enumerable.Repeat(1e-4, n).ToArray();
        // However it ended: what the best corner of so few rounds leaves open shows in the residuals that are reported.
        var fit = LeastSquares.Minimise(start, Residuals, count, steps, rounds);
        return (fit.Best, fit.Cost);

        void Residuals(double[] at, double[] r)
        {
            var lookNow = LookOf(form, at, look);
            var map = new ColourMap(DeltasOf(form, at));
            for (var i = 0; i < patches.Length; i++)
            {
                if (i == without)
                {
                    r[3 * i] = r[(3 * i) + 1] = r[(3 * i) + 2] = 0;
                    continue;
                }

                var seen = LabOf(at, patches[i], colour, lookNow, map);
                var known = Lab.FromXyz(patches[i].Colour);
                var chroma = known.Chroma;

                // CIEDE2000's weights at the known colour, without its rotation, so that squares may be summed.
                var l50 = (known.L - 50) * (known.L - 50);
                var sl = 1 + (0.015 * l50 / Math.Sqrt(20 + l50));
                var (sc, sh) = (1 + (0.045 * chroma), 1 + (0.015 * chroma));
                var (ca, cb) = chroma < 1 ? (1.0, 0.0) : (known.A / chroma, known.B / chroma);
                var (da, db) = (seen.A - known.A, seen.B - known.B);
                var (dl, dc, dh) = ((seen.L - known.L) / sl, ((da * ca) + (db * cb)) / sc, ((db * ca) - (da * cb)) / sh);
                var size = Math.Sqrt((dl * dl) + (dc * dc) + (dh * dh)) / PatchSigma;
                var soft = size > 2 ? Math.Sqrt((4 * size) - 4) / size : 1;
                (r[3 * i], r[(3 * i) + 1], r[(3 * i) + 2]) = (dl * soft / PatchSigma, dc * soft / PatchSigma, dh * soft / PatchSigma);
            }

            var k = patches.Length * 3;
            r[k++] = at[3] / SigmaGradient;
            r[k++] = at[4] / SigmaGradient;
            if (n > 5)
            {
                r[k++] = (at[5] - look.Curve) / Math.Max(0.06, look.CurveDoubt);
                r[k++] = at[6] / SigmaSaturation;
                r[k++] = at[7] / SigmaStray;
            }

            for (var j = 8; j < n; j++)
                r[k++] = at[j] / SigmaMatrix;
        }
    }

    private static FileRgb WhiteOf(double[] at) => new(Math.Exp(at[0]), Math.Exp(at[1]), Math.Exp(at[2]));

    private static double[] DeltasOf(CorrectionForm form, double[] at) =>
        form is CorrectionForm.Matrix or CorrectionForm.RootPolynomial ? at[8..] : [];

    private static CameraLook LookOf(CorrectionForm form, double[] at, CameraLook prior)
    {
        if (form is CorrectionForm.WhiteBalance)
            return prior;
        var curve = Math.Clamp(at[5], 0, 0.9);
        return prior with
        {
            Curve = curve,
            Saturation = Math.Clamp(CameraLook.TiedSaturation(curve) + at[6], 0.6, 1.8),
            Stray = prior.Stray * Math.Exp(Math.Clamp(at[7], -3, 3)),
            CurveDoubt = Math.Min(prior.CurveDoubt, 0.06),
        };
    }

    private static Lab LabOf(double[] at, ReferencePatch patch, FileColour colour, CameraLook look, ColourMap map)
    {
        var light = look.Undo(patch.Light);
        var slope = Math.Exp((at[3] * (patch.X - 0.5)) + (at[4] * (patch.Y - 0.5)));
        var white = WhiteOf(at);
        var mapped = map.Map(
            new(Floor(light.R / (white.R * slope)), Floor(light.G / (white.G * slope)), Floor(light.B / (white.B * slope)))
        );
        return Lab.FromXyz(colour.ToXyz(mapped));
    }

    private static double Floor(double value) => double.IsFinite(value) ? Math.Max(value, 1e-4) : 1e-4;

    private static double Error(CorrectionForm form, double[] at, ReferencePatch patch, FileColour colour, CameraLook look) =>
        Difference.Ciede2000(LabOf(at, patch, colour, LookOf(form, at, look), new(DeltasOf(form, at))), Lab.FromXyz(patch.Colour));
}

namespace Dyewort.Response;

/// <summary>The covariance of two samples' film densities, under one set of hyperparameters.</summary>
/// <remarks>The dye is shared out between its free form and one complex for every addition that is not an acid or base; shares saturate as
/// Langmuir's isotherm and may compete [Langmuir1918]. The free form's density is a smooth function of the pH, a complex's nearly a
/// constant; how tightly an addition binds depends on the pH. A small free-form residual over all inputs (a squared exponential,
/// [RasmussenWilliams2006], equation 4.9) and a small private scatter per sample stand for what this picture of a dye bath leaves out. Sums
/// and products of covariances are covariances (section 4.2.4 there). The wash multiplies the density, as Beer's law has it.</remarks>
internal sealed class FilmKernel(FilmBelief belief, Hyperparameters by)
{
    private const double CommonShare = 1;
    private const double ComplexFollowsPh = 0.03;
    private const double Residual = 0.02;

    /// <summary>Correlation of two different bands: inks that are darker in one are mostly darker in the others (estimate, no
    /// source).</summary>
    private const double BandCorrelation = 0.7;
    private readonly int additions = belief.Additions;

    /// <summary>Numbers per sample in its features.</summary>
    public int Width => additions + 2;

    public Hyperparameters By => by;

    /// <summary>Covariance of two bands, where that of one band with itself is 1.</summary>
    public static double OfBands(int a, int b) => a == b ? 1 : BandCorrelation;

    /// <summary>Per addition the share of the dye it holds (of an acid or base: a saturating measure of its dose), then the strength of
    /// the wash and the pH.</summary>
    public void Features(in FilmInput input, Span<double> into)
    {
        var ph = input.Ph.At(by.LiquorPh, by.LiquorAcid) + input.PhShift;
        var sum = 0.0;
        for (var m = 0; m < additions; m++)
        {
            into[m] = input.Doses[m] / by.HalfDose[m];
            if (belief.Agent[m])
                continue;
            into[m] /= 1 + Math.Pow(10, by.ReleasePh[m] - ph);
            sum += into[m];
        }

        for (var m = 0; m < additions; m++)
            into[m] /= 1 + into[m] + (belief.Agent[m] ? 0 : by.Competition * (sum - into[m]));
        into[additions] =
            Math.Pow(input.Strength, by.WashPower)
            * by.PaperStrength[Math.Max(input.Paper, 0)]
            * by.StateStrength[Math.Max(input.State, 0)]
            * by.PotStrength[Math.Max(input.Pot, 0)];
        into[additions + 1] = ph;
    }

    /// <summary>The features of several samples, one after the other.</summary>
    public double[] Features(IReadOnlyList<FilmInput> inputs)
    {
        var features = new double[inputs.Count * Width];
        for (var i = 0; i < inputs.Count; i++)
            Features(inputs[i], features.AsSpan(i * Width, Width));
        return features;
    }

    /// <summary>Covariance of one band of two samples, without what is private to each.</summary>
    public double Between(in FilmInput first, ReadOnlySpan<double> one, in FilmInput second, ReadOnlySpan<double> two)
    {
        var distance = (one[additions + 1] - two[additions + 1]) * by.InverseLength;
        var near = Math.Exp(-0.5 * distance * distance);
        double freeOne = 1,
            freeTwo = 1,
            complexes = 0,
            agents = 1,
            apart = distance * distance;
        for (var m = 0; m < additions; m++)
        {
            var step = one[m] - two[m];
            if (belief.Agent[m])
            {
                agents += by.Share[m] * one[m] * two[m];
                apart += step * step;
                continue;
            }

            freeOne -= one[m];
            freeTwo -= two[m];
            complexes += one[m] * two[m] * (by.Share[m] + (ComplexFollowsPh * by.PhShare * near));
            apart += 4 * step * step;
        }

        var value =
            (agents * (CommonShare + complexes + (freeOne * freeTwo * (1 + (by.PhShare * near))))) + (Residual * Math.Exp(-0.5 * apart));
        if (first.Paper != second.Paper)
            value /= 1 + by.PaperApart;
        if (first.State != second.State)
            value /= 1 + by.StateApart;
        if (first.Pot != second.Pot)
            value /= 1 + by.PotApart;
        return by.Variance * value * one[additions] * two[additions];
    }

    /// <summary>What is private to a sample, between two stages of it: its scatter at their strengths.</summary>
    public double Private(ReadOnlySpan<double> one, ReadOnlySpan<double> two) => by.Private * one[additions] * two[additions];

    /// <summary>Variance of one band of a sample.</summary>
    /// <param name="input">The sample.</param>
    /// <param name="features">Its features.</param>
    /// <param name="privateShare">How much of its private scatter counts, 0 to 1.</param>
    public double Own(in FilmInput input, ReadOnlySpan<double> features, double privateShare = 1) =>
        Between(input, features, input, features) + (privateShare * Private(features, features));
}

namespace Dyewort.Response;

/// <summary>Where each hyperparameter stands in the vector that is searched, and the normal belief about it before data.</summary>
/// <remarks>Positive quantities stand as logarithms, a share as the logarithm of its odds. Means and spreads are estimates of what inks on
/// paper do; on generated plants of two kinds the forecasts made with them keep their stated ± (docs/accuracy.md).</remarks>
internal sealed class HyperLayout
{
    /// <summary>What two levels of a factor that was not tested do not have in common.</summary>
    private const double UntestedApart = 0.05;
    private readonly List<double> mean = [];
    private readonly List<double> spread = [];
    private readonly int amplitude;
    private readonly int noise;
    private readonly int length;
    private readonly int phShare;
    private readonly int ofOneSample;
    private readonly int competition;
    private readonly int[] halfDose;
    private readonly int[] share;
    private readonly int[] releasePh;
    private readonly int? paperApart;
    private readonly int? stateApart;
    private readonly int? potApart;
    private readonly int? washPower;
    private readonly int[] paperStrength;
    private readonly int[] stateStrength;
    private readonly int[] potStrength;
    private readonly int? liquorPh;
    private readonly int? liquorAcid;

    public HyperLayout(FilmBelief belief)
    {
        amplitude = One(Math.Log(0.9), 0.5);
        noise = One(Math.Log(0.6), 0.5);
        length = One(Math.Log(1.7), 0.35);
        phShare = One(Math.Log(0.8), 0.8);
        ofOneSample = One(Math.Log(0.015), 0.5);
        competition = One(1.5, 1.5);
        (halfDose, share, releasePh) = (new int[belief.Additions], new int[belief.Additions], new int[belief.Additions]);
        for (var m = 0; m < belief.Additions; m++)
            (halfDose[m], share[m], releasePh[m]) = (One(belief.LogHalfDose[m], 1), One(belief.LogShare[m], 1), One(3, 1));
        paperApart = belief.Papers > 1 ? One(Math.Log(0.03), 1) : null;
        stateApart = belief.States > 1 ? One(Math.Log(0.03), 1) : null;
        potApart = belief.Pots > 1 ? One(Math.Log(0.03), 1) : null;
        washPower = belief.LearnWash ? One(0, 0.1) : null;

        // Pots of one plant differ in strength before anything else, papers in how much ink they take up, wet and dry films in density:
        // about a quarter either way (estimate, no source). The first of each is what the others are compared with.
        paperStrength = Beside(belief.Papers);
        stateStrength = Beside(belief.States);
        potStrength = Beside(belief.Pots);
        liquorPh = belief.LearnLiquor ? One(0, 1) : null;
        liquorAcid = belief.LearnLiquor ? One(0, 1) : null;
        (PriorMean, PriorSpread) = ([.. mean], [.. spread]);
    }

    /// <summary>Means of the belief.</summary>
    public double[] PriorMean { get; }

    /// <summary>Its standard deviations.</summary>
    public double[] PriorSpread { get; }

    /// <summary>True for the spread of the densities: the kernel is proportional to its square.</summary>
    public bool IsAmplitude(int q) => q == amplitude;

    /// <summary>True for the readings' scatter, which stands outside the kernel.</summary>
    public bool IsNoise(int q) => q == noise;

    /// <summary>Logarithm of the belief's density, up to a constant.</summary>
    public double LogPrior(ReadOnlySpan<double> theta)
    {
        var log = 0.0;
        for (var q = 0; q < theta.Length; q++)
        {
            var z = (theta[q] - PriorMean[q]) / PriorSpread[q];
            log -= 0.5 * z * z;
        }

        return log;
    }

    /// <summary>Its derivative in one hyperparameter.</summary>
    public double LogPriorSlope(ReadOnlySpan<double> theta, int q) => -(theta[q] - PriorMean[q]) / (PriorSpread[q] * PriorSpread[q]);

    public Hyperparameters Read(double[] theta) =>
        new()
        {
            Variance = Math.Exp(2 * theta[amplitude]),
            Noise = Math.Exp(2 * theta[noise]),
            InverseLength = Math.Exp(-theta[length]),
            PhShare = Math.Exp(theta[phShare]),
            Private = Math.Exp(2 * theta[ofOneSample]),
            Competition = 1 / (1 + Math.Exp(-theta[competition])),
            HalfDose = Exp(theta, halfDose),
            Share = Exp(theta, share),
            ReleasePh = Array.ConvertAll(releasePh, place => theta[place]),
            PaperApart = Exp(theta, paperApart) ?? UntestedApart,
            StateApart = Exp(theta, stateApart) ?? UntestedApart,
            PotApart = Exp(theta, potApart) ?? UntestedApart,
            WashPower = Exp(theta, washPower) ?? 1,
            PaperStrength = [1, .. Exp(theta, paperStrength)],
            StateStrength = [1, .. Exp(theta, stateStrength)],
            PotStrength = [1, .. Exp(theta, potStrength)],
            LiquorPh = liquorPh is { } ph ? theta[ph] : 0,
            LiquorAcid = liquorAcid is { } acid ? theta[acid] : 0,
        };

    private int One(double itsMean, double itsSpread)
    {
        mean.Add(itsMean);
        spread.Add(itsSpread);
        return mean.Count - 1;
    }

    private int[] Beside(int levels) => [.. Enumerable.Range(1, Math.Max(levels - 1, 0)).Select(_ => One(0, 0.25))];

    private static double[] Exp(double[] theta, int[] at) => Array.ConvertAll(at, place => Math.Exp(theta[place]));

    private static double? Exp(double[] theta, int? at) => at is { } place ? Math.Exp(theta[place]) : null;
}

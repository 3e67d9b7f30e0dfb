using Dyewort.Quantities;

namespace Dyewort.Response;

/// <summary>Learns a <see cref="ResponseModel"/> from painted and read samples.</summary>
/// <remarks>Hyperparameters are averaged over their posterior instead of fixed at its mode, because few samples leave them open
/// [RasmussenWilliams2006], section 5.2.</remarks>
internal static class ResponseFit
{
    private const int Members = 24;

    /// <summary>Hyperparameters need no more rows than this: one evidence costs the cube of them.</summary>
    private const int MostStudied = 60;
    private const int FewestForOutliers = 8;
    private const int RobustRounds = 2;
    private const int FirstRounds = 60;
    private const int LaterRounds = 40;

    /// <summary>A reading beyond the 99.5th percentile of chi-square with three degrees of freedom is taken for an outlier.</summary>
    private const double OutlierBound = 12.84;

    public static Outcome<ResponseModel> Learn(
        IReadOnlyList<TrialRow> rows,
        IReadOnlyList<string> additions,
        IReadOnlyList<TrialPoint>? noted
    )
    {
        var painted = rows.Where(row => row.Point.Wash > 0).ToArray();
        if (painted.Length < ResponseModel.FewestSamples)
        {
            return Outcome.Refused<ResponseModel>(
                "trials",
                $"Not enough trials yet: {painted.Length} painted {(painted.Length == 1 ? "sample" : "samples")} of this plant.",
                $"Paint and read at least {ResponseModel.FewestSamples}."
            );
        }

        var encoding = TrialEncoding.Of(painted, additions);
        var book = PhBook.Of(painted[0].Point.Plant, noted ?? [.. painted.Select(row => row.Point)], encoding.Additions);
        var films = PaperFilms.Of(rows);
        var scatter = ReadingScatter.Of(painted);
        var noise = new double[painted.Length * 9];
        var evidence = Evidence(painted, encoding, book, films, scatter, noise);
        var mode = Robust(ref evidence, noise);

        // A step costs the cube of the samples; few samples leave the widest hills to walk over.
        var thinning = painted.Length switch
        {
            <= 20 => 30,
            <= 32 => 20,
            _ => 10,
        };
        var fitted = evidence;
        var ensemble = Metropolis
            .Sample(Studied(evidence), mode, Members, thinning, ResponseModel.Seed)
            .ConvertAll(theta => new FilmPosterior(fitted, theta));
        return Outcome.Of(new ResponseModel(evidence, ensemble, films, painted, encoding, book, scatter));
    }

    private static FilmEvidence Evidence(
        TrialRow[] painted,
        TrialEncoding encoding,
        PhBook book,
        Dictionary<string, Film> films,
        ReadingScatter scatter,
        double[] noise
    )
    {
        var inputs = new FilmInput[painted.Length];
        var density = new double[painted.Length * 3];
        for (var i = 0; i < painted.Length; i++)
        {
            var film = films[painted[i].Point.Paper.ToLowerInvariant()];
            inputs[i] = encoding.Input(painted[i].Point, book.Surface(painted[i].Point).Surface);
            var d = film.DensityOf(painted[i].Colour);
            for (var k = 0; k < 3; k++)
                density[(3 * i) + k] = d[k];
            var own = noise.AsSpan(9 * i, 9);
            Scatter.InDensity(film, d, own);
            for (var e = 0; e < 9; e++)
                own[e] *= scatter.Times(painted[i]);
        }

        return new(inputs, density, noise, Belief(painted, encoding, book));
    }

    private static FilmBelief Belief(TrialRow[] painted, TrialEncoding encoding, PhBook book)
    {
        var action = Array.ConvertAll(encoding.Additions, Agents.Of);
        return new()
        {
            Agent = Array.ConvertAll(action, one => one != Action.Binds),
            LogHalfDose = Array.ConvertAll(encoding.Additions, name => LogHalfDose(painted, name)),
            LogShare = Array.ConvertAll(
                action,
                one =>
                    Math.Log(
                        one switch
                        {
                            Action.Binds => 1,
                            Action.Idle => 0.005,
                            Action.Helps => 0.3,
                            // Where no pH was measured the computed one may be off, and acids and bases keep more say of their own.
                            _ => book.Measured > 0 ? 0.02 : 0.08,
                        }
                    )
            ),
            Papers = encoding.Papers.Length,
            States = encoding.States.Length,
            Pots = encoding.Pots.Length,
            LearnLiquor = !book.IsFree && painted.Any(row => row.Point.Ph is null),
            LearnWash = painted.Select(row => row.Point.Wash * row.Point.Coats).Distinct().Count() > 1,
        };
    }

    /// <summary>Half way, in logarithms, between the doses that were tried and 2 g/L.</summary>
    private static double LogHalfDose(TrialRow[] rows, string addition)
    {
        var logs = rows.Select(row => row.Point.Dose(addition)).Where(dose => dose > 0).Select(dose => Math.Log(dose)).ToArray();
        return logs.Length == 0 ? Math.Log(2) : (logs.Average() + Math.Log(2)) / 2;
    }

    /// <summary>The posterior's mode, outliers given as much scatter as makes them ordinary: a slip of the reader or a wrong jar says
    /// little, and must not widen the scatter of all others.</summary>
    /// <remarks>How a search ended is not asked: a mode that is not quite one only starts the walk, which forgets where it started, and
    /// tells outliers from the rest as well.</remarks>
    private static double[] Robust(ref FilmEvidence evidence, double[] noise)
    {
        var first = evidence;
        var mode = Bfgs.Maximise(Studied(evidence), evidence.Layout.PriorMean, FirstRounds).Theta;
        for (var round = 0; round < RobustRounds && evidence.Count >= FewestForOutliers; round++)
        {
            var times = Array.ConvertAll(
                new FilmPosterior(evidence, mode).SquaredMahalanobis(noise),
                distance => distance > OutlierBound ? distance / 3 : 1
            );
            if (round == 0 && times.All(one => one == 1))
                break;
            evidence = first.WithScatter(times);
            mode = Bfgs.Maximise(Studied(evidence), mode, LaterRounds).Theta;
        }

        return mode;
    }

    /// <summary>A sample of a large table, evenly spaced; the forecasts use all of it.</summary>
    private static FilmEvidence Studied(FilmEvidence evidence) =>
        evidence.Count <= MostStudied
            ? evidence
            : evidence.Part([.. Enumerable.Range(0, MostStudied).Select(i => (int)((long)i * evidence.Count / MostStudied))]);
}

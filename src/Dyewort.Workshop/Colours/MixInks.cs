using System.Globalization;
using Dyewort.Colour;
using Dyewort.Quantities;
using Dyewort.Response;
using Dyewort.Workshop.Response;

namespace Dyewort.Workshop.Colours;

/// <summary>Says what inks mixed by volume, and thinned, would look like on the paper each was painted on.</summary>
public sealed class MixInks : IUseCase
{
    /// <summary>How much a guessed paper may be off, each taken as one standard deviation: lighter or darker, and warmer or
    /// cooler.</summary>
    private static readonly Lab[] PaperDoubts = [new(1.5, 0, 0), new(0, 0, 2)];

    /// <param name="inks">Each a colour or a sample of the trials, “=” and its parts, such as <c>#5b3f7a=2</c>.</param>
    /// <param name="wash">Share of ink in the painted mixture, such as 1/4 for one part in four; empty for undiluted.</param>
    /// <param name="paper">The bare paper's colour; empty when not known.</param>
    /// <param name="trials">Trials whose samples may be mixed by their codes; null for colours alone.</param>
    public Outcome<MixInksAnswer> Handle(IReadOnlyList<string> inks, string? wash, string? paper, TrialTable? trials = null)
    {
        var entered = new Entered();
        if (inks.Count == 0)
            entered.Refuse("ink", "No ink was given.", "Give each ink as COLOUR=PARTS, such as #5b3f7a=2.");
        if (inks.Count > 50)
            entered.Refuse("ink", $"{inks.Count} inks are too many for one mixture.", "Mix at most 50.");
        var parts = new List<Part>();
        var papers = new HashSet<string>(StringComparer.OrdinalIgnoreCase);
        foreach (var ink in inks.Take(50))
        {
            if (Ink(entered, ink, trials, papers) is { } one)
                parts.Add(one);
        }

        var share = string.IsNullOrWhiteSpace(wash) ? 1 : Share(entered, wash);
        var bare = string.IsNullOrWhiteSpace(paper) ? null : entered.Take(ColourText.Parse("paper", paper));
        var known =
            bare is not null ? Paper.TryOf(bare.Colour)
            : papers.Count == 1 && Bare(trials!, papers.Single()) is { } tested ? Paper.TryOf(tested)
            : null;
        if (bare is not null && known is null)
            entered.Refuse("paper", $"“{paper}” cannot be a paper's colour.", "Give the colour of the bare paper, such as lab(95 0 3).");
        if (!entered.Sound)
            return Outcome.Refused<MixInksAnswer>(entered.Problems);
        var answer = Mix(parts, share, known);
        return Outcome.Of(
            papers.Count > 1
                ? answer with
                {
                    Warnings =
                    [
                        .. answer.Warnings,
                        $"The samples were painted on different papers ({string.Join(", ", papers)}): the mixture is reckoned on one.",
                    ],
                }
                : answer
        );
    }

    /// <summary>The bare paper's colour where the trials have a row of it.</summary>
    private static Xyz? Bare(TrialTable trials, string paper) =>
        trials
            .Rows.FirstOrDefault(row => row.Point.Wash == 0 && string.Equals(row.Point.Paper, paper, StringComparison.OrdinalIgnoreCase))
            ?.Colour.ToXyz();

    private static MixInksAnswer Mix(List<Part> parts, double wash, Paper? known)
    {
        var total = parts.Sum(part => part.Parts);
        var warnings = new List<string>();
        var paper = known ?? Guess(parts);
        var colour = On(parts, wash, paper).UncertainOn(paper);
        if (known is null)
        {
            var lab = Lab.FromXyz(paper.Colour);
            warnings.Add(
                string.Create(
                    CultureInfo.InvariantCulture,
                    $"The paper is guessed: a white drawing paper of CIELAB {lab.L:0.#}, {lab.A:0.#}, {lab.B:0.#}. Name your own "
                        + $"paper for a surer answer."
                )
            );
            foreach (var doubt in PaperDoubts)
            {
                if (Paper.TryOf(new Lab(lab.L - doubt.L, lab.A, lab.B + doubt.B).ToXyz()) is not { } other)
                    continue;
                var moved = On(parts, wash, other).On(other);
                var (x, y, z) = (moved.X - colour.Colour.X, moved.Y - colour.Colour.Y, moved.Z - colour.Colour.Z);
                colour = colour with { Covariance = colour.Covariance + new Covariance(x * x, x * y, x * z, y * y, y * z, z * z) };
            }
        }

        foreach (var ink in parts)
        {
            var film = Lab.FromXyz(InkFilm.FromColour(ink.Colour, paper).On(paper));
            if (Difference.Ciede2000(film, Lab.FromXyz(ink.Colour)) > 0.5)
                warnings.Add($"No clear ink gives the {ink.ReadAs} on this paper; the nearest that can be was mixed.");
        }

        return new(
            colour,
            Lab.FromXyz(paper.Colour),
            known is null,
            wash,
            [.. parts.Select(part => (part.ReadAs, part.Parts / total))],
            warnings
        );
    }

    private static InkFilm On(List<Part> parts, double wash, Paper paper) =>
        InkFilm.Mix([.. parts.Select(part => (InkFilm.FromColour(part.Colour, paper), part.Parts))]).Wash(wash);

    /// <summary>A white drawing paper, made lighter where an ink is lighter still: an ink can only take light away.</summary>
    private static Paper Guess(List<Part> parts)
    {
        var (x, y, z) = (Paper.DrawingPaperGuess.Colour.X, Paper.DrawingPaperGuess.Colour.Y, Paper.DrawingPaperGuess.Colour.Z);
        foreach (var ink in parts)
            (x, y, z) = (Math.Max(x, ink.Colour.X), Math.Max(y, ink.Colour.Y), Math.Max(z, ink.Colour.Z));
        return (x, y, z) == (Paper.DrawingPaperGuess.Colour.X, Paper.DrawingPaperGuess.Colour.Y, Paper.DrawingPaperGuess.Colour.Z)
            ? Paper.DrawingPaperGuess
            : Paper.TryOf(new(x, y, z)) ?? Paper.DrawingPaperGuess;
    }

    private sealed record Part(Xyz Colour, string ReadAs, double Parts);

    private static Part? Ink(Entered entered, string text, TrialTable? trials, HashSet<string> papers)
    {
        var place = text.LastIndexOf('=');
        if (place < 0)
        {
            entered.Refuse("ink", $"“{text}” has no parts.", "Write COLOUR=PARTS, such as #5b3f7a=2.");
            return null;
        }

        var parts = Fraction(text[(place + 1)..]);
        if (parts is null or > 1e6)
            entered.Refuse(
                "ink",
                $"“{text[(place + 1)..]}” in “{text}” is not a number of parts above 0.",
                "Write parts such as 2, 0.5 or 1/2."
            );
        if (trials is not null)
        {
            if (entered.ColourOf("ink", text[..place], trials, out var sample) is not { } lab || parts is not { } share)
                return null;
            if (sample is { Paper.Length: > 0 })
                papers.Add(sample.Paper);
            return new(lab.ToXyz(), sample?.Sample ?? text[..place].Trim(), share);
        }

        return entered.Take(ColourText.Parse("ink", text[..place])) is { } colour && parts is { } number
            ? new(colour.Colour, colour.ReadAs, number)
            : null;
    }

    private static double Share(Entered entered, string wash)
    {
        var share = wash.TrimEnd().EndsWith('%') ? Fraction(wash.TrimEnd()[..^1]) / 100 : Fraction(wash);
        if (share is > 0 and <= 1)
            return share.Value;
        entered.Refuse("wash", $"“{wash}” is not a share of ink above 0 and up to 1.", "Write 1/4 for one part ink in four parts of wash.");
        return 1;
    }

    /// <summary>A number above 0, also as a fraction.</summary>
    private static double? Fraction(string text)
    {
        var pieces = text.Trim().Split('/');
        if (pieces.Length > 2)
            return null;
        double value = 1;
        for (var i = 0; i < pieces.Length; i++)
        {
            if (
                !double.TryParse(
                    pieces[i],
                    NumberStyles.AllowDecimalPoint | NumberStyles.AllowLeadingWhite | NumberStyles.AllowTrailingWhite,
                    CultureInfo.InvariantCulture,
                    out var number
                )
                || number <= 0
            )
                return null;
            value = i == 0 ? number : value / number;
        }

        return double.IsFinite(value) && value > 0 ? value : null;
    }
}

/// <param name="Colour">The mixture on the paper, with its uncertainty: what the inks' colours leave open about their spectra, and the
/// guess of the paper.</param>
/// <param name="Paper">The paper reckoned with.</param>
/// <param name="PaperIsGuessed">Whether nobody said what the paper is.</param>
/// <param name="Inks">How each ink was understood, and its share of the mixture.</param>
/// <param name="Warnings">What makes the answer less sure.</param>
public sealed record MixInksAnswer(
    UncertainColour Colour,
    Lab Paper,
    bool PaperIsGuessed,
    double Wash,
    IReadOnlyList<(string ReadAs, double Share)> Inks,
    IReadOnlyList<string> Warnings
)
{
    public Lab Lab => Colour.Lab;

    /// <summary>95 % radius in CIEDE2000.</summary>
    public double UncertaintyDe00 => Colour.Radius95De00();
}

using System.ComponentModel;
using System.Globalization;
using Dyewort.Colour;
using Dyewort.Response;
using Dyewort.Workshop;
using Dyewort.Workshop.Colours;
using Dyewort.Workshop.Response;
using Spectre.Console.Cli;

namespace Dyewort.Cli.Commands.Response;

/// <summary>How a wanted colour could be made.</summary>
public sealed class MatchCommand : AsyncCommand<MatchSettings>
{
    public override async Task<int> ExecuteAsync(CommandContext context, MatchSettings settings, CancellationToken cancellationToken)
    {
        var wanted = Wish.Parse("COLOUR", await WantedAsync(settings, cancellationToken)).OrRefuse();
        var volume = string.IsNullOrWhiteSpace(settings.Volume)
            ? MatchColourForm.Usual
            : Quantities.Volume.Parse("--volume", settings.Volume).OrRefuse();
        var trials = await ReadTrials.SourceAsync(settings.Trials, settings.Notebook, cancellationToken);
        var outcome = await new MatchColour(new()).HandleAsync(
            new()
            {
                Wanted = wanted,
                Volume = volume,
                Paper = settings.Paper,
            },
            trials,
            cancellationToken
        );
        var answer = outcome.OrRefuse();
        if (answer.Ways.Count == 0)
            throw new RefusalException(
                answer.NotYet.Count > 0
                    ? answer.NotYet
                    :
                    [
                        answer.NotProposed is { } never
                            ? new("trials", $"What comes near is not proposed. {never}", "Paint other samples.")
                            : new(
                                "trials",
                                "Not enough trials yet: no painted sample was read.",
                                $"Paint and read at least {ResponseModel.FewestSamples}."
                            ),
                    ]
            );
        PotAnswer.Say([
            .. answer.Warnings,
            .. answer.NotYet.Select(problem => problem.ToString()),
            .. Caution.Lines(answer.Ways.SelectMany(way => way.Cautions)),
        ]);
        if (!answer.Reached)
            await Console.Error.WriteLineAsync($"This colour cannot be reached; the nearest comes first. {answer.Why}");
        if (settings.Json)
        {
            ResponseJson.Write(
                answer
                    .Ways.Select(way => way.Proposal)
                    .Select(one => new
                    {
                        Kind = Word(one.Kind),
                        Amounts = ResponseJson.Amounts(one.Point.GramsPerLitre),
                        one.Point.Wash,
                        Parts = one.Parts.Count > 0
                            ? one.Parts.Select(part => new
                            {
                                part.Plant,
                                part.Sample,
                                part.Share,
                            })
                            : null,
                        Lab = ResponseJson.Triple(one.Colour),
                        ExpectedDe00 = ResponseJson.Rounded(one.ExpectedDe00),
                        UncertaintyDe00 = ResponseJson.Rounded(one.UncertaintyDe00),
                        ChanceWithinJustVisible = ResponseJson.Rounded(one.ChanceWithinJustVisible),
                        one.Point.Plant,
                        PH = one.Point.Ph is { } ph ? ResponseJson.Rounded(ph) : (double?)null,
                        Sample = one.Sample.Length > 0 ? one.Sample : null,
                        one.Surer,
                    })
            );
            return Program.Done;
        }

        foreach (var one in answer.Ways.Select(way => way.Proposal))
        {
            Console.WriteLine(
                string.Create(
                    CultureInfo.InvariantCulture,
                    $"{Say(one)}: L* {one.Colour.L:0.0}  a* {one.Colour.A:0.0}  b* {one.Colour.B:0.0} ± {one.UncertaintyDe00:0.0}, "
                        + $"expected ΔE00 {one.ExpectedDe00:0.0}, unseen {100 * one.ChanceWithinJustVisible:0} times of 100"
                )
            );
        }

        return Program.Done;
    }

    private static async Task<string?> WantedAsync(MatchSettings settings, CancellationToken cancel)
    {
        if (settings.Photo is not { } path)
            return string.IsNullOrWhiteSpace(settings.Colour)
                ? throw new RefusalException("COLOUR", "No colour was named.", "Give one, such as #5b3f7a, or a photo with --photo.")
                : settings.Colour;
        if (!string.IsNullOrWhiteSpace(settings.Colour))
            throw new RefusalException("COLOUR", "A colour and a photo were given.", "Give one of them.");
        if (!File.Exists(path))
            throw new RefusalException("--photo", $"There is no file “{path}”.", "Check its name and folder.");
        var seen = new PhotographColour().Handle("--photo", await File.ReadAllBytesAsync(path, cancel), settings.PaperAround);
        if (!seen.TryGet(out var answer))
            throw new RefusalException(seen.Problems);
        var lab = Lab.FromXyz(answer.Colour);
        var words = string.Create(CultureInfo.InvariantCulture, $"{lab.L:0.00},{lab.A:0.00},{lab.B:0.00}");
        await Console.Error.WriteLineAsync(
            answer.AgainstPaper
                ? $"The middle of the photo, reckoned against the paper around it: {words}."
                : $"The middle of the photo as the camera saw it: {words}. With white paper all around and --paper-around it is surer."
        );
        return words;
    }

    private static string Word(MatchKind kind) =>
        kind switch
        {
            MatchKind.AsIs => "asIs",
            MatchKind.Dose => "dose",
            MatchKind.Wash => "wash",
            _ => "mix",
        };

    private static string Say(Proposal one)
    {
        if (one.Parts.Count > 0)
            return "Mix "
                + string.Join(
                    " with ",
                    one.Parts.Select(part => string.Create(CultureInfo.InvariantCulture, $"{100 * part.Share:0.#} % {part.Sample}"))
                );
        var doses =
            one.Point.GramsPerLitre.Count == 0
                ? "the plain liquor"
                : string.Join(
                    ", ",
                    one.Point.GramsPerLitre.Select(dose =>
                        string.Create(CultureInfo.InvariantCulture, $"{dose.Amount:0.###} g/L {dose.Name}")
                    )
                );
        var start = one.Kind == MatchKind.AsIs ? $"{one.Sample} as it is ({doses})" : $"{one.Point.Plant} with {doses}";
        return one.Point.Wash < 1
            ? string.Create(CultureInfo.InvariantCulture, $"{start}, one part to {(1 / one.Point.Wash) - 1:0.##} of water")
            : start;
    }
}

public sealed class MatchSettings : TrialSettings
{
    [CommandArgument(0, "[COLOUR]"), Description("The wanted colour: #5b3f7a, lab(40 20 -30), 5P 4/8, or an ISCC–NBS name.")]
    public string? Colour { get; init; }

    [
        CommandOption("--photo <FILE>"),
        Description("A close photo of a thread, a petal or a chip instead: the colour in its middle is wanted.")
    ]
    public string? Photo { get; init; }

    [
        CommandOption("--paper-around"),
        Description("White paper shows all around the edge of that photo: the colour is reckoned against it.")
    ]
    public bool PaperAround { get; init; }

    [
        CommandOption("--volume <AMOUNT>"),
        Description(
            "How much is to be made; 100 ml when not given. Amounts are what a kitchen scale (0.1 g) and drops can measure for it, "
                + "with the notebook's own spoons and strengths where the trials are the notebook's."
        )
    ]
    public string? Volume { get; init; }

    [CommandOption("--paper <NAME>"), Description("The paper to paint on, as the trials name it.")]
    public string Paper { get; init; } = "";
}

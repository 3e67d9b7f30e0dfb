using System.ComponentModel;
using Dyewort.Response;
using Dyewort.Workshop;
using Dyewort.Workshop.Response;
using Spectre.Console.Cli;

namespace Dyewort.Cli.Commands.Response;

/// <summary>Do two groups of squares differ, given the maker's own scatter?</summary>
public sealed class BenchRepeatsCommand : AsyncCommand<BenchRepeatsSettings>
{
    public override async Task<int> ExecuteAsync(CommandContext context, BenchRepeatsSettings settings, CancellationToken cancellationToken)
    {
        // Two colours can be compared before there is any trial; the scatter is then common practice.
        var trials = await ReadTrials.IfAnyAsync(settings.Trials, settings.Notebook, cancellationToken);
        var entered = new Entered();
        List<ComparedSquares> Read(string field, string[] texts) =>
            [
                .. texts.Select(text =>
                    trials is not null && ComparedSquares.Of(trials, text.Trim()) is { } sample ? sample
                    : entered.ColourOf(field, text, (trials ?? TrialSource.None).Table, out _) is { } colour
                        ? ComparedSquares.Of(text.Trim(), colour)
                    : new ComparedSquares(text, [])
                ),
            ];

        var (first, second) = (Read("--first", settings.First), Read("--second", settings.Second));
        if (!entered.Sound)
            throw new RefusalException(entered.Problems);
        var answer = new CompareRepeats().Handle(first, second, trials).OrRefuse().Found;
        PotAnswer.Say(trials?.Table.Warnings ?? []);
        if (settings.Json)
        {
            ResponseJson.Write(
                new
                {
                    Verdict = answer.Verdict switch
                    {
                        DifferenceVerdict.Really => "really",
                        DifferenceVerdict.Perhaps => "perhaps",
                        _ => "no",
                    },
                    De00 = ResponseJson.Rounded(answer.De00),
                    ByChance = ResponseJson.Rounded(answer.ByChance),
                    UsualRepeatDe00 = ResponseJson.Rounded(answer.UsualRepeatDe00),
                    answer.Repeats,
                    WouldShowDe00 = answer.WouldShowDe00 is { } shows ? ResponseJson.Rounded(shows) : (double?)null,
                    answer.MoreSquaresOfEach,
                    answer.Words,
                }
            );
            return Program.Done;
        }

        Console.WriteLine(answer.Words);
        return Program.Done;
    }
}

public sealed class BenchRepeatsSettings : PlantSettings
{
    [CommandOption("--first <SAMPLE>"), Description("A sample of the trials, or the colour of one square; may be given again.")]
    public string[] First { get; init; } = [];

    [CommandOption("--second <SAMPLE>"), Description("The same for the other group; may be given again.")]
    public string[] Second { get; init; } = [];
}

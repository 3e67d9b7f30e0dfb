using System.ComponentModel;
using Dyewort.Response;
using Dyewort.Workshop.Response;
using Spectre.Console.Cli;

namespace Dyewort.Cli.Commands.Response;

/// <summary>What brings a wrong batch nearer to its recipe.</summary>
public sealed class BenchCorrectCommand : AsyncCommand<BenchCorrectSettings>
{
    public override async Task<int> ExecuteAsync(CommandContext context, BenchCorrectSettings settings, CancellationToken cancellationToken)
    {
        var trials = await ReadTrials.SourceAsync(settings.Trials, settings.Notebook, cancellationToken);
        var answer = new CorrectBatch(new())
            .Handle(
                new()
                {
                    Recipe = settings.Recipe,
                    Measured = settings.Measured,
                    Volume = settings.Volume,
                    InJar = settings.In,
                    Ph = settings.Ph,
                    Inks = settings.Inks,
                    Limits = settings.Limits,
                    Plant = settings.Plant,
                },
                trials
            )
            .OrRefuse();
        PotAnswer.Say(answer.Warnings.Concat(answer.Cautions));
        if (settings.Json)
        {
            ResponseJson.Write(
                new
                {
                    answer.Correction.Advice,
                    Ranked = answer.Correction.Ranked.Select(one => new
                    {
                        Kind = one.Kind switch
                        {
                            CorrectionKind.Leave => "leave",
                            CorrectionKind.Add => "add",
                            CorrectionKind.Water => "water",
                            _ => "blend",
                        },
                        AddGrams = ResponseJson.Amounts(one.AddGrams),
                        WaterMl = one.WaterMillilitres,
                        Ink = one.Ink.Length > 0 ? one.Ink : null,
                        InkMl = one.InkMillilitres,
                        Lab = ResponseJson.Triple(one.Colour),
                        ExpectedDe00 = ResponseJson.Rounded(one.ExpectedDe00),
                        UncertaintyDe00 = ResponseJson.Rounded(one.UncertaintyDe00),
                        ChanceWithinJustVisible = ResponseJson.Rounded(one.ChanceWithinJustVisible),
                    }),
                }
            );
            return Program.Done;
        }

        Console.WriteLine(answer.Correction.Advice);
        foreach (var one in answer.Correction.Ranked)
            Console.WriteLine($"  {one.Words}");
        return Program.Done;
    }
}

public sealed class BenchCorrectSettings : PlantSettings
{
    [CommandOption("--recipe <SAMPLE>"), Description("The recipe's sample in the trials, or its colour.")]
    public string? Recipe { get; init; }

    [CommandOption("--measured <COLOUR>"), Description("The colour the batch has on the same paper, dry.")]
    public string? Measured { get; init; }

    [CommandOption("--volume <AMOUNT>"), Description("How much of it there is, such as 500ml.")]
    public string? Volume { get; init; }

    [
        CommandOption("--in <ADDITION=AMOUNT>"),
        Description("What is really in it, where that is not the recipe's composition; may be given again.")
    ]
    public string[] In { get; init; } = [];

    [CommandOption("--ph <PH>"), Description("Its pH where it was tested.")]
    public string? Ph { get; init; }

    [
        CommandOption("--ink <SAMPLE>"),
        Description("Another ink at hand to blend it with, a sample of the trials or a colour; may be given again.")
    ]
    public string[] Inks { get; init; } = [];

    [CommandOption("--limit <ADDITION=G/L>"), Description("The most of an addition in all, such as copperas=4; may be given again.")]
    public string[] Limits { get; init; } = [];
}

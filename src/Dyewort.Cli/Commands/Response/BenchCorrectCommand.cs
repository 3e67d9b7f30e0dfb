using System.ComponentModel;
using Dyewort.Response;
using Dyewort.Workshop;
using Dyewort.Workshop.Response;
using Spectre.Console.Cli;

namespace Dyewort.Cli.Commands.Response;

/// <summary>What brings a wrong batch nearer to its recipe.</summary>
public sealed class BenchCorrectCommand : AsyncCommand<BenchCorrectSettings>
{
    public override async Task<int> ExecuteAsync(CommandContext context, BenchCorrectSettings settings, CancellationToken cancellationToken)
    {
        var trials = await ReadTrials.SourceAsync(settings.Trials, settings.Notebook, cancellationToken);
        var asked = await new CorrectBatch(new()).HandleAsync(Batch(settings, trials), trials, cancellationToken);
        var answer = asked!.OrRefuse();
        var ranked = answer.Ways.Select(way => way.Correction).ToList();
        PotAnswer.Say(answer.Warnings.Concat(Caution.Lines(answer.Ways.SelectMany(way => way.Cautions))));
        if (settings.Json)
        {
            ResponseJson.Write(
                new
                {
                    answer.Advice,
                    Ranked = ranked.Select(one => new
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

        Console.WriteLine(answer.Advice);
        foreach (var one in ranked)
            Console.WriteLine($"  {one.Words}");
        return Program.Done;
    }

    private static WrongBatch Batch(BenchCorrectSettings settings, TrialSource trials)
    {
        var entered = new Entered();
        var wanted = entered.ColourOf("--recipe", settings.Recipe, trials.Table, out var recipe);
        var measured = entered.ColourOf("--measured", settings.Measured, trials.Table, out _);
        var volume = entered.Volume("--volume", settings.Volume, "The batch's", "500ml");
        var jar =
            settings.In.Length > 0 || recipe is null
                ? entered.Jar(trials, recipe?.Plant ?? settings.Plant, null, settings.In, volume, settings.Ph)
                : recipe with
                {
                    Wash = 1,
                    Coats = 1,
                    Ph = entered.OptionalNumber("--ph", settings.Ph, "pH", -1, 15, "4.5"),
                };
        if (recipe is null && settings.In.Length == 0)
            entered.Refuse("--in", "What is in the batch is not known.", "Name the recipe's sample, or add --in \"alum=5 g\".");
        var inks = new List<BlendInk>();
        foreach (var name in settings.Inks)
        {
            if (entered.ColourOf("--ink", name, trials.Table, out var made) is { } colour)
                inks.Add(
                    new(
                        name.Trim(),
                        colour,
                        made is not null && jar is not null && string.Equals(made.Plant, jar.Plant, StringComparison.OrdinalIgnoreCase)
                            ? made
                            : null
                    )
                );
        }

        var limits = entered.Doses("--limit", settings.Limits, trials, "copperas=4");
        return entered.Sound && jar is not null
            ? new WrongBatch
            {
                Believed = jar,
                Measured = measured!.Value,
                Wanted = wanted!.Value,
                Millilitres = volume.Millilitres,
                Inks = inks,
                MostGramsPerLitre = limits,
            }
            : throw new RefusalException(entered.Problems);
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

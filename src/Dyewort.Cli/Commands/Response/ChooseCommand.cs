using System.ComponentModel;
using System.Globalization;
using Dyewort.Colour;
using Dyewort.Workshop.Response;
using Spectre.Console.Cli;

namespace Dyewort.Cli.Commands.Response;

/// <summary>Which recipes are worth bottling.</summary>
public sealed class ChooseCommand : AsyncCommand<ChooseSettings>
{
    public override async Task<int> ExecuteAsync(CommandContext context, ChooseSettings settings, CancellationToken cancellationToken)
    {
        Lab[] palette = [.. settings.Palette.Select(text => Lab.FromXyz(ColourText.Parse("--palette", text).OrRefuse().Colour))];
        var trials = await ReadTrials.SourceAsync(settings.Trials, settings.Notebook, cancellationToken);
        var answer = new ChooseBottles()
            .Handle(
                new()
                {
                    Count = settings.Count,
                    Palette = palette,
                    BottleMillilitres = settings.Bottle,
                },
                trials,
                cancellationToken
            )
            .OrRefuse();
        foreach (var warning in answer.Warnings)
            await Console.Error.WriteLineAsync(warning);
        if (settings.Json)
        {
            if (answer.Covers)
                ResponseJson.Write(
                    new
                    {
                        Chosen = answer.Samples,
                        LargestDe00 = ResponseJson.Rounded(answer.Value),
                        answer.Optimal,
                        BoundDe00 = ResponseJson.Rounded(answer.Bound),
                    }
                );
            else
                ResponseJson.Write(
                    new
                    {
                        Chosen = answer.Samples,
                        SmallestDe00 = ResponseJson.Rounded(answer.Value),
                        answer.Optimal,
                        BoundDe00 = ResponseJson.Rounded(answer.Bound),
                    }
                );
            return Program.Done;
        }

        foreach (var sample in answer.Samples)
            Console.WriteLine(sample);
        var value = answer.Value.ToString("0.0", CultureInfo.InvariantCulture);
        Console.WriteLine(
            answer.Covers ? $"Every wanted colour has a bottle within ΔE00 {value}." : $"Any two differ by at least ΔE00 {value}."
        );
        if (!answer.Optimal)
            Console.WriteLine(
                string.Create(CultureInfo.InvariantCulture, $"The search was ended; nothing better than {answer.Bound:0.0} exists.")
            );
        return Program.Done;
    }
}

public sealed class ChooseSettings : TrialSettings
{
    [CommandArgument(0, "<K>"), Description("How many to choose.")]
    public int Count { get; init; }

    [
        CommandOption("--palette <COLOUR>"),
        Description("A colour to come near to; repeat it. Without one, the chosen differ from each other as much as possible.")
    ]
    public string[] Palette { get; init; } = [];

    [
        CommandOption("--bottle <ML>"),
        Description(
            "Millilitres one bottle takes; samples with less left (column “left ml”) are passed over, and no pot fills more bottles "
                + "than its liquor allows."
        )
    ]
    public double? Bottle { get; init; }
}

using System.ComponentModel;
using System.Globalization;
using Dyewort.Workshop.Response;
using Spectre.Console.Cli;

namespace Dyewort.Cli.Commands.Response;

/// <summary>What unpainted samples would look like.</summary>
public sealed class PredictCommand : AsyncCommand<PredictSettings>
{
    public override async Task<int> ExecuteAsync(CommandContext context, PredictSettings settings, CancellationToken cancellationToken)
    {
        var trials = await ReadTrials.SourceAsync(settings.Trials, settings.Notebook, cancellationToken);
        var points = (await TrialFile.ReadAsync("--at", settings.At, needColours: false, cancellationToken)).OrRefuse();
        var answer = new Predict(new()).Handle(trials.Table, points).OrRefuse();
        foreach (var warning in answer.Warnings)
            await Console.Error.WriteLineAsync(warning);
        if (settings.Json)
        {
            ResponseJson.Write(
                answer.Predictions.Select(one => new
                {
                    one.Sample,
                    Lab = ResponseJson.Triple(one.Colour),
                    UncertaintyDe00 = ResponseJson.Rounded(one.UncertaintyDe00),
                    one.Extrapolating,
                    Leaning = ResponseJson.Rounded(one.PriorWeight),
                    ReadingDe00 = ResponseJson.Rounded(one.ReadingDe00),
                    one.Why,
                    one.Untried,
                })
            );
            return Program.Done;
        }

        foreach (var one in answer.Predictions)
        {
            if (one.NotKnown.Length > 0)
            {
                Console.WriteLine($"{one.Sample}: {one.NotKnown}.");
                continue;
            }

            var line = string.Create(
                CultureInfo.InvariantCulture,
                $"{one.Sample}: L* {one.Colour.L:0.0}  a* {one.Colour.A:0.0}  b* {one.Colour.B:0.0}  ± {one.UncertaintyDe00:0.0} "
                    + $"ΔE00 (19 times of 20)"
            );
            Console.WriteLine(one.Extrapolating ? $"{line}; beyond what was tested: {string.Join(", ", one.Why)}" : line);
        }

        return Program.Done;
    }
}

public sealed class PredictSettings : TrialSettings
{
    [CommandOption("--at <FILE>")]
    [Description("Samples to predict, with the same columns; L, a, b may be missing")]
    public string? At { get; init; }
}

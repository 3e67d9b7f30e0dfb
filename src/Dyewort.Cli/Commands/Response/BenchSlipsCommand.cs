using System.Globalization;
using Dyewort.Response;
using Dyewort.Workshop.Response;
using Spectre.Console.Cli;

namespace Dyewort.Cli.Commands.Response;

/// <summary>Jars that are not what was written, and the slips that would explain them.</summary>
public sealed class BenchSlipsCommand : AsyncCommand<PlantSettings>
{
    public override async Task<int> ExecuteAsync(CommandContext context, PlantSettings settings, CancellationToken cancellationToken)
    {
        var trials = await ReadTrials.SourceAsync(settings.Trials, settings.Notebook, cancellationToken);
        var answer = (await new FindSlips(new()).HandleAsync(trials, settings.Plant, cancellationToken))!.OrRefuse();
        PotAnswer.Say(answer.Warnings);
        if (settings.Json)
        {
            ResponseJson.Write(
                answer.Jars.Select(jar => new
                {
                    jar.Row.Point.Sample,
                    jar.Row.Point.Plant,
                    OffDe00 = ResponseJson.Rounded(jar.OffDe00),
                    ChanceAsWritten = ResponseJson.Rounded(jar.ChanceAsWritten),
                    Slips = jar.Slips.Select(slip => new
                    {
                        Kind = Word(slip.Kind),
                        Probability = ResponseJson.Rounded(slip.Probability),
                        Amounts = ResponseJson.Amounts(slip.Meant.GramsPerLitre),
                        Other = slip.Other.Length > 0 ? slip.Other : null,
                        slip.Words,
                    }),
                })
            );
            return Program.Done;
        }

        if (answer.Jars.Count == 0)
            PotAnswer.Line($"All {answer.Looked} samples fit what was written.");
        foreach (var jar in answer.Jars)
        {
            PotAnswer.Line($"{jar.Row.Point.Sample} is ΔE00 {jar.OffDe00:0.0} from what the other jars foretell:");
            foreach (var slip in jar.Slips.Take(4))
                Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"  {100 * slip.Probability, 3:0} of 100  {slip.Words}"));
        }

        return Program.Done;
    }

    private static string Word(SlipKind kind) => kind.ToString() is var name ? char.ToLowerInvariant(name[0]) + name[1..] : "";
}

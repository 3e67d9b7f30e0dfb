using System.ComponentModel;
using System.Globalization;
using Dyewort.Workshop;
using Dyewort.Workshop.Response;
using Spectre.Console.Cli;

namespace Dyewort.Cli.Commands;

/// <summary>Plans the next trial.</summary>
public sealed class PlanCommand : AsyncCommand<PlanCommand.Settings>
{
    public sealed class Settings : CommandSettings
    {
        [CommandOption("--trials <FILE>"), Description("Painted and read samples: sample,plant,<addition> g/L …,pH,wash,paper,state,L,a,b. Without it, those of the notebook.")]
        public string? Trials { get; init; }

        [CommandOption("--notebook <DIR>"), Description("Your notebook's folder, where no file of trials is named.")]
        public string? Notebook { get; init; }

        [CommandOption("--ladder <ADDITION>"), Description("The addition whose doses to set out so that the steps look even.")]
        public string? Ladder { get; init; }

        [CommandOption("--steps <N>"), Description("Samples on the ladder, the plain liquor among them."), DefaultValue(6)]
        public int Steps { get; init; } = 6;

        [CommandOption("--plant <PLANT>"), Description("The plant, where the trials hold several.")]
        public string Plant { get; init; } = "";

        [CommandOption("--json"), Description("Answer for machines.")]
        public bool Json { get; init; }
    }

    public override async Task<int> ExecuteAsync(CommandContext context, Settings settings, CancellationToken cancellationToken)
    {
        var trials = await ReadTrials.FromAsync(settings.Trials, settings.Notebook, cancellationToken);
        var outcome = new PlanLadder(new()).Handle(settings.Ladder, trials, settings.Plant, settings.Steps);
        if (!outcome.TryGet(out var answer)) throw new RefusalException(outcome.Problems);
        foreach (var line in answer.Warnings.Concat(answer.Cautions)) await Console.Error.WriteLineAsync(line);
        if (settings.Json)
        {
            ResponseJson.Write(answer.Steps.Select(step => new
            {
                Amounts = new Dictionary<string, double> { [answer.Addition] = ResponseJson.Rounded(step.GramsPerLitre) },
                Lab = ResponseJson.Triple(step.Expected),
                UncertaintyDe00 = ResponseJson.Rounded(step.UncertaintyDe00),
                StepDe00 = ResponseJson.Rounded(step.StepDe00),
            }));
            return Program.Done;
        }

        foreach (var step in answer.Steps)
        {
            Console.WriteLine(string.Create(CultureInfo.InvariantCulture,
                $"{step.GramsPerLitre:0.###} g/L {answer.Addition}: L* {step.Expected.L:0.0}  a* {step.Expected.A:0.0}  b* {step.Expected.B:0.0} ± {step.UncertaintyDe00:0.0}, a step of ΔE00 {step.StepDe00:0.0}"));
        }

        return Program.Done;
    }
}

using Dyewort.Quantities;
using Dyewort.Workshop.Batches;

namespace Dyewort.Workshop.Response;

/// <summary>Starts a batch of a recipe from another harvest's liquor, with the doses that follow its strength.</summary>
/// <remarks>The recipe stays as it was; the batch says what its doses were multiplied by.</remarks>
public sealed class StartHarvestBatch(CompareHarvest compare, CarryRecipe carry, NotebookTrials notebook, StartBatch start) : IUseCase
{
    /// <param name="code">The pot of the new harvest.</param>
    /// <param name="form">The recipe and the volume.</param>
    /// <param name="cancel">Ends the work early.</param>
    /// <returns>The batch's code.</returns>
    public async Task<Outcome<string>> HandleAsync(string code, StartHarvestBatchForm form, CancellationToken cancel)
    {
        ArgumentNullException.ThrowIfNull(form);
        if (await compare.HandleAsync(code, form.Recipe, cancel) is not { Pot.Counts: true } answer)
            return Outcome.Refused<string>(nameof(form.Volume), $"There is no pot {code}, or it was taken back.", "Go back to the pots.");
        if (answer.Chosen is not { } recipe || recipe.Code != form.Recipe)
            return Outcome.Refused<string>(
                nameof(form.Recipe),
                $"There is no recipe {form.Recipe} of another pot of {answer.Plant}.",
                "Choose one of those shown."
            );
        if (answer.Carry is not { } asked)
            return Outcome.Refused<string>([answer.NotYet!]);
        if (!carry.Handle(asked, await notebook.HandleAsync(cancel)).TryGet(out var carried))
            return Outcome.Refused<string>(carry.Handle(asked, await notebook.HandleAsync(cancel)).Problems);
        return await start.HandleAsync(
            recipe.Code,
            new()
            {
                Volume = form.Volume,
                Pot = answer.Pot.Code,
                MadeOn = form.MadeOn,
                MoreThanWritten = form.MoreThanWritten,
                Meant = form.Meant,
            },
            new(carried.Advice.Ratio, $"corrected for pot {answer.Pot.Code}: doses × {Figures.Say(carried.Advice.Ratio, 2)}"),
            cancel
        );
    }
}

public sealed record StartHarvestBatchForm : IDoubtable
{
    /// <summary>The recipe's code.</summary>
    public string? Recipe { get; init; }

    /// <summary>Liquor in all: "1.2 L".</summary>
    public string? Volume { get; init; }

    public string? MadeOn { get; init; }

    /// <summary>Anything where there is more liquor than is written down.</summary>
    public string? MoreThanWritten { get; init; }

    /// <inheritdoc />
    public string? Meant { get; init; }
}

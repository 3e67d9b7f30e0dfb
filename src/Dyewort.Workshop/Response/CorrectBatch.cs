using Dyewort.Quantities;
using Dyewort.Response;

namespace Dyewort.Workshop.Response;

/// <summary>What brings a batch that came out another colour nearer to its recipe: what to stir in, or what to blend it with.</summary>
public sealed class CorrectBatch(ModelShelf shelf) : IUseCase
{
    /// <param name="batch">The batch; its limits are those that were typed, the rest is filled in from what is usual and safe.</param>
    /// <param name="trials">What was painted.</param>
    /// <returns>Null while the trials are still being learned from.</returns>
    public async Task<Outcome<CorrectBatchAnswer>?> HandleAsync(WrongBatch batch, TrialSource trials, CancellationToken cancel)
    {
        ArgumentNullException.ThrowIfNull(batch);
        ArgumentNullException.ThrowIfNull(trials);
        if (await shelf.AskAsync(trials.Table, batch.Believed.Plant, cancel) is not { } fitted)
            return null;
        if (!fitted.TryGet(out var model))
            return Outcome.Refused<CorrectBatchAnswer>(fitted.Problems);
        var usual = model.UsualSetting(batch.Believed.Paper);
        var found = BatchCorrection.Find(
            model,
            batch with
            {
                Believed = batch.Believed with
                {
                    Plant = model.Plant,
                    Paper = batch.Believed.Paper.Length > 0 ? batch.Believed.Paper : usual.Paper,
                    State = batch.Believed.State.Length > 0 ? batch.Believed.State : usual.State,
                },
                MostGramsPerLitre = SafeDoses.Of(
                    model.Additions.Select(name => KeyValuePair.Create(name, trials.MaterialOf(name))),
                    model,
                    batch.MostGramsPerLitre
                ),
                SmallestGrams = trials.SmallestGrams,
            }
        );
        return found.TryGet(out var answer)
            ? Outcome.Of(
                new CorrectBatchAnswer(
                    answer.Advice,
                    [
                        .. answer
                            .Ranked.Select(one =>
                            {
                                var doses = one
                                    .AddGrams.Select(added =>
                                        MeasuredDose.Of(
                                            trials.MaterialOf(added.Name),
                                            1000 * added.Amount / batch.Millilitres,
                                            batch.Millilitres,
                                            trials.TeaspoonMl
                                        )
                                    )
                                    .ToList();
                                return new CorrectBatchWay(one, doses, Caution.Together(doses.Select(dose => dose.Material)));
                            })
                            // What is in the batch already meets what is stirred in.
                            .Where(way =>
                                way.Doses.Count == 0
                                || Caution.WhyNever([
                                    .. way.Doses.Select(dose => dose.Material),
                                    .. batch.Believed.GramsPerLitre.Names.Select(trials.MaterialOf),
                                ])
                                    is null
                            ),
                    ],
                    trials.Table.Warnings
                )
            )
            : Outcome.Refused<CorrectBatchAnswer>(found.Problems);
    }
}

/// <param name="Advice">What to do, in a sentence or two.</param>
/// <param name="Ways">Best first.</param>
/// <param name="Warnings">What was left out of the trials, a sentence each.</param>
public sealed record CorrectBatchAnswer(string Advice, IReadOnlyList<CorrectBatchWay> Ways, IReadOnlyList<string> Warnings);

/// <param name="Correction">What is proposed.</param>
/// <param name="Doses">What to stir in, for the whole batch.</param>
/// <param name="Cautions">What to be careful of with it.</param>
public sealed record CorrectBatchWay(RankedCorrection Correction, IReadOnlyList<MeasuredDose> Doses, IReadOnlyList<Caution> Cautions);

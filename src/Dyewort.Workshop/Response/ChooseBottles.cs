using Dyewort.Quantities;
using Dyewort.Store;
using Microsoft.EntityFrameworkCore;

namespace Dyewort.Workshop.Response;

/// <summary>Chooses samples of the notebook that are worth bottling.</summary>
public sealed class ChooseBottles(NotebookDb db, NotebookTrials notebook) : IUseCase
{
    public async Task<Outcome<ChooseBottlesAnswer>> HandleAsync(ChooseBottlesForm form, CancellationToken cancel)
    {
        ArgumentNullException.ThrowIfNull(form);
        var entered = new Entered();
        var count = entered.Whole(nameof(form.Count), form.Count, "How many", 1, 60, 8);
        var bottle = entered.OptionalNumber(nameof(form.BottleMl), form.BottleMl, "millilitres", 1, 100_000, "30");
        if (!entered.Sound)
            return Outcome.Refused<ChooseBottlesAnswer>(entered.Problems);
        var trials = await notebook.HandleAsync(cancel);
        var kept = await db
            .Recipes.Where(recipe => recipe.WithdrawnAt == null && recipe.SampleId != null)
            .Select(recipe => recipe.SampleId!.Value)
            .ToListAsync(cancel);
        var only = string.IsNullOrEmpty(form.Kept)
            ? null
            : trials
                .Painted.Where(one => kept.Contains(one.Sample.Id))
                .Select(one => one.Row.Point.Sample)
                .ToHashSet(StringComparer.OrdinalIgnoreCase);
        var table = only is null
            ? trials.Table
            : Dyewort.Response.TrialTable.Of(
                [.. trials.Table.Rows.Where(row => only.Contains(row.Point.Sample))],
                trials.Table.Additions,
                trials.Table.Warnings
            );
        string[] palette =
        [
            .. (form.Palette ?? "").Split(['\n', ';'], StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries),
        ];
        var outcome = new Choose().Handle(
            new()
            {
                Count = count,
                Palette = palette,
                BottleMillilitres = bottle,
            },
            table,
            cancel
        );
        if (!outcome.TryGet(out var found))
            return Outcome.Refused<ChooseBottlesAnswer>([
                .. outcome.Problems.Select(problem =>
                    problem with
                    {
                        Field = problem.Field switch
                        {
                            "--palette" => nameof(form.Palette),
                            "count" => nameof(form.Count),
                            _ => problem.Field,
                        },
                    }
                ),
            ]);
        return Outcome.Of(
            new ChooseBottlesAnswer(
                [.. found.Samples.Select(code => NotebookTrials.Speaking(trials.Of(code)))],
                found,
                palette.Length > 0,
                table
                    .Rows.Where(row => row.Point.Wash > 0)
                    .Select(row => row.Point.Sample)
                    .Distinct(StringComparer.OrdinalIgnoreCase)
                    .Count()
            )
        );
    }
}

/// <param name="Chosen">The chosen samples.</param>
/// <param name="Found">How far apart they are, or how near to the palette.</param>
/// <param name="Covers">True when a palette was to be covered.</param>
public sealed record ChooseBottlesAnswer(IReadOnlyList<NotebookTrialsPainted> Chosen, ChooseAnswer Found, bool Covers, int OutOf);

public sealed record ChooseBottlesForm
{
    public string? Count { get; init; }

    /// <summary>Colours to cover, one per line; empty to choose for variety.</summary>
    public string? Palette { get; init; }

    /// <summary>What one bottle takes; liquor of pots with less left is passed over.</summary>
    public string? BottleMl { get; init; }

    /// <summary>Only samples that were kept as recipes.</summary>
    public string? Kept { get; init; }
}

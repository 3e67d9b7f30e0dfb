using System.Globalization;
using Dyewort.Colour;
using Dyewort.Quantities;
using Dyewort.Response;

namespace Dyewort.Workshop.Response;

/// <summary>Chooses the recipes worth bottling: those that differ most from each other, or those that come nearest to a palette.</summary>
public sealed class ChooseBottles : IUseCase
{
    private static readonly TimeSpan TimeLimit = TimeSpan.FromSeconds(8);

    /// <param name="form">How many, and to what end.</param>
    /// <param name="trials">What was painted, from a file or from the notebook.</param>
    public Outcome<ChooseBottlesAnswer> Handle(ChooseBottlesForm form, TrialSource trials, CancellationToken cancel)
    {
        ArgumentNullException.ThrowIfNull(form);
        ArgumentNullException.ThrowIfNull(trials);
        List<Lab> palette = [.. form.Palette];
        var warnings = trials.Table.Warnings.ToList();
        var rows = Samples(
            [
                .. trials.PaintedRows.Where(row =>
                    form.Only is null || form.Only.Contains(row.Point.Sample, StringComparer.OrdinalIgnoreCase)
                ),
            ],
            warnings
        );
        string? Never(TrialRow row) => Caution.WhyNever(row.Point.GramsPerLitre.Names.Select(trials.MaterialOf));
        if (rows.Select(Never).FirstOrDefault(why => why is not null) is { } never)
        {
            warnings.Add($"{rows.Count(row => Never(row) is not null)} samples are nothing to bottle and were passed over. {never}");
            rows = rows.FindAll(row => Never(row) is null);
        }

        var outOf = rows.Count;
        if (form.BottleMillilitres is { } needed)
        {
            var before = rows.Count;
            rows = rows.FindAll(row => !(row.Point.LeftMillilitres < needed));
            if (rows.Count < before)
                warnings.Add(
                    string.Create(
                        CultureInfo.InvariantCulture,
                        $"{before - rows.Count} samples have less than {needed} ml left and were passed over."
                    )
                );
        }

        var quota = Shared(rows, form.BottleMillilitres);
        var fewest = palette.Count > 0 ? 1 : 2;
        var room = Math.Min(rows.Count, quota.Room);
        if (form.Count < fewest || form.Count > room)
        {
            return Outcome.Refused<ChooseBottlesAnswer>(
                nameof(form.Count),
                room < rows.Count
                    ? $"{form.Count} bottles cannot be filled: the liquor left in the pots is enough for {room}."
                    : $"{form.Count} cannot be chosen from {rows.Count} painted samples.",
                room < fewest
                    ? room < rows.Count
                        ? "Take smaller bottles."
                        : "Paint and read more samples first."
                    : $"Ask for {fewest} to {room}."
            );
        }

        using var limit = CancellationTokenSource.CreateLinkedTokenSource(cancel);
        limit.CancelAfter(TimeLimit);
        var selection =
            palette.Count > 0
                ? Dispersion.Cover(Distances(palette, rows.ConvertAll(row => row.Colour)), form.Count, quota, limit.Token)
                : Dispersion.Farthest(
                    Distances(rows.ConvertAll(row => row.Colour), rows.ConvertAll(row => row.Colour)),
                    form.Count,
                    quota,
                    limit.Token
                );
        return Outcome.Of(
            new ChooseBottlesAnswer(
                [.. selection.Chosen.Select(place => rows[place].Point.Sample)],
                outOf,
                palette.Count > 0,
                selection.Value,
                selection.Bound,
                selection.Optimal,
                warnings
            )
        );
    }

    /// <summary>Bottles that each pot still fills. Where all samples of a pot state the same liquor left, it is the pot's and they share
    /// it.</summary>
    private static Quota Shared(List<TrialRow> rows, double? bottle)
    {
        var groups = rows.Select((row, i) => (row, i))
            .GroupBy(
                one =>
                    one.row.Point.Pot.Length > 0
                        ? $"{one.row.Point.Plant}\n{one.row.Point.Pot}"
                        : one.i.ToString(CultureInfo.InvariantCulture),
                StringComparer.OrdinalIgnoreCase
            )
            .ToList();
        var group = new int[rows.Count];
        var most = new int[groups.Count];
        for (var g = 0; g < groups.Count; g++)
        {
            var members = groups[g].ToList();
            foreach (var (_, i) in members)
                group[i] = g;
            var left = members[0].row.Point.LeftMillilitres;
            most[g] =
                bottle is > 0 && left is { } shared && members.TrueForAll(one => one.row.Point.LeftMillilitres == shared)
                    ? (int)Math.Min(members.Count, Math.Floor((shared / bottle.Value) + 1e-9))
                    : members.Count;
        }

        return new(group, most);
    }

    /// <summary>One reading per sample: of several, the last dry one on the paper used most.</summary>
    private static List<TrialRow> Samples(List<TrialRow> painted, List<string> warnings)
    {
        if (painted.Count == 0)
            return [];
        var paper = painted.GroupBy(row => row.Point.Paper, StringComparer.OrdinalIgnoreCase).MaxBy(group => group.Count())!.Key;
        var samples = painted
            .GroupBy(row => (row.Point.Plant, row.Point.Pot, row.Point.Sample))
            .Select(group =>
                group
                    .OrderBy(row => string.Equals(row.Point.State, "wet", StringComparison.OrdinalIgnoreCase))
                    .ThenByDescending(row => string.Equals(row.Point.Paper, paper, StringComparison.OrdinalIgnoreCase))
                    .ThenByDescending(row => row.Point.Wash)
                    .First()
            )
            .ToList();
        if (samples.Count < painted.Count)
            warnings.Add(
                $"{painted.Count} readings are of {samples.Count} samples; each sample counts once, dry and on the paper used most."
            );
        return samples;
    }

    private static double[,] Distances(List<Lab> first, List<Lab> second)
    {
        var distance = new double[first.Count, second.Count];
        for (var i = 0; i < first.Count; i++)
        {
            for (var j = 0; j < second.Count; j++)
                distance[i, j] = first[i] == second[j] ? 0 : Difference.Ciede2000(first[i], second[j]);
        }

        return distance;
    }
}

/// <param name="Samples">Codes of the chosen samples, in the table's order.</param>
/// <param name="OutOf">How many painted samples there were to choose from.</param>
/// <param name="Covers">True when a palette was to be covered.</param>
/// <param name="Value">Smallest mutual ΔE₀₀, or with a palette the largest ΔE₀₀ from a wanted colour to its nearest bottle.</param>
/// <param name="Bound">Nothing better than this exists.</param>
/// <param name="Optimal">True where the search ran to its end.</param>
/// <param name="Warnings">What was passed over, a sentence each.</param>
public sealed record ChooseBottlesAnswer(
    IReadOnlyList<string> Samples,
    int OutOf,
    bool Covers,
    double Value,
    double Bound,
    bool Optimal,
    IReadOnlyList<string> Warnings
);

public sealed record ChooseBottlesForm
{
    public required int Count { get; init; }

    /// <summary>Colours to cover; empty to choose for variety.</summary>
    public IReadOnlyList<Lab> Palette { get; init; } = [];

    /// <summary>Millilitres a bottle needs: samples with less left (column “left ml”) are passed over, and a pot fills no more bottles than
    /// its liquor allows.</summary>
    public double? BottleMillilitres { get; init; }

    /// <summary>Codes of the only samples that may be chosen; null for all.</summary>
    public IReadOnlyCollection<string>? Only { get; init; }
}

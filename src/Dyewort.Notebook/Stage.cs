namespace Dyewort.Notebook;

/// <summary>A sample after so many of its steps: what a swatch was painted from, and what a recipe keeps.</summary>
/// <remarks>
/// What goes into the jar later never changes it. A step that was withdrawn never went in, so it leaves every stage; a step that was
/// written up later shares the number of the step it followed, and so lies in every stage that holds that one.
/// </remarks>
public sealed class Stage
{
    private Stage(Sample sample, IReadOnlyList<Addition> steps, IReadOnlyList<Addition> later) =>
        (Sample, Steps, Later) = (sample, steps, later);

    /// <summary>The sample.</summary>
    public Sample Sample { get; }

    /// <summary>The additions that were in the jar, in order.</summary>
    public IReadOnlyList<Addition> Steps { get; }

    /// <summary>The additions that went in afterwards, in order.</summary>
    public IReadOnlyList<Addition> Later { get; }

    /// <summary>The last addition that was in the jar; null for the plain liquor.</summary>
    public Addition? Last => Steps.Count == 0 ? null : Steps[^1];

    /// <summary>Its number; 0 for the plain liquor.</summary>
    public int LastStep => Last?.Step ?? 0;

    /// <summary>pH as it was last tested up to here; null when nobody tested it.</summary>
    public double? Ph => Steps.LastOrDefault(step => step.Ph is not null)?.Ph;

    /// <summary>pH as it was tested when everything was in; null when nobody tested it after the last step.</summary>
    public double? PhWithAllIn => Last?.Ph;

    /// <summary>A sample after one of its steps.</summary>
    /// <param name="sample">The sample.</param>
    /// <param name="afterStep">The number of the last step that was in the jar, 0 for none; null for everything that is in it now.</param>
    /// <param name="additions">The sample's additions, in any order; withdrawn ones are left out.</param>
    public static Stage Of(Sample sample, int? afterStep, IEnumerable<Addition> additions)
    {
        ArgumentNullException.ThrowIfNull(sample);
        var counting = additions.Where(step => step.Counts).OrderBy(step => step.Step).ThenBy(step => step.Id).ToList();
        return new(
            sample,
            afterStep is { } last ? counting.FindAll(step => step.Step <= last) : counting,
            afterStep is { } end ? counting.FindAll(step => step.Step > end) : []
        );
    }

    /// <summary>A sample as it stands now.</summary>
    public static Stage Now(Sample sample, IEnumerable<Addition> additions) => Of(sample, null, additions);

    /// <summary>What each square was painted from, or, while it waits, what it would be painted from now.</summary>
    /// <param name="sample">The sample.</param>
    /// <param name="additions">Its additions.</param>
    /// <param name="squares">The swatches painted from it.</param>
    /// <returns>
    /// The stage of each swatch and its name: that of the first square painted from it ("A3.2"), without its wash. Where squares bear no
    /// jar's name, or two sheets have one of that name, the jar's for the first stage that was painted, and for later ones with their place
    /// among the painted stages. Squares of one stage share its name.
    /// </returns>
    public static IReadOnlyDictionary<Guid, (Stage Stage, string Code)> OfSquares(
        Sample sample,
        IEnumerable<Addition> additions,
        IEnumerable<Swatch> squares
    )
    {
        ArgumentNullException.ThrowIfNull(sample);
        var steps = additions.ToList();
        var stages = squares.Select(square => (square, stage: Of(sample, square.AfterStep, steps))).ToList();
        var names = new Dictionary<int, string>();
        foreach (var stage in stages.GroupBy(one => one.stage.LastStep).OrderBy(stage => stage.Key))
        {
            var printed = stage
                .Select(one => one.square.Cell.Split('/')[0])
                .Where(cell => Codes.IsSquareOf(sample.Jar, cell))
                .OrderBy(cell => cell.Length)
                .ThenBy(cell => cell, StringComparer.Ordinal)
                .FirstOrDefault();
            names.Add(
                stage.Key,
                printed is not null && !names.ContainsValue(printed)
                    ? printed
                    : Enumerable
                        .Range(names.Count + 1, names.Count + 1)
                        .Select(place => Codes.Stage(sample.Jar, place))
                        .First(code => !names.ContainsValue(code))
            );
        }

        return stages.ToDictionary(one => one.square.Id, one => (one.stage, names[one.stage.LastStep]));
    }

    /// <summary>True where a step number names this stage, whatever was withdrawn in between.</summary>
    public bool IsAfter(int step) => Steps.All(one => one.Step <= step) && Later.All(one => one.Step > step);
}

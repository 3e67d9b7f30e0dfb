using Dyewort.Print;
using Dyewort.Quantities;
using Dyewort.Workshop.Readings;
using Dyewort.Workshop.Trials;

namespace Dyewort.Workshop.Response;

/// <summary>Prints the tags and the sheet of a plan that is not in the notebook.</summary>
public sealed class PrintPlan(TimeProvider clock) : IUseCase
{
    private const int MostOnA5 = 24;

    /// <summary>Tags for the jars, as a PDF.</summary>
    /// <param name="plan">The plan.</param>
    /// <param name="say">How an addition is measured out, in words.</param>
    public Outcome<byte[]> Tags(PlanTrialAnswer plan, Func<PlannedDose, string> say)
    {
        ArgumentNullException.ThrowIfNull(plan);
        ArgumentNullException.ThrowIfNull(say);
        var liquor = $"{Figures.Say(plan.SampleMillilitres)} ml{(plan.Plant.Length > 0 ? $" of {plan.Plant}" : "")}";
        return new PrintJarTags(clock).Handle(
            [
                .. plan.Jars.Select(jar => new JarTag(
                    Code(jar),
                    liquor,
                    jar.Doses.Count == 0 ? ["nothing: the plain liquor"] : [.. jar.Doses.Select(dose => $"{dose.Name} {say(dose)}")]
                )),
            ],
            null
        );
    }

    /// <summary>A sheet with one cell per jar, its number under it, as a PDF and as the layout that reads its photo.</summary>
    public Outcome<PrintSheetAnswer> Sheet(PlanTrialAnswer plan, string? page, string? chart)
    {
        ArgumentNullException.ThrowIfNull(plan);
        var count = plan.Jars.Count;
        var columns = Math.Min(4, count);
        var rows = (count + columns - 1) / columns;
        var cells = Enumerable.Range(0, columns * rows).Select(i => $"{(char)('A' + (i % columns))}{(i / columns) + 1}").ToArray();
        return new PrintSheet(clock).Handle(
            new()
            {
                Cells = $"{columns}x{rows}",
                Page =
                    !string.IsNullOrWhiteSpace(page) ? page
                    : count <= MostOnA5 ? "A5"
                    : "A4",
                Chart = chart,
                Title = plan.Plant.Length > 0 ? $"Trial of {plan.Plant}" : "Trial",
                Blank = string.Join(',', cells.Skip(count)),
                Captions = plan.Jars.Select((jar, i) => (jar, i)).ToDictionary(one => cells[one.i], one => Code(one.jar)),
            }
        );
    }

    /// <summary>What stands on a jar's tag and under its cell.</summary>
    public static string Code(PlannedJar jar) => $"N{jar?.Number}";
}

using Dyewort.Colour;

namespace Dyewort.Response;

/// <summary>One sample to set out next.</summary>
/// <param name="GramsPerLitre">Dose of the ladder's addition.</param>
/// <param name="Expected">The colour to expect.</param>
/// <param name="UncertaintyDe00">95 % radius.</param>
/// <param name="StepDe00">ΔE₀₀ from the step before; 0 for the first.</param>
public sealed record LadderStep(double GramsPerLitre, Lab Expected, double UncertaintyDe00, double StepDe00);

/// <summary>Plans trials from what earlier ones taught.</summary>
public static class TrialPlan
{
    private const int Points = 48;

    /// <summary>Doses of one addition whose colours look evenly spaced, from none to the largest tested.</summary>
    /// <param name="model">What the trials taught.</param>
    /// <param name="addition">An addition that was tested at least once.</param>
    /// <param name="steps">Samples on the ladder, 2 to 24, the plain liquor among them.</param>
    /// <exception cref="ArgumentException">The addition was never tested.</exception>
    /// <exception cref="ArgumentOutOfRangeException">Steps outside 2 to 24.</exception>
    public static IReadOnlyList<LadderStep> Ladder(ResponseModel model, string addition, int steps)
    {
        ArgumentNullException.ThrowIfNull(model);
        ArgumentOutOfRangeException.ThrowIfLessThan(steps, 2);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(steps, 24);
        var highest = model.Rows.Max(row => row.Point.Dose(addition));
        if (highest <= 0)
            throw new ArgumentException($"{addition} was never tested.", nameof(addition));
        var setting = model.UsualSetting();
        TrialPoint At(double dose) => setting with { Sample = "", Ph = null, Wash = 1, GramsPerLitre = [new(addition, dose)] };

        // Fine doses even on a logarithmic scale, and how far the colour has travelled along them.
        double[] doses = [0, .. Enumerable.Range(0, Points).Select(i => highest * Math.Pow(200, (i / (Points - 1.0)) - 1))];
        var film = model.FilmOf(setting.Paper);
        var colours = doses.Select(dose => film.ColourOf(model.QuickDensity(At(dose)))).ToArray();
        var travelled = new double[doses.Length];
        for (var i = 1; i < doses.Length; i++)
            travelled[i] = travelled[i - 1] + Difference.Ciede2000(colours[i - 1], colours[i]);
        var ladder = new List<LadderStep>();
        for (var step = 0; step < steps; step++)
        {
            var goal = travelled[^1] * step / (steps - 1);
            var upper = Math.Max(1, Array.FindIndex(travelled, way => way >= goal));
            var share =
                travelled[upper] > travelled[upper - 1] ? (goal - travelled[upper - 1]) / (travelled[upper] - travelled[upper - 1]) : 0;
            var dose = step == steps - 1 ? highest : doses[upper - 1] + (share * (doses[upper] - doses[upper - 1]));
            var predicted = model.Predict(At(dose));
            ladder.Add(
                new(
                    dose,
                    predicted.Colour,
                    predicted.UncertaintyDe00,
                    step == 0 ? 0 : Difference.Ciede2000(ladder[^1].Expected, predicted.Colour)
                )
            );
        }

        return ladder;
    }
}

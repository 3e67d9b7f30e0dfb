using Xunit;

namespace Dyewort.Readings.Tests;

/// <summary>Painted cells drawn point by point, 14 × 10.5 mm at 0.14 mm, with and without pencil. Invented; benchmarks/accuracy_marks.py
/// does the same with photos of an independent simulator.</summary>
public sealed class PencilMarksTests
{
    private const int Columns = 100,
        Rows = 75;
    private const double Pitch = 0.14;
    private static readonly FileRgb Violet = new(0.62, 0.40, 0.70),
        Grey = new(0.55, 0.53, 0.50);

    [Theory, InlineData(20), InlineData(90), InlineData(135)]
    public void A_pencil_line_is_found_where_it_lies_and_nowhere_else(double degrees)
    {
        foreach (var ink in new[] { Violet, Grey, new FileRgb(0.97, 0.8, 0.1), new FileRgb(0.93, 0.95, 0.9) })
        {
            var marked = PencilMarks.Find(Cell(ink, pencil: (x, y) => FromLine(x, y, degrees) < 0.25));
            Assert.NotNull(marked);
            var (onLine, missed, far) = (0, 0, 0);
            for (var i = 0; i < marked.Length; i++)
            {
                var off = FromLine(X(i), Y(i), degrees);
                if (off < 0.2)
                    onLine++;
                if (off < 0.2 && !marked[i])
                    missed++;
                if (off > 1 && marked[i])
                    far++;
            }

            Assert.True(missed < 0.15 * onLine, $"{missed} of {onLine} places on the line were missed.");
            Assert.Equal(0, far);
        }
    }

    [Fact]
    public void Flat_granulated_gappy_and_pooled_washes_and_backruns_are_not_accused()
    {
        var grains = Noise(0.35, 7);
        foreach (var ink in new[] { Violet, Grey, new FileRgb(0.97, 0.8, 0.1), new FileRgb(0.12, 0.16, 0.3) })
        {
            Assert.Null(PencilMarks.Find(Cell(ink)));
            Assert.Null(PencilMarks.Find(Cell(ink, depth: (x, y) => Math.Clamp(1 + (0.45 * grains(x, y)), 0.1, 3))));
            Assert.Null(PencilMarks.Find(Cell(ink, depth: (x, y) => Math.Abs(((0.8 * x) + (0.6 * y)) % 2.4) < 0.7 ? 0 : 1)));
            Assert.Null(PencilMarks.Find(Cell(ink, depth: (x, y) => 1 + (1.2 * Math.Exp(-x / 1.5)))));

            // A backrun: paler within, and a dark rim where the water stopped.
            Assert.Null(
                PencilMarks.Find(
                    Cell(
                        ink,
                        depth: (x, y) =>
                        {
                            var r = Math.Sqrt(((x - 5) * (x - 5)) + ((y - 5) * (y - 5)));
                            return (r < 3.5 ? 0.7 : 1) * (1 + (0.5 * Math.Exp(-Math.Pow((r - 3.5) / 0.35, 2))));
                        }
                    )
                )
            );
        }
    }

    [Fact]
    public void A_line_beside_the_cell_or_too_coarse_a_picture_says_nothing()
    {
        Assert.Null(PencilMarks.Find(Cell(Violet, pencil: (x, _) => x < -1)));
        Assert.Null(PencilMarks.Find(Cell(Violet, pencil: (x, _) => Math.Abs(x - 7) < 0.25) with { PitchMm = 0.5 }));
        Assert.Null(PencilMarks.Find(new(Array.Empty<float>(), Array.Empty<float>(), Array.Empty<float>(), 0, 0.14)));
        var nothing = Enumerable.Repeat(float.NaN, Columns * Rows).ToArray();
        Assert.Null(PencilMarks.Find(new(nothing, nothing, nothing, Columns, Pitch)));
    }

    private static double X(int i) => (i % Columns) * Pitch;

    private static double Y(int i) => (i / Columns) * Pitch;

    private static double FromLine(double x, double y, double degrees)
    {
        var (sin, cos) = Math.SinCos(degrees * Math.PI / 180);
        return Math.Abs(((x - 7) * sin) - ((y - 5.25) * cos));
    }

    /// <summary>A film of ink with some noise; pencil hides the light by four fifths and is broken by grain.</summary>
    private static CellRaster Cell(FileRgb ink, Func<double, double, double>? depth = null, Func<double, double, bool>? pencil = null)
    {
        var random = new Random(11);
        var channels = Enumerable.Range(0, 3).Select(_ => new float[Columns * Rows]).ToArray();
        for (var i = 0; i < Columns * Rows; i++)
        {
            var cover = pencil?.Invoke(X(i), Y(i)) == true && random.NextDouble() < 0.75 ? 0.8 : 0;
            for (var c = 0; c < 3; c++)
            {
                var film = Math.Pow(ink[c], depth?.Invoke(X(i), Y(i)) ?? 1);
                channels[c][i] = (float)(((film * (1 - cover)) + (cover * 0.12)) * (1 + (0.03 * (random.NextDouble() - 0.5))));
            }
        }

        return new(channels[0], channels[1], channels[2], Columns, Pitch);
    }

    /// <summary>Smooth noise of unit strength, grains of a given size in millimetres.</summary>
    private static Func<double, double, double> Noise(double size, int seed)
    {
        var random = new Random(seed);
        var waves = Enumerable
            .Range(0, 60)
            .Select(_ =>
                (
                    Angle: random.NextDouble() * Math.Tau,
                    Length: size * (1.5 + (2 * random.NextDouble())),
                    Phase: random.NextDouble() * Math.Tau
                )
            )
            .ToArray();
        return (x, y) =>
            Math.Sqrt(2.0 / waves.Length)
            * waves.Sum(wave =>
                Math.Sin((Math.Tau / wave.Length * ((x * Math.Cos(wave.Angle)) + (y * Math.Sin(wave.Angle)))) + wave.Phase)
            );
    }
}

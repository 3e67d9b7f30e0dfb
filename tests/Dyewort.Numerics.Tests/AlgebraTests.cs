using CsCheck;
using Dyewort.Testing;
using MathNet.Numerics.LinearAlgebra;
using Xunit;

namespace Dyewort.Numerics.Tests;

/// <summary>Our own solvers against the general library, and against matrices whose inverses are whole numbers.</summary>
public sealed class AlgebraTests
{
    private static readonly Gen<(int N, double[] A, double[] B)> Systems =
        from n in Gen.Int[1, 30]
        from a in Gen.Double[-1, 1].Array[n * n]
        from b in Gen.Double[-1, 1].Array[n]
        select (n, a, b);

    [Fact]
    public void Elimination_as_in_the_library() =>
        Systems.Sample(
            system =>
            {
                var (n, a, b) = system;
                var square = Square(n, a);
                var condition = square.ConditionNumber();
                var (spoiled, x) = ((double[])a.Clone(), (double[])b.Clone());
                if (!LinearSystem.TrySolve(spoiled, x))
                {
                    Assert.False(condition < 1e12);
                    return;
                }

                var library = square.Solve(Vector<double>.Build.DenseOfArray(b));
                var allowed = 1e-14 * n * condition * (1 + library.AbsoluteMaximum());
                for (var i = 0; i < n; i++)
                    Assert.False(Math.Abs(library[i] - x[i]) > allowed, $"{library[i]} and {x[i]}, condition {condition}");
            },
            iter: 300
        );

    [Fact]
    public void Rows_of_any_size_are_solved_alike()
    {
        double[] a = [2e-200, 1e-200, 3e150, -1e150];
        double[] b = [4e-200, 1e150];
        Assert.True(LinearSystem.TrySolve(a, b));
        Assert.Equal(1, b[0], 1e-14);
        Assert.Equal(2, b[1], 1e-14);
    }

    [Theory]
    [InlineData(new double[] { 1, 2, 2, 4 })]
    [InlineData(new double[] { 0, 0, 1, 1 })]
    [InlineData(new double[] { 1, double.NaN, 1, 1 })]
    public void A_singular_system_is_not_solved(double[] a) => Assert.False(LinearSystem.TrySolve([.. a], new double[2]));

    [Fact]
    public void Three_unknowns_by_determinants_as_by_elimination() =>
        Gen.Select(Gen.Double[-1, 1].Array[9], Gen.Double[-1, 1].Array[3])
            .Sample(
                (m, b) =>
                {
                    var (quick, slow) = ((double[])b.Clone(), (double[])b.Clone());
                    var solved = LinearSystem.TrySolve3(m, quick);
                    var determinant = Square(3, m).Determinant();
                    if (Math.Abs(determinant) < 1e-3)
                        return;
                    Assert.True(solved && LinearSystem.TrySolve([.. m], slow));
                    for (var i = 0; i < 3; i++)
                        Assert.Equal(slow[i], quick[i], 1e-9);
                }
            );

    [Fact]
    public void A_flat_system_of_three_gives_zeros()
    {
        double[] b = [1, 2, 3];
        Assert.False(LinearSystem.TrySolve3([1, 2, 3, 2, 4, 6, 1, 1, 1], b));
        Assert.Equal([0, 0, 0], b);
    }

    [Theory, Published("Choi1983", "the inverse of the Hilbert matrix")]
    [InlineData(2)]
    [InlineData(5)]
    [InlineData(6)]
    public void The_inverse_of_the_Hilbert_matrix_is_whole_numbers(int n)
    {
        var hilbert = new double[n * n];
        for (var i = 0; i < n; i++)
        {
            for (var j = 0; j < n; j++)
                hilbert[(i * n) + j] = 1.0 / (i + j + 1);
        }

        Assert.True(Cholesky.TryFactor(hilbert, n));
        var inverse = Cholesky.Inverse(hilbert, n);
        for (var i = 1; i <= n; i++)
        {
            for (var j = 1; j <= n; j++)
            {
                var published =
                    ((i + j) % 2 == 0 ? 1 : -1)
                    * (i + j - 1)
                    * Binomial(n + i - 1, n - j)
                    * Binomial(n + j - 1, n - i)
                    * Math.Pow(Binomial(i + j - 2, i - 1), 2);
                // The condition number of the 6 × 6 matrix is 1.5e7, so nine digits are what double precision has.
                Assert.Equal(1, inverse[((i - 1) * n) + j - 1] / published, 1e-8);
            }
        }
    }

    [Fact]
    public void Cholesky_as_in_the_library() =>
        Systems.Sample(
            system =>
            {
                var (n, a, b) = system;
                var square = Square(n, a);
                var positive = (square * square.Transpose()) + Matrix<double>.Build.DenseIdentity(n);
                var ours = positive.ToRowMajorArray();
                // What stands above the diagonal must not matter.
                for (var i = 0; i < n; i++)
                    ours.AsSpan((i * n) + i + 1, n - i - 1).Fill(double.NaN);
                var x = (double[])b.Clone();
                Assert.True(Cholesky.TrySolve(ours, x));
                var library = positive.Cholesky();
                var expected = library.Solve(Vector<double>.Build.DenseOfArray(b));
                var inverse = Cholesky.Inverse(ours, n);
                var expectedInverse = positive.Inverse();
                for (var i = 0; i < n; i++)
                {
                    Assert.Equal(expected[i], x[i], 1e-10);
                    for (var j = 0; j < n; j++)
                    {
                        Assert.Equal(expectedInverse[i, j], inverse[(i * n) + j], 1e-10);
                        if (j <= i)
                            Assert.Equal(library.Factor[i, j], ours[(i * n) + j], 1e-10);
                    }
                }
            },
            iter: 200
        );

    [Fact]
    public void What_is_not_positive_definite_has_no_factor()
    {
        double[] b = [1, 2];
        Assert.False(Cholesky.TrySolve([1, 2, 2, 1], b));
        Assert.Equal([1, 2], b);
        Assert.False(Cholesky.TryFactor([double.PositiveInfinity], 1));
        Assert.False(Cholesky.TryFactor([0], 1));
    }

    [Fact]
    public void A_flat_covariance_has_a_factor_too()
    {
        // Variance along (1, 2, 2) only.
        double[] flat = [1, 2, 2, 2, 4, 4, 2, 4, 4];
        Cholesky.Factor3(flat);
        Assert.Equal([1, 2, 0, 2, 0, 0], [flat[0], flat[3], flat[4], flat[6], flat[7], flat[8]]);
        double[] round = [4, 9, 9, 2, 5, 9, 6, 7, 14];
        double[] full = [.. round];
        Cholesky.Factor3(round);
        Assert.True(Cholesky.TryFactor(full, 3));
        Assert.Equal(full, round);
    }

    [Fact]
    public void A_matrix_of_three_times_its_inverse_is_one() =>
        Gen.Double[-1, 1]
            .Array[9]
            .Sample(m =>
            {
                var matrix = new Matrix3(m[0], m[1], m[2], m[3], m[4], m[5], m[6], m[7], m[8]);
                Assert.Equal(Square(3, m).Determinant(), matrix.Determinant, 1e-12);
                if (Math.Abs(matrix.Determinant) < 1e-2)
                    return;
                var one = matrix.Times(matrix.Inverse());
                var off = new[] { one.M11 - 1, one.M12, one.M13, one.M21, one.M22 - 1, one.M23, one.M31, one.M32, one.M33 - 1 };
                Assert.All(off, value => Assert.InRange(value, -1e-11, 1e-11));
                Assert.Equal(matrix, matrix.Transpose().Transpose());
                var (x, _, _) = matrix.Transpose().Times(1, 0, 0);
                Assert.Equal((m[0], m[1]), (x, matrix.Transpose().Times(1, 0, 0).Second));
            });

    private static Matrix<double> Square(int n, double[] rowMajor) => Matrix<double>.Build.DenseOfRowMajor(n, n, rowMajor);

    private static double Binomial(int n, int k)
    {
        var product = 1.0;
        for (var i = 1; i <= k; i++)
            product *= (n - k + i) / (double)i;
        return Math.Round(product);
    }
}

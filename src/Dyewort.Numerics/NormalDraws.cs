namespace Dyewort.Numerics;

/// <summary>Repeatable random numbers from a seed: the same seed gives the same row.</summary>
/// <remarks>Uniform numbers are those of the runtime's seeded generator, whose row is kept from version to version.</remarks>
public sealed class NormalDraws(int seed)
{
#pragma warning disable CA5394 // Statistics, not secrets.
    private readonly Random random = new(seed);

    /// <summary>A uniform number above 0, at most 1: its logarithm is finite.</summary>
    public double NextUniform() => 1 - random.NextDouble();

    /// <summary>A whole number from 0, below a limit.</summary>
    public int NextBelow(int limit) => random.Next(limit);

    /// <summary>A standard normal number.</summary>
    public double Next() => NormalDistribution.OfUniforms(NextUniform(), random.NextDouble());

    /// <summary>Student's t with four degrees of freedom, scaled to a standard deviation of one.</summary>
    public double NextHeavy()
    {
        var sum = 0.0;
        for (var i = 0; i < 4; i++)
        {
            var z = Next();
            sum += z * z;
        }

        return Next() / Math.Sqrt(sum / 2);
    }
#pragma warning restore CA5394
}

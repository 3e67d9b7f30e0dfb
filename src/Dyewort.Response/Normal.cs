namespace Dyewort.Response;

/// <summary>Repeatable standard normal numbers from a seed (Box–Muller).</summary>
internal sealed class Normal(int seed)
{
#pragma warning disable CA5394 // Statistics, not secrets.
    private readonly Random random = new(seed);

    /// <summary>The standard normal number that a share of all lies below, to 0.01 between 0.005 and 0.995 (Tukey's lambda).</summary>
    public static double Quantile(double share) => 4.91 * (Math.Pow(share, 0.14) - Math.Pow(1 - share, 0.14));

    public double NextUniform() => 1 - random.NextDouble();

    public double Next() => Math.Sqrt(-2 * Math.Log(NextUniform())) * Math.Cos(2 * Math.PI * random.NextDouble());

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

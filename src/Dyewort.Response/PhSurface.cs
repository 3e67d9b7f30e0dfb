namespace Dyewort.Response;

/// <summary>The pH of one composition for every liquor it may have been made with.</summary>
/// <remarks>Laid over two standard numbers: how far the liquor's own pH, and the logarithm of its weak acids, lie from what is
/// believed.</remarks>
internal sealed class PhSurface
{
    /// <summary>Nodes along each of the two, −<see cref="Reach"/> to <see cref="Reach"/> standard deviations.</summary>
    public const int Nodes = 5;
    public const double Reach = 2.4;
    private readonly double[] nodes;

    private PhSurface(double[] nodes) => this.nodes = nodes;

    /// <summary>A measured pH, whatever the liquor.</summary>
    public static PhSurface Constant(double ph) => new([ph]);

    /// <param name="nodes"><see cref="Nodes"/>² values, the liquor's pH slowest.</param>
    /// <param name="plus">Added to all.</param>
    public static PhSurface Of(double[] nodes, double plus) => new([.. nodes.Select(ph => Math.Clamp(ph + plus, 0, 14))]);

    public bool IsConstant => nodes.Length == 1;

    public static double Place(int node) => Reach * ((2.0 * node / (Nodes - 1)) - 1);

    /// <summary>Linear between the nodes, held at the rim.</summary>
    public double At(double liquorPh, double acid)
    {
        if (nodes.Length == 1)
            return nodes[0];
        var (i, u) = Cell(liquorPh);
        var (j, v) = Cell(acid);
        var low = (nodes[(i * Nodes) + j] * (1 - v)) + (nodes[(i * Nodes) + j + 1] * v);
        var high = (nodes[((i + 1) * Nodes) + j] * (1 - v)) + (nodes[((i + 1) * Nodes) + j + 1] * v);
        return (low * (1 - u)) + (high * u);
    }

    private static (int Node, double Share) Cell(double value)
    {
        var at = (Math.Clamp(value, -Reach, Reach) + Reach) * (Nodes - 1) / (2 * Reach);
        var node = Math.Min((int)at, Nodes - 2);
        return (node, at - node);
    }
}

namespace Dyewort.Readings;

/// <summary>A point in an upright picture, pixels from its top left, x right, y down; the centre of the first pixel is (0, 0).</summary>
/// <param name="X">Pixels from the left.</param>
/// <param name="Y">Pixels from the top.</param>
public readonly record struct PointPx(double X, double Y)
{
    /// <summary>Distance to another point, pixels.</summary>
    public double DistanceTo(PointPx other) => Math.Sqrt(((X - other.X) * (X - other.X)) + ((Y - other.Y) * (Y - other.Y)));
}

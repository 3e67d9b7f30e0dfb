namespace Dyewort.Colour;

/// <summary>A bare paper that inks are painted on.</summary>
/// <remarks>Only its colour is known as a rule; its reflectance is then the smoothest positive one with that colour.</remarks>
public sealed class Paper
{
    private readonly Lazy<Lab[]> members;

    private Paper(Xyz colour, Spectrum reflectance)
    {
        Colour = colour;
        Reflectance = reflectance;
        X = Times(Weighting.Stored.X);
        Y = Times(Weighting.Stored.Y);
        Z = Times(Weighting.Stored.Z);
        members = new(() => ColorantPrior.ColoursOn(this));
    }

    /// <summary>What is taken for a white drawing paper of which nothing is known: CIELAB 95.5, −0.5, 2.3 under D65, a little
    /// warm.</summary>
    /// <remarks>Common practice, no source; unbrightened and brightened drawing papers lie within about 3 units of it.</remarks>
    public static Paper DrawingPaperGuess { get; } = Of(new Lab(95.5, -0.5, 2.3).ToXyz());

    /// <summary>Its colour under D65.</summary>
    public Xyz Colour { get; }

    /// <summary>Its measured or estimated reflectance; above 1 in the blue for a brightened paper.</summary>
    public Spectrum Reflectance { get; }

    /// <summary>Weights of the stored light and observer, times the reflectance.</summary>
    internal double[] X { get; }

    internal double[] Y { get; }

    internal double[] Z { get; }

    /// <summary>Where the colorants of the prior lie on this paper.</summary>
    internal Lab[] Members => members.Value;

    /// <summary>A paper of this colour.</summary>
    /// <exception cref="ArgumentException">No reflectance gives the colour: it is black, or no real colour.</exception>
    public static Paper Of(Xyz colour) =>
        Estimate(colour) ?? throw new ArgumentException($"No paper can have the colour {colour}.", nameof(colour));

    /// <summary>A paper with a measured reflectance.</summary>
    public static Paper Of(Spectrum reflectance)
    {
        ArgumentNullException.ThrowIfNull(reflectance);
        return new(reflectance.ToXyz(), reflectance);
    }

    /// <summary>A paper of this colour, or null where no reflectance gives it.</summary>
    public static Paper? TryOf(Xyz colour) => Estimate(colour);

    private static Paper? Estimate(Xyz colour) =>
        Dyewort.Colour.Reflectance.SmoothestPositive(colour) is { } reflectance ? new(colour, reflectance) : null;

    private double[] Times(double[] weights)
    {
        var product = new double[Spectrum.Count];
        for (var i = 0; i < product.Length; i++)
            product[i] = weights[i] * Reflectance.Values[i];
        return product;
    }
}

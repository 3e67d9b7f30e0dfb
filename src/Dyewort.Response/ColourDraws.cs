using Dyewort.Colour;

namespace Dyewort.Response;

/// <summary>Equally likely colours of one sample.</summary>
/// <param name="colours">The colours.</param>
/// <param name="priorWeight">0 where the samples say all, 1 where nothing but general belief speaks.</param>
/// <param name="noiseVariance">Variance of a single reading along each axis, ΔE₀₀².</param>
/// <param name="densities">The film of each colour, where it is at hand.</param>
internal sealed class ColourDraws(Lab[] colours, double priorWeight, double noiseVariance, FilmDensity[]? densities = null)
{
    public Lab[] Colours { get; } = colours;

    /// <summary>The film of each colour on a paper.</summary>
    public FilmDensity[] DensitiesOn(Film film) => densities ?? Array.ConvertAll(Colours, film.DensityOf);

    public double PriorWeight { get; } = priorWeight;

    /// <summary>Variance of a single reading along each axis, ΔE₀₀².</summary>
    public double NoiseVariance { get; } = noiseVariance;

    public Lab Centre { get; } = new(colours.Average(c => c.L), colours.Average(c => c.A), colours.Average(c => c.B));

    /// <summary>The ΔE₀₀ around the centre that holds a share of the colours.</summary>
    public double Radius(double share)
    {
        var distances = Array.ConvertAll(Colours, c => Difference.Ciede2000(Centre, c));
        Array.Sort(distances);
        return distances[Math.Clamp((int)Math.Ceiling(share * distances.Length) - 1, 0, distances.Length - 1)];
    }

    public double Expected(Lab wanted) => Colours.Average(c => Difference.Ciede2000(wanted, c));

    public double Chance(Lab wanted, double within) =>
        (double)Colours.Count(c => Difference.Ciede2000(wanted, c) <= within) / Colours.Length;
}

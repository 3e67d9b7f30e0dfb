namespace Dyewort.Response;

/// <summary>Doses that makers usually try, for additions that were not tested on a plant yet.</summary>
/// <remarks>Grams per litre of ink; common practice, no source, except alum's upper end, which stays well below its solubility at 20 °C
/// (140 g/L).</remarks>
public static class UsualDoses
{
    private static readonly (string Word, double Low, double High)[] Known =
    [
        ("alum", 2.5, 40),
        ("aluminium", 2.5, 40),
        ("copperas", 0.2, 5),
        ("iron", 0.2, 5),
        ("ferrous", 0.2, 5),
        ("copper", 0.5, 5),
        ("citric", 1, 10),
        ("tartar", 2, 5),
        ("bicarbonate", 0.5, 10),
        ("baking soda", 0.5, 10),
        ("washing soda", 0.2, 5),
        ("soda ash", 0.2, 5),
        ("sodium carbonate", 0.2, 5),
        ("chalk", 1, 10),
        ("tannic", 1, 10),
        ("salt", 5, 60),
        ("vinegar", 10, 100),
        ("lemon", 10, 100),
    ];

    /// <summary>The lowest and highest dose worth trying, g/L; 0.5 to 5 for what is not in the table.</summary>
    /// <param name="addition">The addition by its everyday name.</param>
    public static (double Low, double High) Of(string addition)
    {
        ArgumentNullException.ThrowIfNull(addition);
        foreach (var (word, low, high) in Known)
        {
            if (addition.Contains(word, StringComparison.OrdinalIgnoreCase))
                return (low, high);
        }

        return (0.5, 5);
    }
}

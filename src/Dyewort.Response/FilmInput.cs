namespace Dyewort.Response;

/// <summary>What the process sees of a sample.</summary>
/// <param name="Ph">Its pH, for every liquor it may be made of.</param>
/// <param name="Doses">Grams per litre of each addition.</param>
/// <param name="Strength">Wash times coats.</param>
/// <param name="Paper">Which paper, −1 for one that was not tested.</param>
/// <param name="State">Which state, likewise.</param>
/// <param name="Pot">Which pot, likewise.</param>
internal readonly record struct FilmInput(PhSurface Ph, double[] Doses, double Strength, int Paper, int State, int Pot)
{
    /// <summary>Added to the pH: what no liquor explains.</summary>
    public double PhShift { get; init; }
}

using Dyewort.Response;

namespace Dyewort.Workshop;

/// <summary>What is known of the pH of the notebook's liquors, for whoever asks before the trials are at hand.</summary>
public interface IPotLiquors
{
    /// <summary>Everything noted of a plant's pots and jars, painted or not.</summary>
    /// <param name="plant">The plant, as the notebook writes it.</param>
    /// <param name="cancel">Ends the reading early.</param>
    Task<PhBook> OfPlantAsync(string plant, CancellationToken cancel);
}

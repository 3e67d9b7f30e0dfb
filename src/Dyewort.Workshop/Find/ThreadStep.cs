namespace Dyewort.Workshop.Find;

/// <summary>One stop between plant and bottle.</summary>
/// <param name="Name">Its name: the plant, "Pot EB25-1" and so on.</param>
/// <param name="Detail">A few words; null when there is nothing yet.</param>
/// <param name="Thing">What stands there; null when there is nothing yet.</param>
/// <param name="Here">True for the stop that was asked about.</param>
public sealed record ThreadStep(string Name, string? Detail, Thing? Thing = null, bool Here = false);

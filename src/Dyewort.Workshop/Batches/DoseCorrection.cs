namespace Dyewort.Workshop.Batches;

/// <summary>Doses that follow a liquor of another strength; the recipe stays as it was.</summary>
/// <param name="Times">What every dose is multiplied by, above zero; water that a recipe is thinned with stays as it is.</param>
/// <param name="Words">What the batch says of it: "corrected for pot EB26-1: doses × 1.2".</param>
public sealed record DoseCorrection(double Times, string Words);

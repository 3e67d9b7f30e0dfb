namespace Dyewort.Web.Components;

/// <summary>One stop between plant and bottle.</summary>
/// <param name="Name">Its name: the plant, "Pot EB25-1" and so on.</param>
/// <param name="Detail">A few words; null when there is nothing yet.</param>
/// <param name="Href">Its page, or null.</param>
/// <param name="Here">True for the page that is shown.</param>
public sealed record ThreadStep(string Name, string? Detail, string? Href = null, bool Here = false);

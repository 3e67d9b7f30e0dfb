namespace Dyewort.Workshop;

/// <summary>Marks a class that does one thing a maker asks for; both hosts find them by this mark.</summary>
#pragma warning disable CA1040 // An empty interface is the whole point of a mark that needs no attribute lookup.
public interface IUseCase;
#pragma warning restore CA1040

namespace Dyewort.Workshop;

/// <summary>A form some of whose figures may be doubted: it is shown again with the question, and kept on a yes.</summary>
public interface IDoubtable
{
    /// <summary>Anything when a figure that hardly anybody means is meant.</summary>
    string? Meant { get; }
}

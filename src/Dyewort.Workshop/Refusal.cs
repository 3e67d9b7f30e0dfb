using Dyewort.Quantities;

namespace Dyewort.Workshop;

/// <summary>Input that a host must hand back with its sentence: exit code 2 on the command line, a message beside the field on a
/// page.</summary>
public sealed class RefusalException(IReadOnlyList<Problem> problems)
    : Exception(string.Join(Environment.NewLine, problems.Select(problem => problem.ToString())))
{
    public RefusalException(string field, string what, string remedy)
        : this([new Problem(field, what, remedy)]) { }

    public IReadOnlyList<Problem> Problems { get; } = problems;
}

namespace Dyewort.Workshop;

/// <summary>Takes an entry back that was written by mistake.</summary>
public sealed record WithdrawForm
{
    /// <summary>What is written where nobody said why.</summary>
    public const string UsualWhy = "written by mistake";

    /// <summary>Why, in the maker's words; <see cref="UsualWhy"/> when it is empty.</summary>
    public string? Why { get; init; }

    internal string Read(Entered entered) => entered.OptionalWords(nameof(Why), Why, 200) ?? UsualWhy;
}

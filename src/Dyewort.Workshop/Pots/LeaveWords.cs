using Dyewort.Notebook;
using Dyewort.Pots;

namespace Dyewort.Workshop.Pots;

/// <summary>The leave to gather a lot, as pages say it: always from the lot's fields.</summary>
internal static class LeaveWords
{
    /// <summary>"the farm's letter, for sale, until 2026-12-31, in writing"; null where nothing is on file.</summary>
    public static string? Of(LotSheet? sheet)
    {
        if (ShowPotWork.Leave(sheet) is not { } leave)
            return null;
        List<string> parts = [leave.From];
        if (leave.Covers is { } covers)
            parts.Add(covers == PlantUse.Sale ? "for sale" : "for own use");
        if (leave.Until is { } until)
            parts.Add(FormattableString.Invariant($"until {until:yyyy-MM-dd}"));
        if (leave.Written)
            parts.Add("in writing");
        return string.Join(", ", parts);
    }
}

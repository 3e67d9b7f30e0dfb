using Dyewort.Colour;

namespace Dyewort.Response.Tests.Generated;

/// <summary>A plant whose true colours are known because a program made it up.</summary>
public interface IPlant
{
    string Kind { get; }

    string Law { get; }

    IReadOnlyList<string> Used { get; }

    /// <summary>The bare paper's colour.</summary>
    Lab Paper { get; }

    TrialPoint Draw(string code, bool plain = false, double wash = 1);

    TrialRow Read(TrialPoint point, double scatter);

    Lab ColourOf(TrialPoint point);

    double PhOf(Doses doses);

    /// <summary>Makes up a proposal and paints it.</summary>
    Lab Paint(Proposal proposal, IReadOnlyList<TrialRow> rows);
}

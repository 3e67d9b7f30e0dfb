using Dyewort.Quantities;
using Dyewort.Readings;

namespace Dyewort.Workshop.Readings;

/// <summary>Holds a photo's readings against an instrument's.</summary>
public sealed class CheckReading : IUseCase
{
    /// <summary>Compares them; names decide which belong together.</summary>
    public Outcome<InstrumentCheck> Handle(CheckReadingRequest request)
    {
        var file = CardFile.Parse("check", request.Instrument, "instrument's file");
        return file.TryGet(out var instrument)
            ? InstrumentCheck.Of(request.Swatches, instrument)
            : Outcome.Refused<InstrumentCheck>(file.Problems);
    }
}

/// <summary>The instrument's file and the readings.</summary>
/// <param name="Instrument">Text of a CGATS.17 file: SAMPLE_ID with CIELAB, XYZ or spectra.</param>
/// <param name="Swatches">The photo's readings.</param>
public sealed record CheckReadingRequest(string Instrument, IReadOnlyList<SwatchReading> Swatches);

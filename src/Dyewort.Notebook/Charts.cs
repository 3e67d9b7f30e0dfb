using Dyewort.Colour;

namespace Dyewort.Notebook;

/// <summary>The swatches as they lie on one printed sheet.</summary>
public sealed class Chart : Entry
{
    /// <summary>Counts up through the notebook from 1; the code is "C" and this number.</summary>
    public required int Number { get; init; }

    /// <summary>The trial that is painted on it; null for a chart of chosen colours.</summary>
    public Guid? TrialId { get; init; }

    /// <summary>The paper it is painted on, a <see cref="Material"/>; null until the maker says.</summary>
    public Guid? PaperId { get; set; }

    /// <summary>What the maker calls it.</summary>
    public required string Title { get; set; }

    /// <summary>The printed page as the reader must find it: the JSON text of a sheet layout.</summary>
    public required string LayoutJson { get; init; }

    /// <summary>Size of the page as it was asked for, such as "A5".</summary>
    public required string Page { get; init; }

    /// <summary>The day it was painted; null until then.</summary>
    public DateOnly? PaintedOn { get; set; }

    /// <summary>"C7".</summary>
    public string Code => FormattableString.Invariant($"C{Number}");
}

/// <summary>One stage of a sample painted on one paper.</summary>
public sealed class Swatch : Entry
{
    /// <summary>The chart it lies on.</summary>
    public required Guid ChartId { get; init; }

    /// <summary>The cell, such as "B2".</summary>
    public required string Cell { get; init; }

    /// <summary>The sample that was painted.</summary>
    public required Guid SampleId { get; set; }

    /// <summary>The stage: the number of the sample's last step that was in the jar when it was painted, 0 for the plain liquor.</summary>
    /// <remarks>
    /// Null while the square waits on its sheet. It is fixed when the maker says that it was painted, else by its first reading, and
    /// nothing that goes into the jar later changes it; only the maker corrects it.
    /// </remarks>
    public int? AfterStep { get; set; }

    /// <summary>When the maker said what it was painted from, UTC; null where its first reading told.</summary>
    public DateTimeOffset? StageSaidAt { get; set; }

    /// <summary>The paper, when it is not the chart's own.</summary>
    public Guid? PaperId { get; set; }

    /// <summary>Coats laid on, 1 to 20.</summary>
    public required int Coats { get; set; }

    /// <summary>Share of liquor in what was painted: 1 is undiluted, 0.5 is one part to one of water.</summary>
    public required double Wash { get; set; }

    /// <summary>What the maker calls this colour.</summary>
    public string? Said { get; set; }
}

/// <summary>The state of a swatch when its colour was taken.</summary>
public enum SwatchState
{
    /// <summary>Just painted.</summary>
    Wet,

    /// <summary>Dry to the touch, up to a few days.</summary>
    Dry,

    /// <summary>Kept in the dark for longer.</summary>
    Aged,

    /// <summary>Exposed to light on purpose.</summary>
    Exposed,
}

/// <summary>Where a colour came from.</summary>
public enum ReadingSource
{
    /// <summary>A photo of the sheet.</summary>
    Photo,

    /// <summary>A flatbed scan of the sheet.</summary>
    Scan,

    /// <summary>An instrument's figures, typed in.</summary>
    Instrument,

    /// <summary>Matched by eye.</summary>
    Eye,
}

/// <summary>A picture as it came from the maker, kept as a file named by its SHA-256.</summary>
public sealed class Photo : Entry
{
    /// <summary>SHA-256 of the file, 64 lower-case hexadecimal digits: the file's name beside the notebook.</summary>
    public required string Sha256 { get; init; }

    /// <summary>File name extension that fits the content, without a dot: "jpg".</summary>
    public required string Extension { get; init; }

    /// <summary>The chart it shows; null when it shows something else.</summary>
    public Guid? ChartId { get; set; }

    /// <summary>The pot or sample it shows, when it is a picture of one.</summary>
    public Guid? SubjectId { get; set; }

    /// <summary>When it was taken or sent, UTC.</summary>
    public required DateTimeOffset TakenAt { get; set; }

    /// <summary>The state the swatches were in.</summary>
    public SwatchState? State { get; set; }

    /// <summary>How the picture was made: <see cref="ReadingSource.Photo"/> or <see cref="ReadingSource.Scan"/>.</summary>
    public ReadingSource Source { get; set; }

    /// <summary>Pixels from left to right as it stands upright; null when nobody looked.</summary>
    public int? WidthPx { get; set; }

    /// <summary>Pixels from top to bottom as it stands upright; null when nobody looked.</summary>
    public int? HeightPx { get; set; }

    /// <summary>The bare paper's colour as the maker gave it for this picture alone.</summary>
    public Xyz? PaperColour { get; set; }

    /// <summary>Where the maker pointed to the swatches, as JSON; null where markers showed the place.</summary>
    public string? PlacingJson { get; set; }

    /// <summary>Why it could not be read, in a sentence; null when it was, or was never meant to be.</summary>
    public string? WhyNotRead { get; set; }

    /// <summary>Which half of every swatch had been kept covered from light; null when none had.</summary>
    public CoveredHalf? Covered { get; set; }

    /// <summary>Hours of light that the open part had, above 0.</summary>
    public double? ExposedHours { get; set; }

    /// <summary>Which light, in the maker's words.</summary>
    public string? ExposedTo { get; set; }

    /// <summary>The house strip or card that lies in the picture, a <see cref="HouseStrip"/>.</summary>
    public Guid? StripId { get; set; }

    /// <summary>Where the strip lies, as JSON: its four corners in pixels, clockwise from the patch that comes first; null where it finds
    /// itself.</summary>
    public string? StripCornersJson { get; set; }

    /// <summary>The reader's answer about the whole picture, as JSON: the page's corners and the method; null when it was not
    /// read.</summary>
    public string? ReadingJson { get; set; }
}

/// <summary>The colour of a swatch at a time and in a state.</summary>
/// <remarks>A corrected reading is a new reading that names the old one.</remarks>
public sealed class Reading : Entry
{
    /// <summary>The swatch.</summary>
    public required Guid SwatchId { get; init; }

    /// <summary>When the colour was taken, UTC.</summary>
    public required DateTimeOffset At { get; init; }

    /// <summary>The state it was in.</summary>
    public required SwatchState State { get; init; }

    /// <summary>CIE XYZ of the surface, 1931 2° observer, D65, perfect diffuser Y = 100.</summary>
    public required Xyz Colour { get; init; }

    /// <summary>Half-width in CIEDE2000 of the interval that holds the true colour 19 times in 20.</summary>
    public required double UncertaintyDe00 { get; init; }

    /// <summary>Where it came from.</summary>
    public required ReadingSource Source { get; init; }

    /// <summary>The photo it was read from, when it was.</summary>
    public Guid? PhotoId { get; init; }

    /// <summary>Where on the photo, as JSON: corners in pixels of the upright picture, clockwise; null when it came from no
    /// photo.</summary>
    public string? PolygonJson { get; init; }

    /// <summary>How the colour was corrected: "paper", "card", "strip".</summary>
    public string? Method { get; init; }

    /// <summary>What the reader warned of, one word each, separated by blanks.</summary>
    public string? Warnings { get; init; }

    /// <summary>The reading that this one corrects.</summary>
    public Guid? CorrectsId { get; init; }

    /// <summary>Hours of light that it had, above 0; null where it was kept in the dark.</summary>
    public double? ExposedHours { get; init; }

    /// <summary>Which light, in the maker's words.</summary>
    public string? ExposedTo { get; init; }

    /// <summary>What it was measured with, in the maker's words.</summary>
    public string? MeasuredWith { get; init; }
}

/// <summary>The half of a swatch that was kept covered, seen with the sheet upright.</summary>
public enum CoveredHalf
{
    /// <summary>Left.</summary>
    Left,

    /// <summary>Right.</summary>
    Right,

    /// <summary>Upper.</summary>
    Upper,

    /// <summary>Lower.</summary>
    Lower,
}

/// <summary>Stable patches that the maker owns and photographs beside charts: a house strip, so that readings of different days agree, or a
/// reference card whose colours its maker states.</summary>
/// <remarks>A strip's first reading defines it: whatever its patches truly are, later photos are brought back to that day. A card's figures
/// come with it.</remarks>
public sealed class HouseStrip : Entry
{
    /// <summary>What the maker calls it.</summary>
    public required string Name { get; set; }

    /// <summary>Patches along its first side, 1 to 26.</summary>
    public required int Columns { get; init; }

    /// <summary>Patches along its second side, 1 to 26.</summary>
    public required int Rows { get; init; }

    /// <summary>What its patches are, as a CGATS.17 text: SAMPLE_ID and CIELAB.</summary>
    public required string Patches { get; init; }

    /// <summary>True for a reference card with its maker's values.</summary>
    public bool IsCard { get; init; }

    /// <summary>The photo that defined it; null when its figures were brought along.</summary>
    public Guid? PhotoId { get; init; }

    /// <summary>Where it lay on that photo, as JSON: its four corners in pixels, clockwise from the patch that comes first.</summary>
    public string? CornersJson { get; init; }
}

using Dyewort.Colour;
using Xunit;

namespace Dyewort.Notebook.Tests;

public sealed class StandingColourTests
{
    private static readonly DateTimeOffset Start = new(2025, 9, 6, 8, 0, 0, TimeSpan.Zero);
    private static readonly Guid Swatch = Guid.CreateVersion7(Start);

    [Theory]
    [InlineData(ReadingSource.Instrument, ReadingSource.Scan)]
    [InlineData(ReadingSource.Scan, ReadingSource.Photo)]
    [InlineData(ReadingSource.Photo, ReadingSource.Eye)]
    public void The_more_trustworthy_reading_speaks_for_a_state_whatever_is_asked(ReadingSource better, ReadingSource worse)
    {
        var (trusted, newer) = (Read(SwatchState.Dry, better, day: 1), Read(SwatchState.Dry, worse, day: 9));
        Reading[] readings = [newer, trusted, Read(SwatchState.Wet, ReadingSource.Instrument, day: 0)];
        Assert.Same(trusted, StandingColour.In(readings, SwatchState.Dry));
        Assert.Same(trusted, StandingColour.ToShow(readings));
        Assert.Same(trusted, StandingColour.ToKeep(readings));
        Assert.Same(trusted, StandingColour.ToLearnFrom(readings).Single(reading => reading.State == SwatchState.Dry));
        Assert.Same(trusted, StandingColour.OfLiquor([newer, trusted]));
    }

    [Fact]
    public void Of_two_readings_taken_alike_the_newest_speaks()
    {
        var (old, late) = (Read(SwatchState.Dry, ReadingSource.Photo, day: 1), Read(SwatchState.Dry, ReadingSource.Photo, day: 2));
        Assert.Same(late, StandingColour.In([late, old], SwatchState.Dry));
        Assert.Same(late, StandingColour.In([old, late], SwatchState.Dry));
    }

    [Fact]
    public void What_was_withdrawn_or_corrected_does_not_speak_and_a_withdrawn_correction_corrects_nothing()
    {
        var photo = Read(SwatchState.Dry, ReadingSource.Photo, day: 1);
        var instrument = Read(SwatchState.Dry, ReadingSource.Instrument, day: 2);
        var again = Read(SwatchState.Dry, ReadingSource.Photo, day: 2, corrects: instrument.Id);
        Assert.Same(again, StandingColour.ToKeep([photo, instrument, again]));
        again.WithdrawnAt = Start.AddDays(3);
        Assert.Same(instrument, StandingColour.ToKeep([photo, instrument, again]));
        instrument.WithdrawnAt = Start.AddDays(3);
        Assert.Same(photo, StandingColour.ToKeep([photo, instrument, again]));
    }

    [Fact]
    public void The_purpose_decides_the_state()
    {
        var wet = Read(SwatchState.Wet, ReadingSource.Photo, day: 0);
        var dry = Read(SwatchState.Dry, ReadingSource.Photo, day: 1);
        var settled = Read(SwatchState.Aged, ReadingSource.Instrument, day: 8);
        var exposed = Read(SwatchState.Exposed, ReadingSource.Instrument, day: 30);
        Reading[] all = [exposed, settled, dry, wet];
        Assert.Equal((dry, dry, wet), (StandingColour.ToShow(all), StandingColour.ToKeep(all), StandingColour.OfLiquor(all)));
        Assert.Equal([wet, dry, settled], StandingColour.ToLearnFrom(all));
        Assert.Same(settled, StandingColour.ToKeep([exposed, settled, wet]));
        Assert.Same(wet, StandingColour.ToKeep([exposed, wet]));
        Assert.Same(exposed, StandingColour.ToShow([exposed]));
        Assert.Null(StandingColour.ToKeep([exposed]));
        Assert.Null(StandingColour.OfLiquor([settled, exposed]));
        Assert.Empty(StandingColour.ToLearnFrom([exposed]));
    }

    private static Reading Read(SwatchState state, ReadingSource source, int day, Guid? corrects = null) =>
        new()
        {
            Id = Guid.CreateVersion7(Start.AddDays(day)),
            WrittenAt = Start.AddDays(day),
            SwatchId = Swatch,
            At = Start.AddDays(day),
            State = state,
            Colour = new Xyz(20, 20, 20),
            UncertaintyDe00 = 1,
            Source = source,
            CorrectsId = corrects,
        };
}

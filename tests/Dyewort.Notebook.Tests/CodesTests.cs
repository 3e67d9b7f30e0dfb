using Xunit;

namespace Dyewort.Notebook.Tests;

public sealed class CodesTests
{
    [Theory]
    [InlineData("elderberry", "EB")]
    [InlineData("Black bean", "BB")]
    [InlineData("weld", "WL")]
    [InlineData("blackthorn", "BT")]
    [InlineData("madder", "MD")]
    [InlineData("Wörter-baum", "WB")]
    [InlineData("oak 2", "OK")]
    public void A_plant_gets_letters_that_remind_of_it(string name, string letters) =>
        Assert.Equal(letters, Codes.LettersFor(name, new HashSet<string>()));

    [Theory]
    [InlineData("weld", "WL", "WD")]
    [InlineData("weld", "WL WD", "WE")]
    [InlineData("weld", "WL WD WE", "WA")]
    [InlineData("berry", "", "BR")]
    public void Taken_letters_go_on_to_the_next_sound_of_the_name(string name, string taken, string letters) =>
        Assert.Equal(letters, Codes.LettersFor(name, taken.Split(' ').ToHashSet()));

    [Fact]
    public void Letters_are_never_given_twice()
    {
        var taken = new HashSet<string>();
        for (var i = 0; i < 60; i++)
        {
            var letters = Codes.LettersFor("weld", taken);
            Assert.True(taken.Add(letters), $"{letters} was given twice.");
            Assert.StartsWith("W", letters, StringComparison.Ordinal);
            Assert.All(letters, sign => Assert.True(char.IsAsciiLetterUpper(sign) || char.IsAsciiDigit(sign), letters));
            Assert.True(i >= 26 || letters.Length == 2, letters);
        }
    }

    [Fact]
    public void Pots_count_on_within_a_plant_and_year()
    {
        var day = new DateOnly(2025, 9, 6);
        Assert.Equal("EB25-1", Codes.Pot("EB", day, new HashSet<string>()));
        Assert.Equal("EB25-3", Codes.Pot("EB", day, new HashSet<string> { "EB25-1", "EB25-2", "WL25-1" }));
        Assert.Equal("EB26-1", Codes.Pot("EB", day.AddYears(1), new HashSet<string> { "EB25-1" }));
    }

    [Theory]
    [InlineData(0, "A")]
    [InlineData(25, "Z")]
    [InlineData(26, "AA")]
    [InlineData(53, "BB")]
    public void Trials_are_lettered(int earlier, string letter) => Assert.Equal(letter, Codes.TrialLetter(earlier));

    [Theory]
    [InlineData("A3", 1, 1, "A3")]
    [InlineData("A3", 2, 1, "A3.2")]
    [InlineData("A3", 2, 0.25, "A3.2/4")]
    [InlineData("AB12", 1, 0.5, "AB12/2")]
    public void A_square_is_called_after_its_jar(string jar, int place, double wash, string code)
    {
        Assert.Equal(code, Codes.Square(jar, place, wash));
        Assert.True(Codes.IsSquareOf(jar, code.Split('/')[0]));
    }

    [Theory]
    [InlineData("A3", "A30")]
    [InlineData("A3", "A3.x")]
    [InlineData("A3", "B1")]
    [InlineData("A30", "A3")]
    public void Another_jars_square_is_not_taken_for_its_own(string jar, string cell) => Assert.False(Codes.IsSquareOf(jar, cell));

    [Fact]
    public void Cells_run_as_one_reads() => Assert.Equal(["A1", "B1", "A2", "B2", "A3", "B3"], Codes.Cells(2, 3));
}

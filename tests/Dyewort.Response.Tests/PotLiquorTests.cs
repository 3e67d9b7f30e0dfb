using Dyewort.Chemistry;

namespace Dyewort.Response.Tests;

/// <summary>What is believed of a pot's liquor, and that it is believed once.</summary>
public sealed class PotLiquorTests
{
    private static TrialPoint Jar(string pot, string sample, double? ph, Doses? doses = null) =>
        new()
        {
            Sample = sample,
            Plant = "elderberry",
            Pot = pot,
            Ph = ph,
            GramsPerLitre = doses ?? [],
        };

    [Fact]
    public void Before_any_test_the_table_of_plants_speaks()
    {
        var liquor = PotLiquor.Of("elderberry", []);
        var table = ExtractBuffer.OfPlant("elderberry");
        Assert.Equal((table.Kind.Ph, table.Kind.PhSpread, 0), (liquor.Ph, liquor.PhUncertainty, liquor.Notes));
        Assert.Equal(table.Words(), liquor.Buffer.Words());
        Assert.Equal(ExtractBuffer.OfPlant("no such plant").Kind.Ph, PotLiquor.Of("no such plant", []).Ph);
    }

    [Fact]
    public void A_note_moves_the_belief_and_makes_it_surer()
    {
        var before = PotLiquor.Of("elderberry", []);
        var after = PotLiquor.Of("elderberry", [new([], before.Ph + 0.6)]);
        Assert.InRange(after.Ph, before.Ph + 0.3, before.Ph + 0.6);
        Assert.True(after.PhUncertainty < before.PhUncertainty);
        Assert.Equal(1, after.Buffer.NoteCount);
        Assert.Equal(after.Ph, after.Buffer.Ph, 1e-6);

        // How far a little soda moves it says how firmly it is held.
        var firm = PotLiquor.Of("elderberry", [new([], before.Ph), new([new("bicarbonate of soda", 2)], before.Ph + 0.3)]);
        var weak = PotLiquor.Of("elderberry", [new([], before.Ph), new([new("bicarbonate of soda", 2)], before.Ph + 2.5)]);
        Assert.True(firm.AcidMolesPerLitre > 1.2 * weak.AcidMolesPerLitre);
    }

    [Fact]
    public void Each_pot_is_believed_by_its_own_notes_and_an_untested_one_by_those_of_its_sisters()
    {
        var usual = ExtractBuffer.OfPlant("elderberry").Kind.Ph;
        var (sour, mild) = (usual - 0.5, usual + 0.5);
        var book = PhBook.Of("elderberry", [Jar("a", "a1", sour), Jar("a", "a2", sour), Jar("b", "b1", mild), Jar("c", "c1", null)], []);
        Assert.InRange(book.LiquorOf("a").Ph, sour, usual - 0.2);
        Assert.Equal(1, book.LiquorOf("a").Notes);
        Assert.InRange(book.LiquorOf("b").Ph, usual + 0.2, mild);
        Assert.Equal(usual, book.LiquorOf("c").Ph, 0.1);
        Assert.Equal(2, book.LiquorOf("c").Notes);
        Assert.Same(book.LiquorOf("c"), book.LiquorOf(""));
    }

    [Fact]
    public void A_jar_and_its_pot_are_believed_alike_and_a_new_reading_counts_once()
    {
        Doses soda = [new("bicarbonate of soda", 2)];
        var book = PhBook.Of("elderberry", [Jar("a", "a1", 4), Jar("a", "a2", 4.8, soda)], ["bicarbonate of soda"]);
        Assert.Same(book.LiquorOf("a"), book.LiquorOf(Jar("a", "", 4.8, soda)));
        Assert.Same(book.LiquorOf("a"), book.LiquorOf(Jar("a", "", null)));
        Assert.Equal(3, book.LiquorOf(Jar("a", "", 5.1, soda)).Notes);
    }

    [Fact]
    public void What_pot_and_water_gave_is_kept_apart_from_the_liquor()
    {
        var book = PhBook.Of("elderberry", [Jar("a", "a1", 5)], []);
        var (plain, hard) = (book.LiquorOf("a"), book.LiquorOf("a", [new("chalk", 0.3)]));
        Assert.True(hard.Ph < plain.Ph - 0.02, $"{hard.Ph} should lie below {plain.Ph}: the chalk made up for the rest.");
        Assert.Same(plain, book.LiquorOf("a", []));
    }
}

using System.Globalization;
using Dyewort.Colour;
using Dyewort.Notebook;

namespace Dyewort.Web;

/// <summary>Figures and days as pages say them, the same on every machine.</summary>
public static class Words
{
    private static readonly CultureInfo Plain = CultureInfo.InvariantCulture;

    public static string Day(DateOnly day) => day.ToString("d MMM yyyy", Plain);

    public static string When(DateTimeOffset instant) => instant.ToLocalTime().ToString("d MMM yyyy, HH:mm", Plain);

    /// <summary>Figures worth saying: three significant ones, no trailing zeros.</summary>
    public static string Figure(double number, int significant = 3)
    {
        if (number == 0) return "0";
        var decimals = Math.Clamp(significant - 1 - (int)Math.Floor(Math.Log10(Math.Abs(number))), 0, 6);
        return Math.Round(number, decimals).ToString("0.######", Plain);
    }

    public static string Ml(double ml) => ml >= 1000 ? $"{Figure(ml / 1000)} L" : $"{Figure(ml)} ml";

    public static string Grams(double grams) => grams >= 1000 ? $"{Figure(grams / 1000)} kg" : $"{Figure(grams)} g";

    public static string Lab(Lab lab) => string.Create(Plain, $"L* {lab.L:0} a* {lab.A:0} b* {lab.B:0}").Replace('-', '−');

    public static string Kind(MaterialKind kind) => kind switch
    {
        MaterialKind.Plant => "Plants",
        MaterialKind.Addition => "Additions",
        MaterialKind.Liquid => "Liquids",
        MaterialKind.Paper => "Papers",
        MaterialKind.Binder => "Binders",
        MaterialKind.Preservative => "Keeping",
        _ => "Bottles and jars",
    };

    public static string Kind(LogKind kind) => kind switch
    {
        LogKind.Note => "Note",
        LogKind.Temperature => "Temperature",
        LogKind.Ph => "pH",
        LogKind.Strained => "Strained",
        LogKind.Reduced => "Boiled down",
        _ => "Poured away",
    };

    public static string State(SwatchState state) => state switch
    {
        SwatchState.Wet => "wet",
        SwatchState.Dry => "dry",
        SwatchState.Aged => "later",
        _ => "after light",
    };
}

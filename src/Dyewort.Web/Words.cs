using System.Globalization;
using Dyewort.Colour;
using Dyewort.Notebook;
using Dyewort.Quantities;

namespace Dyewort.Web;

/// <summary>Figures and days as pages say them, the same on every machine.</summary>
public static class Words
{
    private static readonly CultureInfo Plain = CultureInfo.InvariantCulture;
    private static readonly AsyncLocal<Teaspoon> Reader = new();

    /// <summary>Whose kitchen the page is read in: that of the settings, for the request that is being answered.</summary>
    public static Teaspoon Kitchen
    {
        get => Reader.Value;
        set => Reader.Value = value;
    }

    public static string Day(DateOnly day) => day.ToString("d MMM yyyy", Plain);

    public static string Day(DateOnly? day) => day is { } known ? Day(known) : "day not known";

    public static string When(DateTimeOffset instant) => instant.ToLocalTime().ToString("d MMM yyyy, HH:mm", Plain);

    /// <summary>What a pH was read with: "by meter"; empty where nobody said.</summary>
    public static string By(PhTool? tool) =>
        tool switch
        {
            PhTool.Strip => "by strip",
            PhTool.Meter => "by meter",
            PhTool.Guess => "guessed",
            _ => "",
        };

    /// <summary>A volume, in a US or imperial kitchen with its measures too: “1.42 L (6 US cups)”.</summary>
    public static string Ml(double ml)
    {
        var metric = Volume.Say(ml);
        if (Kitchen is Teaspoon.Metric || ml < 1)
            return metric;
        var us = Kitchen is Teaspoon.UsCustomary;
        var unit = ml switch
        {
            < 14.5 => AmountUnit.Teaspoon,
            < 200 => AmountUnit.FluidOunce,
            < 3500 => us ? AmountUnit.Cup : AmountUnit.Pint,
            _ => AmountUnit.Gallon,
        };
        return $"{metric} ({Measure(ml / KitchenMeasures.Millilitres(unit, Kitchen)!.Value, unit)})";
    }

    /// <summary>A weight, in a US or imperial kitchen with ounces or pounds too; less than an ounce is weighed in grams anywhere.</summary>
    public static string Grams(double grams)
    {
        var metric = grams >= 1000 ? $"{Figures.Say(grams / 1000)} kg" : $"{Figures.Say(grams)} g";
        if (Kitchen is Teaspoon.Metric || grams < 28)
            return metric;
        var unit = grams < 900 ? AmountUnit.Ounce : AmountUnit.Pound;
        return $"{metric} ({Measure(grams / KitchenMeasures.Grams(unit)!.Value, unit)})";
    }

    /// <summary>A temperature, in a US kitchen in Fahrenheit too.</summary>
    public static string Celsius(double celsius) =>
        Kitchen is Teaspoon.UsCustomary
            ? $"{Figures.Say(celsius)} °C ({((celsius * 1.8) + 32).ToString("0", Plain)} °F)"
            : $"{Figures.Say(celsius)} °C";

    /// <summary>An amount as it was said, with its kitchen where that is another today: “½ metric tsp”.</summary>
    public static string Amount(MeasuredAmount amount)
    {
        ArgumentNullException.ThrowIfNull(amount);
        return amount.ToAmount().TextIn(Kitchen);
    }

    /// <summary>A figure with what was typed for it, where that says more: “400 g, said as 14 oz”.</summary>
    public static string Said(string figure, string? said) => said is null ? figure : $"{figure}, said as “{said}”";

    // The kitchen is the maker's own, so that a cup needs no "US" before it.
    private static string Measure(double number, AmountUnit unit) =>
        Quantities
            .Amount.Of(Math.Abs((Math.Round(number * 4) / 4) - number) < 0.01 * number ? Math.Round(number * 4) / 4 : Rounded(number), unit)
            .ToString();

    private static double Rounded(double number) => double.Parse(Figures.Say(number), Plain);

    public static string Lab(Lab lab) => $"L* {Whole(lab.L)} a* {Whole(lab.A)} b* {Whole(lab.B)}";

    /// <summary>A name at the start of a sentence.</summary>
    public static string Capital(string name) => name.Length == 0 ? name : char.ToUpperInvariant(name[0]) + name[1..];

    /// <summary>A figure's source as a page says it; the page, book or person it was seen at stands in the room's table.</summary>
    public static string Source(string source)
    {
        ArgumentNullException.ThrowIfNull(source);
        if (source.Contains("common practice", StringComparison.OrdinalIgnoreCase))
            return "common practice, no source";
        if (source.Contains("from memory", StringComparison.OrdinalIgnoreCase))
            return "from memory";
        return "makers' pages read";
    }

    private static string Whole(double number) =>
        Math.Round(number) is var whole && whole < 0
            ? $"−{(-whole).ToString("0", Plain)}"
            : Math.Abs(Math.Round(number)).ToString("0", Plain);

    /// <summary>Level teaspoons as a hand counts them: to the nearest eighth where that is honest, else as a decimal.</summary>
    public static string Teaspoons(double spoons)
    {
        if (spoons < 0.11)
            return $"less than ⅛ level teaspoon ({Figures.Say(spoons, 2)})";
        var eighths = Math.Round(spoons * 8) / 8;
        var number = eighths > 0 && Math.Abs(eighths - spoons) < 0.01 * eighths ? Figures.SayFraction(eighths) : Figures.Say(spoons, 2);
        return $"{number} level {(spoons > 1.001 ? "teaspoons" : "teaspoon")}";
    }

    /// <summary>Hours as people count them: days and weeks where there are many.</summary>
    public static string Hours(double hours) =>
        hours switch
        {
            < 48 => $"{Figures.Say(hours)} hours",
            < 24 * 21 => $"{Figures.Say(hours / 24, 2)} days",
            _ => $"{Figures.Say(hours / 168, 2)} weeks",
        };

    public static string Kind(MaterialKind kind) =>
        kind switch
        {
            MaterialKind.Plant => "Plants",
            MaterialKind.Addition => "Additions",
            MaterialKind.Liquid => "Liquids",
            MaterialKind.Paper => "Papers",
            MaterialKind.Binder => "Binders",
            MaterialKind.Preservative => "Keeping",
            _ => "Bottles and jars",
        };

    public static string Kind(Readings.PaperKind kind) =>
        kind switch
        {
            Readings.PaperKind.Natural => "watercolour, drawing or cotton paper",
            Readings.PaperKind.Bright => "whitened printer or office paper",
            Readings.PaperKind.Cream => "cream, handmade or old paper",
            _ => "brown or unbleached paper",
        };

    public static string Kind(TrialKind kind) =>
        kind switch
        {
            TrialKind.Singles => "One addition each",
            TrialKind.Ladder => "One addition in rising doses",
            TrialKind.Pairs => "Pairs of additions",
            _ => "As I like",
        };

    public static string Kind(LogKind kind) =>
        kind switch
        {
            LogKind.Note => "Note",
            LogKind.Temperature => "Temperature",
            LogKind.Ph => "pH",
            LogKind.Strained => "Strained",
            LogKind.Reduced => "Boiled down",
            LogKind.ToppedUp => "Topped up",
            LogKind.FoamedOver => "Foamed over",
            _ => "Poured away",
        };

    /// <summary>What happened until a swatch was in a state.</summary>
    public static string Became(SwatchState state) =>
        state switch
        {
            SwatchState.Wet => "when wet",
            SwatchState.Dry => "dried",
            SwatchState.Aged => "later",
            _ => "in the light",
        };

    public static string State(SwatchState state) =>
        state switch
        {
            SwatchState.Wet => "wet",
            SwatchState.Dry => "dry",
            SwatchState.Aged => "later",
            _ => "after light",
        };
}

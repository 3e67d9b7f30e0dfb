using System.Globalization;
using Dyewort.Colour;
using Microsoft.EntityFrameworkCore.Storage.ValueConversion;

namespace Dyewort.Store;

/// <summary>An instant as text in UTC that sorts as time does and that a person can read in any database tool.</summary>
public sealed class InstantAsText()
    : ValueConverter<DateTimeOffset, string>(
        instant => instant.ToUniversalTime().ToString("yyyy-MM-dd'T'HH:mm:ss.fffffff'Z'", CultureInfo.InvariantCulture),
        text => DateTimeOffset.Parse(text, CultureInfo.InvariantCulture, DateTimeStyles.AssumeUniversal)
    );

/// <summary>A colour as its three tristimulus values in one column, "X Y Z" (D65, 2° observer, Y = 100), every digit kept.</summary>
public sealed class XyzAsText() : ValueConverter<Xyz, string>(colour => Write(colour), text => Read(text))
{
    private static string Write(Xyz colour) => string.Create(CultureInfo.InvariantCulture, $"{colour.X:R} {colour.Y:R} {colour.Z:R}");

    private static Xyz Read(string text)
    {
        var parts = text.Split(' ');
        return new(Number(parts[0]), Number(parts[1]), Number(parts[2]));
    }

    private static double Number(string text) => double.Parse(text, CultureInfo.InvariantCulture);
}

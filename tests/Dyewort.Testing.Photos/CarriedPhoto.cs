using System.Globalization;

namespace Dyewort.Testing.Photos;

/// <summary>A real photo or scan of a card whose patches' colours the card's maker published; Files/README.md says where it is
/// from.</summary>
/// <param name="Path">The picture's file.</param>
/// <param name="Patches">Row by row: CIELAB of D50 (2°), and the four corners of the safe middle in pixels, clockwise or the other way
/// round.</param>
public sealed record CarriedPhoto(string Path, IReadOnlyList<(double[] LabD50, (double X, double Y)[] Corners)> Patches)
{
    public static CarriedPhoto Of(string name)
    {
        var folder = Repository.PathOf("tests", "Dyewort.Testing.Photos", "Files");
        return new(
            System.IO.Path.Combine(folder, name + ".jpg"),
            [
                .. File.ReadLines(System.IO.Path.Combine(folder, name + ".csv"))
                    .Skip(1)
                    .Select(line => line.Split(',').Select(cell => double.Parse(cell, CultureInfo.InvariantCulture)).ToArray())
                    .Select(row => (row[1..4], Enumerable.Range(0, 4).Select(i => (row[4 + (2 * i)], row[5 + (2 * i)])).ToArray())),
            ]
        );
    }
}

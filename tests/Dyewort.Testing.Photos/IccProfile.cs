using System.Buffers.Binary;
using System.Text;

namespace Dyewort.Testing.Photos;

/// <summary>A colour space of red, green and blue: where its three lights lie, and its curve.</summary>
/// <param name="Name">What the profile calls itself.</param>
/// <param name="Red">XYZ of full red, adapted to D50.</param>
/// <param name="Green">XYZ of full green, adapted to D50.</param>
/// <param name="Blue">XYZ of full blue, adapted to D50.</param>
/// <param name="Gamma">The exponent of its curve.</param>
public sealed record IccProfile(string Name, double[] Red, double[] Green, double[] Blue, double Gamma)
{
    /// <summary>sRGB's lights; its curve is not a power, so this one serves for conversions only.</summary>
    public static readonly IccProfile SrgbLights = new(
        "sRGB lights",
        [0.43607, 0.22249, 0.01392],
        [0.38515, 0.71687, 0.09708],
        [0.14307, 0.06061, 0.71410],
        1
    );

    /// <summary>The lights of the DCI-P3 cinema set under D65, with the exponent 2.2.</summary>
    public static readonly IccProfile Wide = new(
        "Wide",
        [0.51512, 0.24120, -0.00105],
        [0.29198, 0.69225, 0.04189],
        [0.15710, 0.06657, 0.78407],
        2.2
    );

    /// <summary>A green as far out as print needs it, exponent 563/256.</summary>
    public static readonly IccProfile Wider = new(
        "Wider",
        [0.60974, 0.31111, 0.01947],
        [0.20528, 0.62567, 0.06087],
        [0.14919, 0.06322, 0.74457],
        563 / 256.0
    );

    /// <summary>Lights outside of what is visible, exponent 1.8 (ISO 22028-2).</summary>
    public static readonly IccProfile Widest = new(
        "Widest",
        [0.79767, 0.28804, 0.00000],
        [0.13519, 0.71188, 0.00000],
        [0.03134, 0.00009, 0.82491],
        1.8
    );

    /// <summary>The profile as bytes: ICC.1, version 2, a display of matrix and curves.</summary>
    /// <param name="padding">Bytes of a tag that nobody knows, for profiles of any size.</param>
    public byte[] Bytes(int padding = 0)
    {
        var tags = new List<(string Name, byte[] Data)>
        {
            ("desc", [.. "desc\0\0\0\0"u8, .. Number(Name.Length + 1), .. Encoding.ASCII.GetBytes(Name), 0, .. new byte[78]]),
            ("cprt", [.. "text\0\0\0\0"u8, .. "none\0"u8]),
            ("wtpt", Xyz([0.9642, 1, 0.8249])),
            ("rXYZ", Xyz(Red)),
            ("gXYZ", Xyz(Green)),
            ("bXYZ", Xyz(Blue)),
        };
        byte[] curve = [.. "curv\0\0\0\0"u8, .. Number(1), .. Short((ushort)Math.Round(Gamma * 256))];
        foreach (var name in new[] { "rTRC", "gTRC", "bTRC" })
            tags.Add((name, curve));
        if (padding > 0)
            tags.Add(("pad ", [.. "data\0\0\0\0"u8, .. Number(0), .. Enumerable.Range(0, padding).Select(i => (byte)(i * 31))]));
        using var table = new MemoryStream();
        using var body = new MemoryStream();
        var start = 128 + 4 + (12 * tags.Count);
        table.Write(Number(tags.Count));
        foreach (var (name, data) in tags)
        {
            table.Write(Encoding.ASCII.GetBytes(name));
            table.Write(Number(start + (int)body.Length));
            table.Write(Number(data.Length));
            body.Write(data);
            while (body.Length % 4 != 0)
                body.WriteByte(0);
        }

        byte[] head =
        [
            .. Number(start + (int)body.Length),
            .. new byte[4],
            2,
            0x20,
            0,
            0,
            .. "mntrRGB XYZ "u8,
            .. new byte[12],
            .. "acsp"u8,
            .. new byte[28],
            .. Fixed(0.9642),
            .. Fixed(1),
            .. Fixed(0.8249),
            .. new byte[48],
        ];
        return [.. head, .. table.ToArray(), .. body.ToArray()];
    }

    /// <summary>A colour of sRGB (0 to 1, encoded) as this space writes it.</summary>
    public double[] FromSrgb(double r, double g, double b)
    {
        double[] light = [Rgb.ToLight(r), Rgb.ToLight(g), Rgb.ToLight(b)];
        var xyz = new double[3];
        for (var k = 0; k < 3; k++)
            xyz[k] = (SrgbLights.Red[k] * light[0]) + (SrgbLights.Green[k] * light[1]) + (SrgbLights.Blue[k] * light[2]);
        return [.. Solve(xyz).Select(one => Math.Pow(Math.Clamp(one, 0, 1), 1 / Gamma))];
    }

    // Cramer's rule for the three lights.
    private double[] Solve(double[] xyz)
    {
        var whole = Determinant(Red, Green, Blue);
        return [Determinant(xyz, Green, Blue) / whole, Determinant(Red, xyz, Blue) / whole, Determinant(Red, Green, xyz) / whole];
    }

    private static double Determinant(double[] a, double[] b, double[] c) =>
        (a[0] * ((b[1] * c[2]) - (b[2] * c[1]))) - (b[0] * ((a[1] * c[2]) - (a[2] * c[1]))) + (c[0] * ((a[1] * b[2]) - (a[2] * b[1])));

    private static byte[] Xyz(double[] xyz) => [.. "XYZ \0\0\0\0"u8, .. Fixed(xyz[0]), .. Fixed(xyz[1]), .. Fixed(xyz[2])];

    private static byte[] Fixed(double value) => Number((int)Math.Round(value * 65536));

    private static byte[] Short(ushort value) => [(byte)(value >> 8), (byte)value];

    private static byte[] Number(int value)
    {
        var bytes = new byte[4];
        BinaryPrimitives.WriteInt32BigEndian(bytes, value);
        return bytes;
    }
}

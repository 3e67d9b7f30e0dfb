using System.Globalization;
using Dyewort.Imaging;

namespace Dyewort.Workshop;

/// <summary>How photos are named on the shelf.</summary>
internal static class PhotoNames
{
    /// <summary>A file's ending by what is in it, whatever it was called when it came.</summary>
    public static string Extension(PictureKind kind) =>
        kind switch
        {
            PictureKind.Jpeg => "jpg",
            PictureKind.Heif => "heic",
            _ => kind.ToString().ToLower(CultureInfo.InvariantCulture),
        };
}

namespace Dyewort.Testing;

/// <summary>Where the checkout lies, and what may lie beside it.</summary>
public static class Repository
{
    /// <summary>The folder that holds Dyewort.slnx, found upwards from the test's own folder.</summary>
    public static string Root { get; } = Find();

    /// <summary>The path of a file or folder of the checkout.</summary>
    public static string PathOf(params string[] parts) => Path.Combine([Root, .. parts]);

    /// <summary>Test material that may not be copied into the project (licences), in a folder named "shared" beside the checkout.</summary>
    /// <returns>The path, or null where this machine does not have it: skip the test, with that reason.</returns>
    public static string? Shared(params string[] parts)
    {
        var path = Path.Combine([Path.GetDirectoryName(Root)!, "shared", .. parts]);
        return Path.Exists(path) ? path : null;
    }

    private static string Find()
    {
        for (var folder = new DirectoryInfo(AppContext.BaseDirectory); folder is not null; folder = folder.Parent)
        {
            if (File.Exists(Path.Combine(folder.FullName, "Dyewort.slnx")))
                return folder.FullName;
        }

        throw new DirectoryNotFoundException("Tests must run from within a checkout of the project.");
    }
}

using System.Net.NetworkInformation;
using System.Net.Sockets;
using Microsoft.AspNetCore.Http;

namespace Dyewort.Web;

/// <summary>Addresses that printed codes point to.</summary>
public static class Address
{
    /// <summary>A page's whole address: as the maker set it, else one that a phone of the house can reach, else as the browser came.</summary>
    public static Uri Of(HttpRequest request, WebOptions options, string path)
    {
        if (options.PublicAddress is { } given)
            return new Uri(given, path);
        var host = request.Host.Host;
        if (options.House && host is "localhost" or "127.0.0.1" or "[::1]" && OfThisMachine().FirstOrDefault() is { } address)
            host = address;
        return new UriBuilder(request.Scheme, host.Trim('[', ']'), request.Host.Port ?? 80, path).Uri;
    }

    /// <summary>This machine's addresses in the house, as text.</summary>
    public static IEnumerable<string> OfThisMachine() =>
        NetworkInterface
            .GetAllNetworkInterfaces()
            .Where(one => one.OperationalStatus == OperationalStatus.Up && one.NetworkInterfaceType != NetworkInterfaceType.Loopback)
            .SelectMany(one => one.GetIPProperties().UnicastAddresses)
            .Where(one => one.Address.AddressFamily == AddressFamily.InterNetwork)
            .Select(one => one.Address.ToString());
}

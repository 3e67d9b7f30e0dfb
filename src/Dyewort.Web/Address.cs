using System.Net.NetworkInformation;
using System.Net.Sockets;
using Dyewort.Workshop;
using Dyewort.Workshop.Bench;
using Microsoft.AspNetCore.Http;

namespace Dyewort.Web;

/// <summary>Where the notebook's things are shown, and the whole addresses that printed codes point to.</summary>
public static class Address
{
    /// <summary>The path of a thing's page.</summary>
    public static string Of(Thing thing)
    {
        ArgumentNullException.ThrowIfNull(thing);
        return thing.Kind switch
        {
            ThingKind.Lot => $"/lots/{thing.Code}",
            ThingKind.Pot => $"/pots/{thing.Code}",
            ThingKind.Trial => $"/pots/{thing.Code}/trials/{thing.Part}",
            ThingKind.Jar => $"/pots/{thing.Code}/jars/{thing.Part}",
            ThingKind.Chart => $"/charts/{thing.Code}",
            ThingKind.Swatch => $"/charts/{thing.Code}#{thing.Part}",
            ThingKind.Recipe => $"/recipes/{thing.Code}",
            ThingKind.Batch => $"/batches/{thing.Code}",
            ThingKind.Bottle => $"/b/{thing.Code}",
            ThingKind.Material => $"/pantry/{thing.Code}",
            ThingKind.LogLine => $"/pots/{thing.Code}/log/{thing.Part}",
            ThingKind.Timer => $"/pots/{thing.Code}/timers/{thing.Part}",
            ThingKind.Drop => $"/pots/{thing.Code}/drops/{thing.Part}",
            ThingKind.Strip => $"/strips/{thing.Code}",
            ThingKind.Recipes => "/recipes",
            ThingKind.Batches => "/batches",
            ThingKind.Bottles => thing.Code.Length > 0 ? $"/batches/{thing.Code}#bottles" : "/bottles",
            _ => throw new ArgumentOutOfRangeException(nameof(thing), thing.Kind, "No page shows this."),
        };
    }

    /// <summary>The path of the page where a step that waits is done.</summary>
    public static string Of(WhatIsNextStep step)
    {
        ArgumentNullException.ThrowIfNull(step);
        return step.Deed switch
        {
            NextDeed.Split => $"{Of(step.On)}/trials/new",
            NextDeed.PrintSheet => $"{Of(step.On)}/sheet",
            NextDeed.SendPhoto => $"{Of(step.On)}#send",
            _ => Of(step.On),
        };
    }

    /// <summary>A page's whole address: as the maker set it, else one that a phone of the house can reach, else as the browser
    /// came.</summary>
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

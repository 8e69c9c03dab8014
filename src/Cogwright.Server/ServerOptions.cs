using Cogwright.Parts;
using Cogwright.Storage;

namespace Cogwright.Server;

/// <summary>How a server is set up.</summary>
/// <param name="Store">The shop's data; the server's keys lie beside them in <c>keys</c>.</param>
internal sealed record ServerOptions(StoreOptions Store)
{
    /// <summary>The port at which a fresh install answers on this machine.</summary>
    internal const int UsualPort = 5177;

    /// <summary>The port at which the shop's other devices reach it.</summary>
    internal const int UsualShopPort = 5178;

    /// <summary>The port on loopback; 0: any free one; null: the usual one, or the next free of a few.</summary>
    internal int? Port { get; init; }

    /// <summary>Whether other devices may reach it, over HTTPS.</summary>
    internal bool IsOpenToShop { get; init; }

    /// <summary>The port for other devices; 0: any free one.</summary>
    internal int ShopPort { get; init; } = UsualShopPort;

    /// <summary>Names and addresses by which devices reach this machine, beside those that it knows itself.</summary>
    internal IReadOnlyList<string> ShopNames { get; init; } = [];

    /// <summary>The shop's own certificate, PEM with its chain; null: one is made.</summary>
    internal string? CertificateFile { get; init; }

    /// <summary>The key of the shop's own certificate, PEM.</summary>
    internal string? CertificateKeyFile { get; init; }

    /// <summary>Requests that one address may make in a minute; ten seconds' worth may come at once.</summary>
    internal int RequestsPerMinute { get; init; } = 1800;

    /// <summary>How long a log-in lasts.</summary>
    internal TimeSpan SessionLife { get; init; } = TimeSpan.FromHours(12);

    /// <summary>How long a trusted device stays one.</summary>
    internal TimeSpan TrustedDeviceLife { get; init; } = TimeSpan.FromDays(90);

    /// <summary>How long a person who gave a PIN stays at the tablet without giving it again.</summary>
    internal TimeSpan PersonLife { get; init; } = TimeSpan.FromMinutes(30);

    /// <summary>The parts of the demo workshop, with which a new shop begins.</summary>
    internal Func<IReadOnlyCollection<Part>> DemoParts { get; init; } =
        () => Files.DemoParts.Library.Parts;

    /// <summary>For tests: lets a request pretend to come from another machine.</summary>
    internal Action<HttpContext>? Pretend { get; init; }

    /// <summary>For tests: no console of its own.</summary>
    internal bool IsSilent { get; init; }

    internal TimeProvider Clock => Store.Clock;

    internal string KeyFolder => Path.Combine(Store.DataFolder, "keys");
}

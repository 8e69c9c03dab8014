using System.ComponentModel;
using Spectre.Console.Cli;

namespace Cogwright.Server;

/// <summary>The command line of the server.</summary>
internal sealed class ServeSettings : CommandSettings
{
    [CommandOption("--data <FOLDER>")]
    [Description("The folder of the shop's data; made if it is not there. Usual: shop-data")]
    [DefaultValue("shop-data")]
    public string Data { get; init; } = "shop-data";

    [CommandOption("--port <PORT>")]
    [Description("The port on this machine; 0: any free one. Usual: 5177, or the next free one")]
    public int? Port { get; init; }

    [CommandOption("--shop")]
    [Description("Lets the shop's other devices in, over HTTPS")]
    public bool Shop { get; init; }

    [CommandOption("--shop-port <PORT>")]
    [Description("The port for other devices")]
    [DefaultValue(ServerOptions.UsualShopPort)]
    public int ShopPort { get; init; } = ServerOptions.UsualShopPort;

    [CommandOption("--shop-name <NAME>")]
    [Description("A further name or address of this machine; may be given several times")]
    public string[] ShopNames { get; init; } = [];

    [CommandOption("--certificate <FILE>")]
    [Description("The shop's own certificate with its chain, PEM")]
    public string? Certificate { get; init; }

    [CommandOption("--certificate-key <FILE>")]
    [Description("The key of the shop's own certificate, PEM; usual: in the same file")]
    public string? CertificateKey { get; init; }

    [CommandOption("--requests-per-minute <NUMBER>")]
    [Description("How many requests one address may make in a minute")]
    [DefaultValue(1800)]
    public int RequestsPerMinute { get; init; } = 1800;

    [CommandOption("--new-password <USER-NAME>")]
    [Description(
        "Sets the password of that account, read from standard input, ends its sessions, and stops: for an owner who lost it. The server must not be running on the same folder"
    )]
    public string? NewPasswordFor { get; init; }

    /// <summary>
    /// The connection string of PostgreSQL: from the environment, because a command line is for everybody on the machine to see.
    /// </summary>
    internal const string PostgresVariable = "COGWRIGHT_POSTGRES";
}

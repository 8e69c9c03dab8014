namespace Cogwright.Architecture.Tests;

/// <summary>
/// One room of the product and what it may see (docs/decisions/0001). A room that is not listed here
/// fails a test, so a new one cannot come in without its arrows.
/// </summary>
/// <param name="Name">The project's name, and the root of its namespaces.</param>
/// <param name="IsPure">It touches no file, clock, network or random source, and runs in a browser.</param>
/// <param name="MaySee">The rooms it may refer to.</param>
/// <param name="MayUse">The packages it may refer to, by the names of their assemblies.</param>
public sealed record Room(string Name, bool IsPure, string[] MaySee, string[] MayUse)
{
    private const string Drivetrain = "Cogwright.Drivetrain";
    private const string Measurement = "Cogwright.Measurement";
    private const string Fastening = "Cogwright.Fastening";
    private const string Care = "Cogwright.Care";
    private const string Log = "Cogwright.Log";
    private const string Gearing = "Cogwright.Gearing";
    private const string Parts = "Cogwright.Parts";
    private const string Setup = "Cogwright.Setup";
    private const string Drawing = "Cogwright.Drawing";
    private const string Files = "Cogwright.Files";
    private const string Facts = "Cogwright.Facts";
    private const string Paper = "Cogwright.Paper";

    /// <summary>Every room.</summary>
    public static IReadOnlyList<Room> All { get; } =
    [
        new(Drivetrain, true, [], []),
        new(Measurement, true, [], []),
        new(Fastening, true, [Measurement], []),
        new(Care, true, [Measurement], []),
        new(Log, true, [], []),
        new(Gearing, true, [], []),
        new(Parts, true, [Drivetrain], []),
        new(Setup, true, [Drivetrain, Measurement, Fastening, Parts], []),
        new(Drawing, true, [Drivetrain, Gearing], []),
        new(
            Files,
            true,
            [Drivetrain, Measurement, Fastening, Care, Gearing, Parts, Setup],
            ["Sep", "YamlDotNet"]
        ),
        new(Facts, true, [Log, Drivetrain, Measurement, Care, Parts, Setup, Files], []),
        new(
            Paper,
            false,
            [Drivetrain, Measurement, Fastening, Setup, Drawing],
            ["PdfSharp", "PdfSharp.System", "PdfSharp.Shared", "QRCoder", "SkiaSharp"]
        ),
        new(
            "Cogwright.Storage",
            false,
            [Log, Drivetrain, Parts],
            [
                "Microsoft.AspNetCore.Identity.EntityFrameworkCore",
                "Microsoft.Data.Sqlite",
                "Microsoft.EntityFrameworkCore",
                "Microsoft.EntityFrameworkCore.Abstractions",
                "Microsoft.EntityFrameworkCore.Relational",
                "Microsoft.EntityFrameworkCore.Sqlite",
                "Microsoft.Extensions.Identity.Core",
                "Microsoft.Extensions.Identity.Stores",
                "Npgsql",
                "Npgsql.EntityFrameworkCore.PostgreSQL",
            ]
        ),
        new(
            "Cogwright.Web",
            false,
            [
                Drivetrain,
                Measurement,
                Fastening,
                Care,
                Log,
                Gearing,
                Parts,
                Setup,
                Drawing,
                Files,
                Facts,
            ],
            [
                "Microsoft.AspNetCore.Components",
                "Microsoft.AspNetCore.Components.Forms",
                "Microsoft.AspNetCore.Components.Web",
                "Microsoft.AspNetCore.Components.WebAssembly",
                "Microsoft.Extensions.DependencyInjection",
                "Microsoft.Extensions.DependencyInjection.Abstractions",
                "Microsoft.Extensions.Logging",
                "Microsoft.Extensions.Logging.Abstractions",
                "Microsoft.JSInterop",
                "Microsoft.JSInterop.WebAssembly",
            ]
        ),
        new(
            "Cogwright.Server",
            false,
            // Of the web client it serves the files and runs nothing.
            [
                Log,
                Drivetrain,
                Parts,
                Care,
                Setup,
                Files,
                Facts,
                Paper,
                "Cogwright.Storage",
                "Cogwright.Web",
            ],
            [
                "Microsoft.AspNetCore",
                "Microsoft.AspNetCore.Hosting.Abstractions",
                "Microsoft.AspNetCore.Hosting.Server.Abstractions",
                "Microsoft.AspNetCore.Http.Abstractions",
                "Microsoft.AspNetCore.Http.Extensions",
                "Microsoft.AspNetCore.Http.Features",
                "Microsoft.AspNetCore.Http.Results",
                "Microsoft.AspNetCore.Identity.EntityFrameworkCore",
                "Microsoft.AspNetCore.Mvc.Abstractions",
                "Microsoft.AspNetCore.Mvc.Core",
                "Microsoft.AspNetCore.OpenApi",
                "Microsoft.AspNetCore.Routing",
                "Microsoft.AspNetCore.Server.Kestrel",
                "Microsoft.AspNetCore.Server.Kestrel.Core",
                "Microsoft.AspNetCore.StaticAssets",
                "Microsoft.AspNetCore.StaticFiles",
                "Microsoft.EntityFrameworkCore",
                "Microsoft.Extensions.DependencyInjection.Abstractions",
                "Microsoft.Extensions.Features",
                "Microsoft.Extensions.Hosting",
                "Microsoft.Extensions.Hosting.Abstractions",
                "Microsoft.Extensions.Identity.Core",
                "Microsoft.Extensions.Identity.Stores",
                "Microsoft.Extensions.Logging",
                "Microsoft.Extensions.Logging.Abstractions",
                "Microsoft.Extensions.Logging.Console",
                "Microsoft.Extensions.Options",
                "Microsoft.Extensions.Primitives",
                "Microsoft.Net.Http.Headers",
                "Microsoft.OpenApi",
                "Scalar.AspNetCore",
                "Spectre.Console.Cli",
            ]
        ),
        new(
            "Cogwright.Cli",
            false,
            [
                Drivetrain,
                Measurement,
                Fastening,
                Care,
                Log,
                Gearing,
                Parts,
                Setup,
                Drawing,
                Files,
                Facts,
                Paper,
            ],
            ["Spectre.Console", "Spectre.Console.Ansi", "Spectre.Console.Cli", "UnitsNet"]
        ),
    ];

    /// <summary>The names of all rooms, one test case each.</summary>
    public static TheoryData<string> Names => [.. All.Select(room => room.Name)];

    /// <summary>The names of the pure rooms, one test case each.</summary>
    public static TheoryData<string> PureNames =>
        [.. All.Where(room => room.IsPure).Select(room => room.Name)];

    /// <summary>The room with that name.</summary>
    public static Room Named(string name) => All.Single(room => room.Name == name);

    /// <summary>The folder of its sources.</summary>
    public string Folder => Path.Combine(SourceTree.Root, "src", Name);

    /// <summary>The name of its assembly; the command line's is the command's.</summary>
    public string AssemblyName => Name == "Cogwright.Cli" ? "cogwright" : Name;
}

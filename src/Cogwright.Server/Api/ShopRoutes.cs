using System.Globalization;
using Cogwright.Storage;

namespace Cogwright.Server;

/// <summary>The shop's data as a whole: backup, export, check.</summary>
internal static class ShopRoutes
{
    internal static void MapShop(this IEndpointRouteBuilder api)
    {
        var shop = api.MapGroup("").WithTags("The shop's data");
        shop.MapPost("/backups", BackUpAsync)
            .WithSummary(
                "Makes a backup in the data folder's \"backups\" while everything goes on."
            );
        shop.MapPost("/exports", ExportAsync)
            .WithSummary("Writes everything as open files in the data folder's \"exports\".");
        shop.MapPost("/checks", CheckAsync)
            .WithSummary(
                "Checks everything that is here, signatures included. Takes as long as reading it all."
            );
    }

    private static async Task<BackupAnswer> BackUpAsync(
        ShopStore store,
        ServerOptions options,
        CancellationToken cancellation
    )
    {
        var folder = NewFolder(options, "backups");
        var made = await store.BackupAsync(folder, cancellation);
        return new BackupAnswer(folder, made.Sha256, made.Counts.Logs, made.Counts.Entries);
    }

    private static async Task<ExportAnswer> ExportAsync(
        ShopStore store,
        ServerOptions options,
        CancellationToken cancellation
    )
    {
        var made = await store.ExportAsync(NewFolder(options, "exports"), cancellation);
        return new ExportAnswer(made.Folder, made.Counts.Logs, made.Counts.Entries);
    }

    private static async Task<CheckAnswer> CheckAsync(
        ShopStore store,
        StatementKey key,
        CancellationToken cancellation
    )
    {
        var report = await store.CheckAsync(key, cancellation);
        return new CheckAnswer(
            report.IsSound,
            report.Logs,
            report.Entries,
            report.Statements,
            report.Personal,
            report.Parts,
            [
                .. report.Findings.Select(finding => new FindingAnswer(
                    finding.Severity == CheckSeverity.Damage ? "damage" : "note",
                    finding.Log?.Value,
                    finding.Text
                )),
            ]
        );
    }

    // The caller never says where: a folder of the machine is no business of a browser.
    private static string NewFolder(ServerOptions options, string kind)
    {
        var parent = Path.Combine(options.Store.DataFolder, kind);
        KeyFile.MakeFolder(parent);
        var name = options
            .Clock.GetUtcNow()
            .ToString("yyyy-MM-dd'T'HHmmss.fff'Z'", CultureInfo.InvariantCulture);
        return Path.Combine(parent, name);
    }
}

/// <summary>A backup that was made.</summary>
/// <param name="Folder">Where, on the server.</param>
/// <param name="Sha256">Of its data file.</param>
/// <param name="Jobs">How many jobs it holds.</param>
/// <param name="Entries">How many entries.</param>
internal sealed record BackupAnswer(string Folder, string Sha256, long Jobs, long Entries);

/// <summary>An export that was written.</summary>
/// <param name="Folder">Where, on the server.</param>
/// <param name="Jobs">How many jobs it holds.</param>
/// <param name="Entries">How many entries.</param>
internal sealed record ExportAnswer(string Folder, long Jobs, long Entries);

/// <summary>What a check found.</summary>
/// <param name="IsSound">Whether nothing is damaged or missing.</param>
/// <param name="Jobs">How many jobs it has read.</param>
/// <param name="Entries">How many entries.</param>
/// <param name="Statements">How many signed statements.</param>
/// <param name="Personal">How many personal data.</param>
/// <param name="Parts">How many parts of the library.</param>
/// <param name="Findings">What it found.</param>
internal sealed record CheckAnswer(
    bool IsSound,
    long Jobs,
    long Entries,
    long Statements,
    long Personal,
    long Parts,
    IReadOnlyList<FindingAnswer> Findings
);

/// <summary>One thing that a check found.</summary>
/// <param name="Severity">"note" or "damage".</param>
/// <param name="Job">The job; null: the database as a whole.</param>
/// <param name="Text">What, where, what to do next.</param>
internal sealed record FindingAnswer(string Severity, Guid? Job, string Text);

using System.Collections.Immutable;
using System.Data.Common;
using Cogwright.Log;
using Cogwright.Parts;

namespace Cogwright.Storage;

/// <summary>
/// The shop's data: logs of entries, personal data beside them, accounts. In SQLite one process owns the data folder; in
/// PostgreSQL any number of servers share one database and see each other's entries. All members may be called from many
/// threads at once. Every failure is a <see cref="StoreFaultException"/> that says what, where, and what to do.
/// </summary>
public sealed partial class ShopStore : IAsyncDisposable
{
    private const int MostTypeCharacters = 128;

    private readonly StoreOptions options;
    private readonly ShopDatabase database;
    private readonly ChangeFeed feed = new();
    private readonly ShopWriter writer;
    private readonly LogReader reader;
    private readonly PersonalReader personal;
    private readonly StatementBook statements;
    private readonly PartReader parts;
    private readonly JobReader jobs;
    private readonly IAsyncDisposable? listener;
    private int isClosed;

    private ShopStore(
        StoreOptions options,
        ShopDatabase database,
        Guid epoch,
        (DbConnection Connection, bool HasToPurge) begun
    )
    {
        this.options = options;
        this.database = database;
        Epoch = epoch;
        reader = new LogReader(database);
        writer = new ShopWriter(database, epoch, feed, options.Clock, begun);
        personal = new PersonalReader(database);
        parts = new PartReader(database);
        jobs = new JobReader(database);
        statements = new StatementBook(database, reader, writer, options.Clock);
        listener = database.Listen(feed);
    }

    /// <summary>The life of this store; restoring a backup begins another.</summary>
    public Guid Epoch { get; }

    /// <summary>Where the data lie, for messages; no password in it.</summary>
    public string Place => database.Place;

    /// <summary>Whether the writer has a connection that the driver takes for whole; for tests.</summary>
    internal bool IsWriterConnected => writer.IsConnected;

    /// <summary>Opens the store: made if it is not there, its tables brought to this version.</summary>
    /// <exception cref="StoreFaultException">
    /// It cannot be opened. A damaged database, one of another program and one of a later version are left as they are.
    /// </exception>
    public static async Task<ShopStore> OpenAsync(
        StoreOptions options,
        CancellationToken cancellation = default
    )
    {
        ArgumentNullException.ThrowIfNull(options);
        ShopDatabase database = options.ConnectionString is null
            ? SqliteDatabase.Owned(options)
            : new PostgresDatabase(options);
        DbConnection? connection = null;
        try
        {
            connection = await database.PrepareAsync(cancellation).ConfigureAwait(false);
            using var commands = new CommandSet(database, connection);
            var epoch = await Epochs
                .PresentAsync(database, commands, options.NowTicks)
                .ConfigureAwait(false);
            // A kill takes with it that something was still to be cleared away.
            var hasErased = await commands
                .ScalarAsync("""SELECT 1 FROM "Erasures" LIMIT 1""")
                .ConfigureAwait(false);
            return new ShopStore(options, database, epoch, (connection, hasErased is not null));
        }
        catch (Exception e)
        {
            if (connection is not null)
            {
                await connection.DisposeAsync().ConfigureAwait(false);
            }
            await database.DisposeAsync().ConfigureAwait(false);
            if (e is StoreFaultException or OperationCanceledException)
            {
                throw;
            }
            throw database.AnyFaultOf(e);
        }
    }

    /// <summary>
    /// Takes in entries of one log. The answer comes when everything it confirms is on the disk; an entry that is refused keeps
    /// none of the others out. The same entry twice is the same entry once.
    /// </summary>
    /// <param name="log">The log.</param>
    /// <param name="entries">The entries, in whatever order; one whose parents are missing is taken in all the same.</param>
    /// <param name="cancellation">Counts only until the entries are in the queue: what is in it will be written.</param>
    public async Task<AnswerPage> AppendAsync(
        LogId log,
        IReadOnlyList<Entry> entries,
        CancellationToken cancellation = default
    )
    {
        ArgumentNullException.ThrowIfNull(entries);
        return entries.Count == 0
            ? new AnswerPage(Epoch, [])
            : await writer
                .WriteAsync(new AppendWork(Epoch, log, entries), cancellation)
                .ConfigureAwait(false);
    }

    /// <summary>The entries behind a cursor, as they were received, and the ends of all whole chains.</summary>
    /// <param name="log">The log. One that is not here has no entries.</param>
    /// <param name="cursor">Where the reader is; one of another epoch begins again.</param>
    /// <param name="most">At most so many entries, from 1; fewer if they are large.</param>
    /// <param name="cancellation">Gives up.</param>
    public Task<PullPage> PullAsync(
        LogId log,
        PullCursor cursor,
        int most = EntryLimits.BatchEntries,
        CancellationToken cancellation = default
    )
    {
        ArgumentNullException.ThrowIfNull(cursor);
        ArgumentOutOfRangeException.ThrowIfLessThan(most, 1);
        return ToldAsync(() => reader.PullAsync(Epoch, log, cursor, most, cancellation));
    }

    /// <summary>Every log that is here, ascending by id.</summary>
    public Task<ImmutableArray<LogSummary>> LogsAsync(CancellationToken cancellation = default) =>
        ToldAsync(() => reader.LogsAsync(cancellation));

    /// <summary>A whole log, for a fold or a check.</summary>
    public Task<EntryLog> LoadAsync(LogId log, CancellationToken cancellation = default) =>
        ToldAsync(() => reader.LoadAsync(log, cancellation));

    /// <summary>The entries of a log that came under the id of another one, as evidence; at most 1000 are kept.</summary>
    public Task<ImmutableArray<Entry>> RefusedAsync(
        LogId log,
        CancellationToken cancellation = default
    ) => ToldAsync(() => reader.RefusedAsync(log, cancellation));

    /// <summary>
    /// Takes in a personal datum or photo beside a log. It is answered when it is on the disk. It may come before or after the
    /// entry that names its digest.
    /// </summary>
    /// <param name="log">The log.</param>
    /// <param name="datum">The datum with its salt.</param>
    /// <param name="contentType">What it is, 1 to 128 characters, such as "image/jpeg" or "application/json".</param>
    /// <param name="cancellation">Counts only until it is in the queue.</param>
    public Task<PersonalAnswer> PutPersonalAsync(
        LogId log,
        PersonalDatum datum,
        string contentType,
        CancellationToken cancellation = default
    )
    {
        ArgumentNullException.ThrowIfNull(datum);
        ArgumentException.ThrowIfNullOrWhiteSpace(contentType);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(contentType.Length, MostTypeCharacters);
        return datum.Data.Length > options.MostPhotoBytes
            ? Task.FromResult(
                new PersonalAnswer(
                    PersonalStatus.Refused,
                    new StoreFault(
                        StoreFaultKind.TooLarge,
                        Texts.Get("personal.tooLarge", datum.Data.Length, options.MostPhotoBytes)
                    )
                )
            )
            : writer.WriteAsync(
                new PutPersonalWork(options, log, datum, contentType),
                cancellation
            );
    }

    /// <summary>A personal datum or photo by its digest; null if it is not here or was erased.</summary>
    public Task<PersonalFile?> FindPersonalAsync(
        Digest digest,
        CancellationToken cancellation = default
    ) => ToldAsync(() => personal.FindAsync(digest, cancellation));

    /// <summary>Which personal data of a log are here, and which were erased.</summary>
    public Task<PersonalHoldings> PersonalOfAsync(
        LogId log,
        CancellationToken cancellation = default
    ) => ToldAsync(() => personal.HoldingsAsync(log, cancellation));

    /// <summary>
    /// Erases a datum with its salt. The entry that names it stays as it is, and its chain can be verified as before. The datum
    /// does not come back: neither from a device that has a copy, nor with a restored backup.
    /// </summary>
    public Task<ErasureReport> EraseAsync(
        LogId log,
        Digest digest,
        CancellationToken cancellation = default
    ) => writer.WriteAsync(new EraseWork(log, digest), cancellation);

    /// <summary>States and signs what is here of a log, and keeps that.</summary>
    /// <param name="log">The log; at least one entry is in its order.</param>
    /// <param name="signer">Signs for the server.</param>
    /// <param name="cancellation">Gives up before the statement is kept.</param>
    public Task<CountersignedHeads> CountersignAsync(
        LogId log,
        ICountersigner signer,
        CancellationToken cancellation = default
    )
    {
        ArgumentNullException.ThrowIfNull(signer);
        return ToldAsync(() => statements.CountersignAsync(log, signer, cancellation));
    }

    /// <summary>All statements on a log, ascending.</summary>
    public Task<ImmutableArray<CountersignedHeads>> StatementsAsync(
        LogId log,
        CancellationToken cancellation = default
    ) => ToldAsync(() => statements.ReadAsync(log, lastOnly: false, cancellation));

    /// <summary>How often the library of parts was changed, by whichever server; cheap. 0: nothing was ever put in.</summary>
    public Task<long> PartsRevisionAsync(CancellationToken cancellation = default) =>
        ToldAsync(() => parts.RevisionAsync(cancellation));

    /// <summary>The whole library of parts, of one moment. A part whose row is damaged is left out and told.</summary>
    /// <param name="cancellation">Gives up.</param>
    public Task<StoredParts> PartsAsync(CancellationToken cancellation = default) =>
        ToldAsync(async () => (await parts.ReadAsync(0, cancellation).ConfigureAwait(false)).Later);

    /// <summary>
    /// The parts that came or were changed after a revision, for whoever holds the library of then. Parts that were taken out
    /// are not told: they were, if the held ones and these are together more than there are.
    /// </summary>
    /// <param name="revision">The revision that is held, of this epoch; 0 or more.</param>
    /// <param name="cancellation">Gives up.</param>
    /// <returns>These parts with the present revision, and how many parts there are in all.</returns>
    public Task<(StoredParts Later, long Count)> PartsAfterAsync(
        long revision,
        CancellationToken cancellation = default
    ) => ToldAsync(() => parts.ReadAsync(revision, cancellation));

    /// <summary>
    /// Puts parts into the library, each added or put in the place of the one with its id: all of them or none. Whatever
    /// else is to be written waits meanwhile.
    /// </summary>
    /// <param name="put">The parts; the later of two with the same id stands.</param>
    /// <param name="progress">Told now and then how many are written; on another thread.</param>
    /// <param name="seen">The revision that the caller has looked at; null: whatever is there may be changed.</param>
    /// <param name="cancellation">Ends it, and nothing of it is kept; after the commit it counts no more.</param>
    /// <exception cref="OperationCanceledException">It was ended.</exception>
    /// <exception cref="StoreFaultException">The library was changed since <paramref name="seen"/>, or it cannot be written.</exception>
    public Task<PartsChange> PutPartsAsync(
        IReadOnlyCollection<Part> put,
        IProgress<int>? progress = null,
        long? seen = null,
        CancellationToken cancellation = default
    ) =>
        writer.WriteAsync(
            new PutPartsWork(EachOnce(put), DemoWish.No, progress, cancellation) { Seen = seen },
            cancellation
        );

    /// <summary>Puts one part into the library, added or in the place of the one with its id.</summary>
    /// <param name="part">The part.</param>
    /// <param name="seen">
    /// The revision of the library in which the caller has looked at it; null: whatever is there may be replaced.
    /// </param>
    /// <param name="cancellation">Ends it, and nothing of it is kept; after the commit it counts no more.</param>
    /// <exception cref="OperationCanceledException">It was ended.</exception>
    /// <exception cref="StoreFaultException">The part was changed or taken out since <paramref name="seen"/>, or cannot be written.</exception>
    public Task<PartsChange> PutPartAsync(
        Part part,
        long? seen = null,
        CancellationToken cancellation = default
    ) =>
        writer.WriteAsync(
            new PutPartsWork(EachOnce([part]), DemoWish.No, null, cancellation)
            {
                SeenParts = seen,
            },
            cancellation
        );

    /// <summary>
    /// Puts the parts of the demo workshop into the library. One whose id is there already stays as it is.
    /// </summary>
    /// <param name="demo">The parts.</param>
    /// <param name="onlyIfNew">
    /// Only into a shop that is new: no job, no account, no part so far. Any other is never asked again.
    /// </param>
    /// <param name="cancellation">Ends it, and nothing of it is kept.</param>
    public Task<PartsChange> PutDemoPartsAsync(
        IReadOnlyCollection<Part> demo,
        bool onlyIfNew,
        CancellationToken cancellation = default
    ) =>
        writer.WriteAsync(
            new PutPartsWork(
                EachOnce(demo),
                onlyIfNew ? DemoWish.IfNew : DemoWish.Yes,
                null,
                cancellation
            ),
            cancellation
        );

    /// <summary>Takes the parts of the demo workshop out that nobody has changed.</summary>
    public Task<PartsChange> RemoveDemoPartsAsync(CancellationToken cancellation = default) =>
        writer.WriteAsync(new RemovePartsWork(null), cancellation);

    /// <summary>
    /// Takes a part out of the library. A spec that names it lacks what the part gave, and is an error until it names another one.
    /// </summary>
    /// <param name="id">The part.</param>
    /// <param name="cancellation">Counts only until it is in the queue.</param>
    /// <returns>What was done; nothing removed: it was not there.</returns>
    public Task<PartsChange> RemovePartAsync(string id, CancellationToken cancellation = default)
    {
        ArgumentNullException.ThrowIfNull(id);
        return writer.WriteAsync(new RemovePartsWork(id), cancellation);
    }

    /// <summary>Checks everything that is here; takes as long as reading it all. What cannot be read is a finding.</summary>
    /// <param name="signatures">Checks the statements' signatures; null: they are left aside.</param>
    /// <param name="cancellation">Gives up.</param>
    public Task<CheckReport> CheckAsync(
        ICountersignatureCheck? signatures = null,
        CancellationToken cancellation = default
    ) => new StoreCheck(database, signatures).RunAsync(cancellation);

    /// <summary>Makes a backup while everything goes on. Every entry acknowledged before it began is in it.</summary>
    /// <inheritdoc cref="Backup.RunAsync(StoreOptions, string, CancellationToken)"/>
    public Task<BackupManifest> BackupAsync(
        string targetFolder,
        CancellationToken cancellation = default
    ) => Backup.RunAsync(database, options.NowTicks, targetFolder, cancellation);

    /// <summary>
    /// Writes everything of one moment as open files, for a reader that is not Cogwright (docs/how-to/storage.md). Personal
    /// data are among them.
    /// </summary>
    /// <param name="targetFolder">Made by this; must not exist. It is there only when the export is whole.</param>
    /// <param name="cancellation">Gives up; nothing is left.</param>
    public async Task<ExportReport> ExportAsync(
        string targetFolder,
        CancellationToken cancellation = default
    )
    {
        var target = await WholeFolder
            .MakeAsync(
                database,
                targetFolder,
                part => new Export(database, part, cancellation).RunAsync()
            )
            .ConfigureAwait(false);
        return target.Made with { Folder = target.Folder };
    }

    /// <summary>What changes from now on, in this process and, on PostgreSQL, in every other one. Dispose of it.</summary>
    public ChangeWatch Watch() => feed.Watch();

    /// <summary>A new context for accounts, sessions, links and settings. Dispose of it.</summary>
    public StoreContext NewContext() => database.NewContext();

    /// <summary>Writes what is in the queue, and closes.</summary>
    public async ValueTask DisposeAsync()
    {
        if (Interlocked.Exchange(ref isClosed, 1) != 0)
        {
            return;
        }
        await writer.DisposeAsync().ConfigureAwait(false);
        if (listener is not null)
        {
            await listener.DisposeAsync().ConfigureAwait(false);
        }
        feed.Complete();
        await database.DisposeAsync().ConfigureAwait(false);
    }

    // In one order for all, so that two servers cannot wait for each other's rows.
    private static List<Part> EachOnce(IReadOnlyCollection<Part> parts)
    {
        ArgumentNullException.ThrowIfNull(parts);
        var byId = new SortedDictionary<string, Part>(StringComparer.Ordinal);
        foreach (var part in parts)
        {
            byId[
                PartNames.IsId(part.Id)
                    ? part.Id
                    : throw new ArgumentException(part.Id, nameof(parts))
            ] = part;
        }
        return [.. byId.Values];
    }

    private async Task<T> ToldAsync<T>(Func<Task<T>> read)
    {
        try
        {
            return await read().ConfigureAwait(false);
        }
        catch (Exception e)
            when (e is not StoreFaultException && database.ReadingFaultOf(e) is { } fault)
        {
            throw fault;
        }
    }
}

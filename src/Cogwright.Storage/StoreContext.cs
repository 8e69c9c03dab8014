using Cogwright.Parts;
using Microsoft.AspNetCore.Identity;
using Microsoft.AspNetCore.Identity.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore;

namespace Cogwright.Storage;

/// <summary>
/// The tables. Accounts, sessions, links and settings are for anybody who has the store; the log's own tables are written by
/// <see cref="ShopStore"/> alone, which numbers and locks.
/// </summary>
/// <param name="options">The connection.</param>
public abstract class StoreContext(DbContextOptions options)
    : IdentityDbContext<Account, IdentityRole<Guid>, Guid>(options)
{
    private const int WordLength = 128;
    private const int HashBytes = 32;

    /// <summary>The devices that logged in.</summary>
    public DbSet<DeviceSession> DeviceSessions => Set<DeviceSession>();

    /// <summary>The links of customers.</summary>
    public DbSet<CustomerLink> CustomerLinks => Set<CustomerLink>();

    /// <summary>What the shop keeps under a name.</summary>
    public DbSet<ShopSetting> ShopSettings => Set<ShopSetting>();

    /// <summary>Fixed, so that the tables do not depend on how a host sets up its accounts.</summary>
    protected override Version SchemaVersion => IdentitySchemaVersions.Version2;

    /// <inheritdoc/>
    protected override void ConfigureConventions(ModelConfigurationBuilder configurationBuilder)
    {
        ArgumentNullException.ThrowIfNull(configurationBuilder);
        // One database gives a time back with its zone and the other without: both store integer ticks.
        configurationBuilder.Properties<DateTimeOffset>().HaveConversion<TicksConverter>();
    }

    /// <inheritdoc/>
    protected override void OnModelCreating(ModelBuilder builder)
    {
        ArgumentNullException.ThrowIfNull(builder);
        base.OnModelCreating(builder);
        builder.Entity<Account>(account =>
        {
            account.Property(each => each.DisplayName).HasMaxLength(WordLength);
            account.Property(each => each.PinHash).HasMaxLength(2 * WordLength);
        });
        builder.Entity<DeviceSession>(session =>
        {
            session.Property(each => each.DeviceName).HasMaxLength(WordLength);
            session.Property(each => each.TokenHash).HasMaxLength(HashBytes);
            session.HasIndex(each => each.TokenHash).IsUnique();
            session.HasOne<Account>().WithMany().HasForeignKey(each => each.AccountId);
        });
        builder.Entity<CustomerLink>(link =>
        {
            link.Property(each => each.TokenHash).HasMaxLength(HashBytes);
            link.HasIndex(each => each.TokenHash).IsUnique();
            link.HasIndex(each => each.Log);
        });
        builder.Entity<ShopSetting>(setting =>
        {
            setting.HasKey(each => each.Name);
            setting.Property(each => each.Name).HasMaxLength(WordLength);
        });
        LogTables(builder);
        PartTables(builder);
        JobTables(builder);
    }

    private static void JobTables(ModelBuilder builder)
    {
        builder.Entity<JobRow>(job =>
        {
            job.ToTable("Jobs").HasKey(each => each.Number);
            job.Property(each => each.Number).ValueGeneratedNever();
            job.HasIndex(each => each.Log);
            job.HasIndex(each => new { each.ClosedTicks, each.LastTicks });
            job.HasIndex(each => each.DueDay);
            job.HasIndex(each => new { each.Cause, each.BegunTicks });
        });
        builder.Entity<FoldedLogRow>().ToTable("FoldedLogs").HasKey(each => each.Log);
    }

    private static void PartTables(ModelBuilder builder)
    {
        builder.Entity<PartRow>(part =>
        {
            part.ToTable("Parts");
            part.Property(each => each.Id).HasMaxLength(Part.LongestId);
            part.HasIndex(each => each.Revision);
        });
        builder.Entity<PartLibraryRow>(library =>
        {
            library.ToTable("PartLibrary").HasKey(each => each.Number);
            library.Property(each => each.Number).ValueGeneratedNever();
            library.HasData(new PartLibraryRow { Number = PartLibraryRow.TheOne });
        });
    }

    private static void LogTables(ModelBuilder builder)
    {
        builder.Entity<LogRow>().ToTable("Logs");
        builder.Entity<EntryRow>(entry =>
        {
            entry.ToTable("Entries").HasKey(each => new { each.Log, each.Receipt });
            entry.HasIndex(each => new { each.Log, each.Id }).IsUnique();
            entry.HasIndex(each => new
            {
                each.Log,
                each.Device,
                each.Sequence,
            });
        });
        builder.Entity<TipRow>().ToTable("Tips").HasKey(each => new { each.Log, each.Hash });
        builder.Entity<RefusedRow>().ToTable("Refused").HasKey(each => new { each.Log, each.Hash });
        builder
            .Entity<StatementRow>()
            .ToTable("Statements")
            .HasKey(each => new { each.Log, each.Serial });
        builder.Entity<PersonalRow>(personal =>
        {
            personal.ToTable("Personal").HasKey(each => each.Digest);
            // Sums of sizes read this index and never the photos.
            personal.HasIndex(each => new { each.Log, each.SizeBytes });
        });
        builder.Entity<ErasureRow>(erasure =>
        {
            erasure.ToTable("Erasures").HasKey(each => each.Digest);
            erasure.HasIndex(each => each.Log);
        });
        builder.Entity<EpochRow>(epoch =>
        {
            epoch.ToTable("Epochs").HasKey(each => each.Number);
            epoch.Property(each => each.Number).ValueGeneratedNever();
        });
    }
}

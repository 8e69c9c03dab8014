using System.Collections.Immutable;
using Cogwright.Log;

namespace Cogwright.Web.Device;

/// <summary>Why the shop's server gave no answer that can be used.</summary>
internal enum ShopFault
{
    /// <summary>It cannot be reached.</summary>
    Gone,

    /// <summary>It wants a log-in.</summary>
    LogIn,

    /// <summary>It refused; its words tell.</summary>
    Refused,

    /// <summary>It refused one entry as unreadable, and with it the whole sending.</summary>
    BadEntry,

    /// <summary>It does not take a photo because that one was erased.</summary>
    Erased,

    /// <summary>It does not have what was asked for.</summary>
    NotThere,
}

/// <summary>The shop's server gave no answer that can be used.</summary>
internal sealed class ShopException(ShopFault fault, string says) : Exception(says)
{
    internal ShopFault Fault { get; } = fault;

    /// <summary>How long it wants to be left alone.</summary>
    internal TimeSpan? RetryAfter { get; init; }
}

/// <summary>A job that the server has.</summary>
internal sealed record ShopJob(LogId Log, long Receipt);

/// <summary>Some entries of a job, as the server has them.</summary>
/// <param name="Page">Those that this version can read.</param>
/// <param name="Unreadable">The bytes of those that it cannot: kept all the same, for a later version can.</param>
internal sealed record ShopPage(PullPage Page, ImmutableArray<byte[]> Unreadable);

/// <summary>What the server says of the photos and other personal data of a job.</summary>
/// <param name="Held">Those that it has.</param>
/// <param name="Erased">Those that were erased: copies of them are to go.</param>
internal sealed record ShopPhotos(ImmutableHashSet<Digest> Held, ImmutableHashSet<Digest> Erased);

/// <summary>Who the server takes this browser for.</summary>
internal sealed record ShopPerson(string Role, Guid? Account);

/// <summary>The shop's server, as docs/how-to/server.md has it. Everything can throw a <see cref="ShopException"/>.</summary>
internal interface IShop
{
    /// <summary>Every log that the shop has, its own among them, and how many entries it has.</summary>
    Task<ImmutableArray<ShopJob>> JobsAsync();

    /// <summary>The shop at a glance.</summary>
    Task<OverviewShape> OverviewAsync();

    /// <summary>Jobs and bikes by the beginnings of words.</summary>
    Task<FoundShape> FindAsync(string words);

    /// <summary>Sets the hours planned for a kind of work; null: common practice again.</summary>
    Task PlanAsync(string kind, double? hours);

    /// <summary>The entries behind a cursor.</summary>
    Task<ShopPage> PullAsync(LogId log, PullCursor cursor);

    /// <summary>Sends entries.</summary>
    Task<AnswerPage> AppendAsync(LogId log, ImmutableArray<Entry> entries);

    /// <summary>Which photos of a job it has, and which were erased.</summary>
    Task<ShopPhotos> PhotosAsync(LogId log);

    /// <summary>Sends a photo.</summary>
    Task SendPhotoAsync(LogId log, PersonalDatum photo, string contentType);

    /// <summary>A photo with its salt, or null when the server does not have it.</summary>
    Task<PersonalDatum?> PhotoAsync(LogId log, Digest digest);

    /// <summary>What the server has stated and signed of a log last; null when nothing yet.</summary>
    /// <param name="log">The log.</param>
    /// <param name="anew">Whether it is to state and sign what it holds now, which who may only read is refused.</param>
    Task<CountersignedHeads?> StatementAsync(LogId log, bool anew);

    /// <summary>Who this browser is.</summary>
    Task<ShopPerson> PersonAsync();

    /// <summary>Logs in.</summary>
    Task<ShopPerson> LogInAsync(string userName, string password, DeviceId device);

    /// <summary>Logs out: the session ends for good.</summary>
    Task LogOutAsync();
}

using System.Buffers.Binary;
using System.Buffers.Text;
using System.Security.Cryptography;
using System.Text;
using Cogwright.Storage;
using Microsoft.EntityFrameworkCore;

namespace Cogwright.Server;

/// <summary>
/// Who is at the other end of a session. The cookie holds chance and nothing else; the store is asked at every request, so a
/// revoked session ends at once, at every server.
/// </summary>
internal sealed class Sessions(
    ShopStore store,
    Ownership ownership,
    ServerSecrets secrets,
    ServerOptions options,
    ILogger<Sessions> log
)
{
    private const string SessionCookie = "cogwright-session";
    private const string PersonCookie = "cogwright-person";

    // How exact "last seen" is: not every request writes.
    private static readonly TimeSpan SeenEvery = TimeSpan.FromMinutes(5);

    // session id, account id, ticks
    private const int PersonBytes = 16 + 16 + 8;

    private DateTimeOffset Now => options.Clock.GetUtcNow();

    /// <summary>Who makes this request.</summary>
    internal async Task<Caller> OfAsync(HttpContext context)
    {
        if (!await ownership.ExistsAsync().ConfigureAwait(false))
        {
            // The door lets nobody in but whoever sits at this machine.
            return Caller.FreshInstall;
        }
        if (context.Request.Cookies[NameOf(context, SessionCookie)] is not { Length: > 0 } token)
        {
            return Caller.Nobody;
        }
        await using var data = store.NewContext();
        var hash = Tokens.HashOf(token);
        var session = await data
            .DeviceSessions.SingleOrDefaultAsync(each => each.TokenHash == hash)
            .ConfigureAwait(false);
        if (
            session is not { RevokedTicks: null }
            || session.ExpiresTicks <= Now.UtcTicks
            || await AccountAsync(data, session.AccountId).ConfigureAwait(false) is not { } owner
        )
        {
            return Caller.Nobody;
        }
        await SeenAsync(data, session).ConfigureAwait(false);
        return session.IsTrusted
            ? await AtDeviceAsync(context, data, session).ConfigureAwait(false)
            : new Caller(owner.Who, owner.Account.Id, session.Id);
    }

    /// <summary>Whether what a caller came in by still holds; for streams, which outlast a request.</summary>
    internal async Task<bool> StillHoldsAsync(HttpContext context, Caller caller)
    {
        var now = await OfAsync(context).ConfigureAwait(false);
        return now.Session == caller.Session && (now.Who & Who.LoggedIn) != 0;
    }

    /// <summary>Begins a session.</summary>
    internal async Task<DeviceSession> BeginAsync(
        HttpContext context,
        Guid account,
        (Guid? Device, string Name, bool IsTrusted) device
    )
    {
        var token = Tokens.New();
        var life = device.IsTrusted ? options.TrustedDeviceLife : options.SessionLife;
        var session = new DeviceSession
        {
            Id = Guid.CreateVersion7(Now),
            AccountId = account,
            Device = device.Device,
            DeviceName = device.Name,
            IsTrusted = device.IsTrusted,
            TokenHash = Tokens.HashOf(token),
            CreatedTicks = Now.UtcTicks,
            LastSeenTicks = Now.UtcTicks,
            ExpiresTicks = (Now + life).UtcTicks,
        };
        await using var data = store.NewContext();
        data.DeviceSessions.Add(session);
        await data.SaveChangesAsync().ConfigureAwait(false);
        Set(context, SessionCookie, token, life);
        LeavePerson(context);
        Telling.LoggedIn(log, account, session.Id);
        return session;
    }

    /// <summary>Ends sessions at once.</summary>
    /// <returns>How many were open.</returns>
    internal async Task<int> RevokeAsync(
        Func<IQueryable<DeviceSession>, IQueryable<DeviceSession>> which
    )
    {
        await using var data = store.NewContext();
        var sessions = await which(data.DeviceSessions.Where(each => each.RevokedTicks == null))
            .ToListAsync()
            .ConfigureAwait(false);
        foreach (var session in sessions)
        {
            session.RevokedTicks = Now.UtcTicks;
            Telling.Revoked(log, session.Id);
        }
        await data.SaveChangesAsync().ConfigureAwait(false);
        return sessions.Count;
    }

    /// <summary>Forgets the cookies of this browser.</summary>
    internal static void Leave(HttpContext context)
    {
        Delete(context, SessionCookie);
        LeavePerson(context);
    }

    /// <summary>A person gave their PIN at a trusted device.</summary>
    internal void SetPerson(HttpContext context, Guid session, Account account)
    {
        var mark = new byte[PersonBytes + HMACSHA256.HashSizeInBytes];
        session.TryWriteBytes(mark);
        account.Id.TryWriteBytes(mark.AsSpan(16));
        BinaryPrimitives.WriteInt64BigEndian(mark.AsSpan(32), (Now + options.PersonLife).UtcTicks);
        MarkOf(mark.AsSpan(0, PersonBytes), account).CopyTo(mark, PersonBytes);
        Set(context, PersonCookie, Base64Url.EncodeToString(mark), options.PersonLife);
    }

    /// <summary>Nobody in particular is at the device any more.</summary>
    internal static void LeavePerson(HttpContext context) => Delete(context, PersonCookie);

    private async Task<Caller> AtDeviceAsync(
        HttpContext context,
        StoreContext data,
        DeviceSession session
    )
    {
        var nobody = new Caller(Who.Guest, null, session.Id, IsTrustedDevice: true);
        var cookie = context.Request.Cookies[NameOf(context, PersonCookie)] ?? "";
        var mark = new byte[PersonBytes + HMACSHA256.HashSizeInBytes];
        if (
            !Base64Url.IsValid(cookie, out var length)
            || length != mark.Length
            || !Base64Url.TryDecodeFromChars(cookie, mark, out _)
            || new Guid(mark.AsSpan(0, 16)) != session.Id
            || BinaryPrimitives.ReadInt64BigEndian(mark.AsSpan(32)) <= Now.UtcTicks
            || await AccountAsync(data, new Guid(mark.AsSpan(16, 16))).ConfigureAwait(false)
                is not { } person
            || !CryptographicOperations.FixedTimeEquals(
                MarkOf(mark.AsSpan(0, PersonBytes), person.Account),
                mark.AsSpan(PersonBytes)
            )
        )
        {
            return nobody;
        }
        // A PIN says who claims to act; it opens nothing that a mechanic may not do.
        var who = person.Who is Who.Guest ? Who.Guest : Who.Mechanic;
        return new Caller(who, person.Account.Id, session.Id, IsTrustedDevice: true, IsByPin: true);
    }

    /// <summary>Holds for this PIN only: another one ends it.</summary>
    private byte[] MarkOf(ReadOnlySpan<byte> about, Account account) =>
        secrets.Mark([.. "person"u8, .. about, .. Encoding.UTF8.GetBytes(account.PinHash ?? "")]);

    private static async Task<(Account Account, Who Who)?> AccountAsync(StoreContext data, Guid id)
    {
        var found = await (
            from account in data.Users
            where account.Id == id && account.Active
            from userRole in data
                .UserRoles.Where(each => each.UserId == account.Id)
                .DefaultIfEmpty()
            from role in data.Roles.Where(each => each.Id == userRole!.RoleId).DefaultIfEmpty()
            select new { account, Role = role!.Name }
        )
            .AsNoTracking()
            .ToListAsync()
            .ConfigureAwait(false);
        return found is [var one] && Roles.Of(one.Role) is var who and not Who.Anonymous
            ? (one.account, who)
            : null;
    }

    private async Task SeenAsync(StoreContext data, DeviceSession session)
    {
        if (Now.UtcTicks - session.LastSeenTicks < SeenEvery.Ticks)
        {
            return;
        }
        var now = Now.UtcTicks;
        await data
            .DeviceSessions.Where(each => each.Id == session.Id)
            .ExecuteUpdateAsync(set => set.SetProperty(each => each.LastSeenTicks, now))
            .ConfigureAwait(false);
    }

    // The prefix makes a browser insist on Secure and on this host alone.
    private static string NameOf(HttpContext context, string name) =>
        context.Request.IsHttps ? "__Host-" + name : name;

    private static CookieOptions CookieOf(HttpContext context) =>
        new()
        {
            HttpOnly = true,
            SameSite = SameSiteMode.Strict,
            Secure = context.Request.IsHttps,
            Path = "/",
            IsEssential = true,
        };

    private static void Set(HttpContext context, string name, string value, TimeSpan life)
    {
        var cookie = CookieOf(context);
        cookie.MaxAge = life;
        context.Response.Cookies.Append(NameOf(context, name), value, cookie);
    }

    private static void Delete(HttpContext context, string name) =>
        context.Response.Cookies.Delete(NameOf(context, name), CookieOf(context));
}

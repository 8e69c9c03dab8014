using Cogwright.Storage;
using Microsoft.EntityFrameworkCore;

namespace Cogwright.Server;

/// <summary>Coming in, changing the person at a tablet, going out.</summary>
internal static class SessionRoutes
{
    internal static void MapSessions(this IEndpointRouteBuilder api)
    {
        var doors = api.MapGroup("").WithTags("Coming in");
        doors
            .MapPost("/owner", MakeOwnerAsync)
            .WithSummary(
                "Makes the first account, the owner's. Only from this machine, and only once."
            );
        doors
            .MapGet("/session", (HttpContext context) => SessionAnswer.Of(CallerOf(context)))
            .WithSummary("Who this browser is.");
        doors.MapPost("/session", LogInAsync).WithSummary("Logs in.");
        doors
            .MapDelete("/session", LogOutAsync)
            .WithSummary("Logs out: the session ends for good.");
        doors
            .MapPut("/session/person", ChangePersonAsync)
            .WithSummary("At a trusted device: says by PIN who is working now.");
        doors
            .MapDelete(
                "/session/person",
                (HttpContext context) =>
                {
                    Sessions.LeavePerson(context);
                    return Results.NoContent();
                }
            )
            .WithSummary("At a trusted device: nobody in particular is working now.");
        doors
            .MapPut("/session/password", ChangePasswordAsync)
            .WithSummary("Changes one's own password.");
        doors
            .MapPut("/session/pin", ChangePinAsync)
            .WithSummary("Sets or takes away one's own PIN.");
        doors
            .MapGet("/sessions", ListAsync)
            .WithSummary("Open sessions: one's own; for the owner, all.");
        doors.MapDelete("/sessions/{id:guid}", RevokeAsync).WithSummary("Ends a session at once.");
    }

    internal static Caller CallerOf(HttpContext context) => context.Features.Get<Caller>()!;

    private static async Task<IResult> MakeOwnerAsync(
        NewOwner sent,
        HttpContext context,
        Ownership ownership,
        People people,
        Sessions sessions
    )
    {
        if (!Door.IsFromThisMachine(context) || await ownership.ExistsAsync())
        {
            throw new ProblemException(Problem.OwnerExists);
        }
        var account = await people.MakeOwnerAsync(sent.UserName, sent.DisplayName, sent.Password);
        await sessions.BeginAsync(context, account.Id, (null, sent.DeviceName ?? "", false));
        return Results.Created((string?)null, new MadeAnswer(account.Id));
    }

    private static async Task<SessionAnswer> LogInAsync(
        LogIn sent,
        HttpContext context,
        People people,
        Sessions sessions,
        Throttles throttles,
        ILogger<Sessions> log
    )
    {
        var keys = throttles.LogIn(
            sent.UserName,
            context.Connection.RemoteIpAddress?.ToString() ?? ""
        );
        Throttles.Begin(keys);
        if (await people.RecogniseAsync(sent.UserName, sent.Password) is not { } account)
        {
            Telling.LogInRefused(log);
            throw new ProblemException(Problem.WrongLogIn);
        }
        Throttles.Forgive(keys);
        var who = Roles.Of(await people.RoleOfAsync(account));
        if (sent.TrustDevice && (who & Who.Heads) == 0)
        {
            throw new ProblemException(
                Problem.NotAllowed,
                Roles.NameOf(who),
                $"{Roles.Owner}, {Roles.HeadMechanic}"
            );
        }
        var name = sent.DeviceName ?? "";
        if (name.Length > 128)
        {
            throw new ProblemException(
                Problem.BadField,
                "deviceName",
                Texts.Get("field.deviceName")
            );
        }
        var session = await sessions.BeginAsync(
            context,
            account.Id,
            (sent.Device, name, sent.TrustDevice)
        );
        return SessionAnswer.Of(
            sent.TrustDevice
                ? new Caller(Who.Guest, null, session.Id, IsTrustedDevice: true)
                : new Caller(who, account.Id, session.Id)
        );
    }

    private static async Task<IResult> LogOutAsync(HttpContext context, Sessions sessions)
    {
        if (CallerOf(context).Session is { } session)
        {
            await sessions.RevokeAsync(open => open.Where(each => each.Id == session));
        }
        Sessions.Leave(context);
        return Results.NoContent();
    }

    private static async Task<SessionAnswer> ChangePersonAsync(
        PersonAtDevice sent,
        HttpContext context,
        People people,
        Sessions sessions,
        Throttles throttles
    )
    {
        var caller = CallerOf(context);
        if (caller is not { IsTrustedDevice: true, Session: { } session })
        {
            throw new ProblemException(Problem.NotTrusted);
        }
        var keys = throttles.Pin(sent.Account, session);
        Throttles.Begin(keys);
        if (await people.RecogniseByPinAsync(sent.Account, sent.Pin) is not { } account)
        {
            throw new ProblemException(Problem.WrongPin);
        }
        Throttles.Forgive(keys);
        sessions.SetPerson(context, session, account);
        var who =
            Roles.Of(await people.RoleOfAsync(account)) is Who.Guest ? Who.Guest : Who.Mechanic;
        return SessionAnswer.Of(
            new Caller(who, account.Id, session, IsTrustedDevice: true, IsByPin: true)
        );
    }

    private static async Task<IResult> ChangePasswordAsync(
        NewOwnPassword sent,
        HttpContext context,
        People people,
        Sessions sessions,
        Throttles throttles
    )
    {
        var (caller, account) = await ByPasswordAsync(context, people, throttles, sent.Present);
        await people.SetPasswordAsync(account, sent.Password);
        // Whoever knew the old one is out.
        await sessions.RevokeAsync(open =>
            open.Where(each => each.AccountId == account.Id && each.Id != caller.Session)
        );
        return Results.NoContent();
    }

    private static async Task<IResult> ChangePinAsync(
        NewOwnPin sent,
        HttpContext context,
        People people,
        Throttles throttles
    )
    {
        var (_, account) = await ByPasswordAsync(context, people, throttles, sent.Password);
        await people.SetPinAsync(account, sent.Pin);
        return Results.NoContent();
    }

    /// <summary>A session that began with a password, and the password once more: a tablet left lying is not enough.</summary>
    private static async Task<(Caller Caller, Account Account)> ByPasswordAsync(
        HttpContext context,
        People people,
        Throttles throttles,
        string password
    )
    {
        var caller = CallerOf(context);
        if (caller is not { Account: { } id, IsByPin: false })
        {
            throw new ProblemException(Problem.NotLoggedIn);
        }
        var account = await people.FindAsync(id);
        var keys = throttles.LogIn(
            account.UserName!,
            context.Connection.RemoteIpAddress?.ToString() ?? ""
        );
        Throttles.Begin(keys);
        if (await people.RecogniseAsync(account.UserName!, password) is null)
        {
            throw new ProblemException(Problem.WrongLogIn);
        }
        Throttles.Forgive(keys);
        return (caller, account);
    }

    private static async Task<IReadOnlyList<OpenSession>> ListAsync(
        HttpContext context,
        ShopStore store,
        TimeProvider clock
    )
    {
        var caller = CallerOf(context);
        var now = clock.GetUtcNow().UtcTicks;
        await using var data = store.NewContext();
        var all = caller.Who == Who.Owner;
        var open = await data
            .DeviceSessions.Where(each => each.RevokedTicks == null && each.ExpiresTicks > now)
            .Where(each => all || (!caller.IsByPin && each.AccountId == caller.Account))
            .OrderByDescending(each => each.LastSeenTicks)
            .ToListAsync();
        return [.. open.Select(each => OpenSession.Of(each, caller.Session))];
    }

    private static async Task<IResult> RevokeAsync(Guid id, HttpContext context, Sessions sessions)
    {
        var caller = CallerOf(context);
        var all = caller.Who == Who.Owner;
        var ended = await sessions.RevokeAsync(open =>
            open.Where(each =>
                each.Id == id && (all || (!caller.IsByPin && each.AccountId == caller.Account))
            )
        );
        return ended == 1
            ? Results.NoContent()
            : throw new ProblemException(Problem.NotFound, Texts.Get("problem.plain"));
    }
}

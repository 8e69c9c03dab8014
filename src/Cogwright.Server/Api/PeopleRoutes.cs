using Cogwright.Storage;
using Microsoft.EntityFrameworkCore;

namespace Cogwright.Server;

/// <summary>The people of the shop.</summary>
internal static class PeopleRoutes
{
    internal static void MapPeople(this IEndpointRouteBuilder api)
    {
        var people = api.MapGroup("/people").WithTags("People");
        people.MapGet("", ListAsync).WithSummary("The people of the shop, to choose from.");
        people
            .MapPost(
                "",
                async (NewPerson sent, People accounts) =>
                    Results.Created(
                        (string?)null,
                        new MadeAnswer(
                            (
                                await accounts.MakeAsync(
                                    sent.UserName,
                                    sent.DisplayName,
                                    sent.Password,
                                    sent.Role
                                )
                            ).Id
                        )
                    )
            )
            .Produces<MadeAnswer>(201)
            .WithSummary("Makes an account.");
        people
            .MapPatch("/{id:guid}", ChangeAsync)
            .WithSummary("Changes the name, the role, or whether the account may be used.");
        people
            .MapPut("/{id:guid}/password", SetPasswordAsync)
            .WithSummary("Sets somebody's password; their sessions end.");
    }

    private static async Task<IReadOnlyList<PersonAnswer>> ListAsync(
        HttpContext context,
        ShopStore store,
        CancellationToken cancellation
    )
    {
        var seesAll = SessionRoutes.CallerOf(context).Who == Who.Owner;
        await using var data = store.NewContext();
        var found = await (
            from account in data.Users
            where seesAll || account.Active
            from userRole in data.UserRoles.Where(each => each.UserId == account.Id)
            from role in data.Roles.Where(each => each.Id == userRole.RoleId)
            orderby account.DisplayName
            select new PersonAnswer(
                account.Id,
                account.DisplayName,
                role.Name!,
                account.Active,
                account.PinHash != null
            )
        ).ToListAsync(cancellation);
        return found;
    }

    private static async Task<IResult> ChangeAsync(
        Guid id,
        ChangedPerson sent,
        People people,
        Sessions sessions
    )
    {
        var account = await people.FindAsync(id);
        await people.ChangeAsync(account, sent.DisplayName, sent.Role, sent.Active);
        if (sent.Active == false)
        {
            await sessions.RevokeAsync(open => open.Where(each => each.AccountId == id));
        }
        return Results.NoContent();
    }

    private static async Task<IResult> SetPasswordAsync(
        Guid id,
        NewPassword sent,
        HttpContext context,
        People people,
        Sessions sessions
    )
    {
        var own = SessionRoutes.CallerOf(context).Session;
        await people.SetPasswordAsync(await people.FindAsync(id), sent.Password);
        await sessions.RevokeAsync(open =>
            open.Where(each => each.AccountId == id && each.Id != own)
        );
        return Results.NoContent();
    }
}

/// <summary>A new account.</summary>
/// <param name="UserName">The name to log in with.</param>
/// <param name="DisplayName">The name that people see.</param>
/// <param name="Password">At least 12 characters.</param>
/// <param name="Role">"owner", "head-mechanic", "mechanic" or "guest".</param>
internal sealed record NewPerson(string UserName, string DisplayName, string Password, string Role);

/// <summary>What changes of an account; what is absent stays.</summary>
/// <param name="DisplayName">The name that people see.</param>
/// <param name="Role">The role.</param>
/// <param name="Active">Whether it may be used.</param>
internal sealed record ChangedPerson(
    string? DisplayName = null,
    string? Role = null,
    bool? Active = null
);

/// <summary>A new password for somebody.</summary>
/// <param name="Password">At least 12 characters.</param>
internal sealed record NewPassword(string Password);

/// <summary>A person of the shop.</summary>
/// <param name="Id">The account.</param>
/// <param name="DisplayName">The name that people see.</param>
/// <param name="Role">The role.</param>
/// <param name="IsActive">Whether the account may be used.</param>
/// <param name="HasPin">Whether a PIN is set.</param>
internal sealed record PersonAnswer(
    Guid Id,
    string DisplayName,
    string Role,
    bool IsActive,
    bool HasPin
);

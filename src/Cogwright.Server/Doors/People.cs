using Cogwright.Storage;
using Microsoft.AspNetCore.Identity;
using Microsoft.EntityFrameworkCore;

namespace Cogwright.Server;

/// <summary>The accounts: made, changed, recognised by password or PIN.</summary>
internal sealed class People(
    UserManager<Account> accounts,
    RoleManager<IdentityRole<Guid>> roles,
    IPasswordHasher<Account> hasher,
    StoreContext data,
    TimeProvider clock
)
{
    /// <summary>A PIN has so many digits.</summary>
    internal const int FewestPinDigits = 4;

    /// <inheritdoc cref="FewestPinDigits"/>
    internal const int MostPinDigits = 8;

    // Checked when there is no such account, so that both take equally long.
    private static readonly Account Nobody = new();
    private static readonly string NobodysHash = new PasswordHasher<Account>().HashPassword(
        Nobody,
        Tokens.New()
    );

    // Its row can be there once: of two who come at once, on whatever server, one makes the owner.
    private const string OwnerClaim = "server.owner-claim";

    /// <summary>Makes the first account.</summary>
    internal async Task<Account> MakeOwnerAsync(
        string userName,
        string displayName,
        string password
    )
    {
        var ticks = clock.GetUtcNow().UtcTicks;
        data.ShopSettings.Add(
            new ShopSetting
            {
                Name = OwnerClaim,
                Value = "",
                ChangedTicks = ticks,
            }
        );
        try
        {
            return await MakeAsync(userName, displayName, password, Roles.Owner)
                .ConfigureAwait(false);
        }
        catch (DbUpdateException)
        {
            throw new ProblemException(Problem.OwnerExists);
        }
    }

    /// <summary>Makes an account.</summary>
    internal async Task<Account> MakeAsync(
        string userName,
        string displayName,
        string password,
        string role
    )
    {
        if (!Roles.All.Contains(role))
        {
            throw new ProblemException(Problem.BadField, "role", string.Join(", ", Roles.All));
        }
        var name = displayName.Trim();
        if (name.Length is 0 or > 128)
        {
            throw new ProblemException(
                Problem.BadField,
                "displayName",
                Texts.Get("field.displayName")
            );
        }
        var account = new Account
        {
            Id = Guid.CreateVersion7(clock.GetUtcNow()),
            UserName = userName,
            DisplayName = name,
            CreatedTicks = clock.GetUtcNow().UtcTicks,
        };
        // Account and role together or not at all.
        await using var transaction = await data
            .Database.BeginTransactionAsync()
            .ConfigureAwait(false);
        await EnsureRolesAsync().ConfigureAwait(false);
        Demand(await accounts.CreateAsync(account, password).ConfigureAwait(false));
        Demand(await accounts.AddToRoleAsync(account, role).ConfigureAwait(false));
        await transaction.CommitAsync().ConfigureAwait(false);
        return account;
    }

    internal async Task<Account> FindAsync(Guid id) =>
        await accounts.FindByIdAsync(id.ToString()).ConfigureAwait(false)
        ?? throw new ProblemException(Problem.NotFound, Texts.Get("problem.plain"));

    internal async Task<Account> FindAsync(string userName) =>
        await accounts.FindByNameAsync(userName).ConfigureAwait(false)
        ?? throw new ProblemException(Problem.NotFound, Texts.Get("password.nobody", userName));

    internal async Task<string> RoleOfAsync(Account account) =>
        (await accounts.GetRolesAsync(account).ConfigureAwait(false)).SingleOrDefault() ?? "";

    /// <summary>The account with that name and password; null, after the same time, if there is none.</summary>
    internal async Task<Account?> RecogniseAsync(string userName, string password)
    {
        var account = await accounts.FindByNameAsync(userName).ConfigureAwait(false);
        var isRight =
            hasher.VerifyHashedPassword(
                account ?? Nobody,
                account?.PasswordHash ?? NobodysHash,
                password
            ) != PasswordVerificationResult.Failed;
        return isRight && account is { Active: true } ? account : null;
    }

    /// <summary>Whether the PIN is that of the account.</summary>
    internal async Task<Account?> RecogniseByPinAsync(Guid id, string pin)
    {
        var account = await accounts.FindByIdAsync(id.ToString()).ConfigureAwait(false);
        var isRight =
            hasher.VerifyHashedPassword(account ?? Nobody, account?.PinHash ?? NobodysHash, pin)
            != PasswordVerificationResult.Failed;
        return isRight && account is { Active: true } ? account : null;
    }

    internal async Task SetPasswordAsync(Account account, string password)
    {
        foreach (var check in accounts.PasswordValidators)
        {
            Demand(await check.ValidateAsync(accounts, account, password).ConfigureAwait(false));
        }
        account.PasswordHash = hasher.HashPassword(account, password);
        Demand(await accounts.UpdateSecurityStampAsync(account).ConfigureAwait(false));
    }

    /// <summary>Sets or, with null, takes away the PIN.</summary>
    internal async Task SetPinAsync(Account account, string? pin)
    {
        if (
            pin is not null
            && (pin.Length is < FewestPinDigits or > MostPinDigits || !pin.All(char.IsAsciiDigit))
        )
        {
            throw new ProblemException(
                Problem.BadField,
                "pin",
                Texts.Get("field.pin", FewestPinDigits, MostPinDigits)
            );
        }
        account.PinHash = pin is null ? null : hasher.HashPassword(account, pin);
        Demand(await accounts.UpdateAsync(account).ConfigureAwait(false));
    }

    /// <summary>Changes name, role, or whether the account may be used; one owner always stays.</summary>
    internal async Task ChangeAsync(
        Account account,
        string? displayName,
        string? role,
        bool? active
    )
    {
        if (role is not null && !Roles.All.Contains(role))
        {
            throw new ProblemException(Problem.BadField, "role", string.Join(", ", Roles.All));
        }
        if (displayName is { Length: 0 or > 128 })
        {
            throw new ProblemException(
                Problem.BadField,
                "displayName",
                Texts.Get("field.displayName")
            );
        }
        await using var transaction = await data
            .Database.BeginTransactionAsync()
            .ConfigureAwait(false);
        account.DisplayName = displayName ?? account.DisplayName;
        account.Active = active ?? account.Active;
        Demand(await accounts.UpdateAsync(account).ConfigureAwait(false));
        if (role is not null)
        {
            var before = await accounts.GetRolesAsync(account).ConfigureAwait(false);
            Demand(await accounts.RemoveFromRolesAsync(account, before).ConfigureAwait(false));
            Demand(await accounts.AddToRoleAsync(account, role).ConfigureAwait(false));
        }
        if (!await HasOwnerAsync().ConfigureAwait(false))
        {
            throw new ProblemException(Problem.LastOwner);
        }
        await transaction.CommitAsync().ConfigureAwait(false);
    }

    private async Task<bool> HasOwnerAsync() =>
        (await accounts.GetUsersInRoleAsync(Roles.Owner).ConfigureAwait(false)).Any(each =>
            each.Active
        );

    private async Task EnsureRolesAsync()
    {
        foreach (var role in Roles.All)
        {
            if (!await roles.RoleExistsAsync(role).ConfigureAwait(false))
            {
                await roles
                    .CreateAsync(new IdentityRole<Guid>(role) { Id = Guid.NewGuid() })
                    .ConfigureAwait(false);
            }
        }
    }

    private static void Demand(IdentityResult result)
    {
        if (!result.Succeeded)
        {
            // The codes: a description can quote the name.
            throw new ProblemException(
                Problem.RefusedAccount,
                string.Join(", ", result.Errors.Select(error => error.Code))
            );
        }
    }
}

using Cogwright.Storage;

namespace Cogwright.Server;

/// <summary>The first account.</summary>
/// <param name="UserName">The name to log in with.</param>
/// <param name="DisplayName">The name that people see.</param>
/// <param name="Password">At least 12 characters.</param>
/// <param name="DeviceName">What people call this device.</param>
internal sealed record NewOwner(
    string UserName,
    string DisplayName,
    string Password,
    string? DeviceName = null
);

/// <summary>A log-in.</summary>
/// <param name="UserName">The name to log in with.</param>
/// <param name="Password">The password.</param>
/// <param name="TrustDevice">Make this a trusted device, at which people change by PIN: for head mechanics and owners.</param>
/// <param name="Device">The device, as its entries name it.</param>
/// <param name="DeviceName">What people call it.</param>
internal sealed record LogIn(
    string UserName,
    string Password,
    bool TrustDevice = false,
    Guid? Device = null,
    string? DeviceName = null
);

/// <summary>Who works now at a trusted device.</summary>
/// <param name="Account">The person.</param>
/// <param name="Pin">Their PIN.</param>
internal sealed record PersonAtDevice(Guid Account, string Pin);

/// <summary>A new password of one's own.</summary>
/// <param name="Present">The present one.</param>
/// <param name="Password">The new one.</param>
internal sealed record NewOwnPassword(string Present, string Password);

/// <summary>A new PIN of one's own.</summary>
/// <param name="Password">The password.</param>
/// <param name="Pin">4 to 8 digits; null takes the PIN away.</param>
internal sealed record NewOwnPin(string Password, string? Pin);

/// <summary>Something was made.</summary>
/// <param name="Id">Its id.</param>
internal sealed record MadeAnswer(Guid Id);

/// <summary>Who a browser is.</summary>
/// <param name="Role">The role whose rights it has; "nobody": it has to log in.</param>
/// <param name="Account">The person; null: nobody in particular.</param>
/// <param name="Session">The session; null: there is none.</param>
/// <param name="IsTrustedDevice">Whether people may change by PIN here.</param>
/// <param name="IsByPin">Whether the person gave a PIN: it says who claims to act, no more.</param>
internal sealed record SessionAnswer(
    string Role,
    Guid? Account,
    Guid? Session,
    bool IsTrustedDevice,
    bool IsByPin
)
{
    internal static SessionAnswer Of(Caller caller) =>
        new(caller.Name, caller.Account, caller.Session, caller.IsTrustedDevice, caller.IsByPin);
}

/// <summary>A session that is open.</summary>
/// <param name="Id">The session.</param>
/// <param name="Account">Who logged in.</param>
/// <param name="DeviceName">What people call the device.</param>
/// <param name="IsTrustedDevice">Whether people may change by PIN there.</param>
/// <param name="Began">When it began.</param>
/// <param name="LastSeen">When it was last used, to some minutes.</param>
/// <param name="Ends">When it ends.</param>
/// <param name="IsThisOne">Whether it is the one that asks.</param>
internal sealed record OpenSession(
    Guid Id,
    Guid Account,
    string DeviceName,
    bool IsTrustedDevice,
    DateTimeOffset Began,
    DateTimeOffset LastSeen,
    DateTimeOffset Ends,
    bool IsThisOne
)
{
    internal static OpenSession Of(DeviceSession session, Guid? own) =>
        new(
            session.Id,
            session.AccountId,
            session.DeviceName,
            session.IsTrusted,
            new DateTimeOffset(session.CreatedTicks, TimeSpan.Zero),
            new DateTimeOffset(session.LastSeenTicks, TimeSpan.Zero),
            new DateTimeOffset(session.ExpiresTicks, TimeSpan.Zero),
            session.Id == own
        );
}

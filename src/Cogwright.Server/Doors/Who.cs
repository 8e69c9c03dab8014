namespace Cogwright.Server;

/// <summary>Who may do something.</summary>
[Flags]
internal enum Who
{
    /// <summary>Nobody.</summary>
    None = 0,

    /// <summary>Somebody who has not logged in.</summary>
    Anonymous = 1,

    /// <summary>Who may read: a guest, or a trusted device at which nobody has given a PIN.</summary>
    Guest = 2,

    /// <summary>Who works at the stand.</summary>
    Mechanic = 4,

    /// <summary>Who answers for the work.</summary>
    HeadMechanic = 8,

    /// <summary>Who answers for the shop.</summary>
    Owner = 16,

    /// <summary>From the head mechanic up.</summary>
    Heads = HeadMechanic | Owner,

    /// <summary>From the mechanic up.</summary>
    Workers = Mechanic | Heads,

    /// <summary>Everybody who has logged in.</summary>
    LoggedIn = Guest | Workers,

    /// <summary>Everybody.</summary>
    Anyone = Anonymous | LoggedIn,
}

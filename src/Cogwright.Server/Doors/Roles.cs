namespace Cogwright.Server;

/// <summary>The roles by the names they are stored under.</summary>
internal static class Roles
{
    internal const string Owner = "owner";
    internal const string HeadMechanic = "head-mechanic";
    internal const string Mechanic = "mechanic";
    internal const string Guest = "guest";

    /// <summary>Every role.</summary>
    internal static IReadOnlyList<string> All { get; } = [Owner, HeadMechanic, Mechanic, Guest];

    internal static Who Of(string? role) =>
        role switch
        {
            Owner => Who.Owner,
            HeadMechanic => Who.HeadMechanic,
            Mechanic => Who.Mechanic,
            Guest => Who.Guest,
            _ => Who.Anonymous,
        };

    internal static string NameOf(Who who) =>
        who switch
        {
            Who.Owner => Owner,
            Who.HeadMechanic => HeadMechanic,
            Who.Mechanic => Mechanic,
            Who.Guest => Guest,
            _ => "nobody",
        };
}

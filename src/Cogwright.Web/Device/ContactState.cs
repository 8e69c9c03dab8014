namespace Cogwright.Web.Device;

/// <summary>How this device stands with the shop's server.</summary>
internal enum ContactState
{
    /// <summary>Not tried yet.</summary>
    Untried,

    /// <summary>It answers.</summary>
    Reached,

    /// <summary>It cannot be reached; tried again later.</summary>
    Gone,

    /// <summary>It wants a log-in; waits for somebody.</summary>
    LogIn,

    /// <summary>It refuses; tried again later.</summary>
    Refused,
}

namespace Cogwright.Log;

/// <summary>How far an entry in the outbox has come.</summary>
public enum OutboxState
{
    /// <summary>No answer yet. It may have been sent; sending again does no harm.</summary>
    Unsent,

    /// <summary>The server refused it. It stays, is shown, and is sent again only when somebody asks.</summary>
    Refused,
}

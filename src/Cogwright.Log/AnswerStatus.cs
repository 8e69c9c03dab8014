namespace Cogwright.Log;

/// <summary>What a server says of an entry that was sent.</summary>
public enum AnswerStatus
{
    /// <summary>It is on the server's disk now.</summary>
    Created,

    /// <summary>It was there already, with the same content.</summary>
    Exists,

    /// <summary>It was not taken in.</summary>
    Refused,
}

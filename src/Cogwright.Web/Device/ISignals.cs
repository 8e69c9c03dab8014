namespace Cogwright.Web.Device;

/// <summary>What happens to the page, and the server's stream of changes.</summary>
internal interface ISignals
{
    /// <summary>The page came to the front, or the network came back.</summary>
    event Action? Woke;

    /// <summary>The page went to the back.</summary>
    event Action? Slept;

    /// <summary>A job has grown on the server: the data of the event.</summary>
    event Action<string>? Grown;

    /// <summary>The stream broke off.</summary>
    event Action? StreamEnded;

    /// <summary>Whether somebody can see the page.</summary>
    bool IsAwake { get; }

    /// <summary>Begins to hear; once.</summary>
    ValueTask BeginAsync();

    /// <summary>Opens the stream, in place of an older one.</summary>
    void Listen();

    /// <summary>Closes the stream.</summary>
    void StopListening();
}

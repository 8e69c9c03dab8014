namespace Cogwright.Server;

/// <summary>The server cannot start; the message says what, where, and what to do.</summary>
/// <param name="text">For people.</param>
/// <param name="inner">What the system said.</param>
internal sealed class ServerFaultException(string text, Exception? inner = null)
    : Exception(text, inner);

namespace Cogwright.Web.Parts;

/// <summary>The shop's library as its server hands it out.</summary>
/// <param name="Text">The parts as a CSV file: it is read several times faster than YAML.</param>
/// <param name="Mark">What the server calls this state of it; empty when it is not from there.</param>
public sealed record ShopLibrary(string Text, string Mark);

/// <summary>What became of an import.</summary>
/// <param name="Done">Parts read or stored so far.</param>
/// <param name="All">Parts there are, or null while nobody knows.</param>
public readonly record struct ImportProgress(long Done, long? All);

/// <summary>The shop's library of parts on its server.</summary>
public interface IShopParts
{
    /// <summary>The library, or null when it is still the state with that mark.</summary>
    /// <exception cref="HttpRequestException">The server cannot be reached, or refuses.</exception>
    Task<ShopLibrary?> FetchAsync(string? mark, CancellationToken cancellation);

    /// <summary>Brings the demo workshop's parts into the shop's library, or takes them out.</summary>
    /// <exception cref="HttpRequestException">The server cannot be reached, or refuses: then with a status.</exception>
    Task SetDemoAsync(bool there, CancellationToken cancellation);

    /// <summary>Stores the good parts of a file; all of them or, when it is ended before, none.</summary>
    /// <param name="file">The file, byte for byte.</param>
    /// <param name="name">What it is called.</param>
    /// <param name="mark">The state of the library of which was shown what would change: of another one nothing is stored. Empty: any.</param>
    /// <param name="progress">Told now and then.</param>
    /// <param name="cancellation">Ends it; whether it was done by then is not known.</param>
    /// <exception cref="HttpRequestException">
    /// With a status, the server refuses, nothing is stored, and the message says why and what to do; without one, the server could
    /// not be reached or broke off, and whether it was done is not known.
    /// </exception>
    Task ImportAsync(
        ReadOnlyMemory<byte> file,
        string name,
        string mark,
        IProgress<ImportProgress> progress,
        CancellationToken cancellation
    );
}

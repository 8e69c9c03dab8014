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
    /// <exception cref="HttpRequestException">The server cannot be reached, or refuses.</exception>
    Task SetDemoAsync(bool there, CancellationToken cancellation);

    /// <summary>Stores the good parts of a file; all of them or, when it is ended before, none.</summary>
    /// <param name="text">The file.</param>
    /// <param name="name">What it is called.</param>
    /// <param name="progress">Told now and then.</param>
    /// <param name="cancellation">Ends it.</param>
    /// <exception cref="HttpRequestException">The server cannot be reached, or refuses; the message says why.</exception>
    Task ImportAsync(
        string text,
        string name,
        IProgress<ImportProgress> progress,
        CancellationToken cancellation
    );
}

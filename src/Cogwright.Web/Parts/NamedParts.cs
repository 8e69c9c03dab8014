using System.Collections.Immutable;
using Cogwright.Files;
using Cogwright.Parts;
using Cogwright.Web.Bikes;

namespace Cogwright.Web.Parts;

/// <summary>A bike that names parts. Immutable.</summary>
/// <param name="Bike">The bike.</param>
/// <param name="Parts">Those of the parts asked about that it names.</param>
public sealed record NamedParts(BikeCard Bike, ImmutableArray<Part> Parts)
{
    /// <summary>The bikes on this device that name any of some parts: their specs would have errors without them.</summary>
    /// <param name="shelf">The bikes.</param>
    /// <param name="parts">The parts.</param>
    public static async Task<ImmutableArray<NamedParts>> OnAsync(
        IBikeShelf shelf,
        ImmutableArray<Part> parts
    )
    {
        ArgumentNullException.ThrowIfNull(shelf);
        var byId = parts.ToDictionary(part => part.Id);
        var found = ImmutableArray.CreateBuilder<NamedParts>();
        foreach (var card in await shelf.ListAsync().ConfigureAwait(true))
        {
            var ids = await shelf.OpenAsync(card.Id).ConfigureAwait(true) is { } history
                ? history.Sheet.NamedIds()
                : [];
            if (ids.Any(byId.ContainsKey))
            {
                found.Add(new(card, [.. ids.Where(byId.ContainsKey).Select(id => byId[id])]));
            }
        }
        return found.ToImmutable();
    }
}

using Microsoft.EntityFrameworkCore.Storage.ValueConversion;

namespace Cogwright.Storage;

/// <summary>An id as its 16 bytes in the order in which it is written, so that SQLite sorts it as the log does.</summary>
internal sealed class GuidBytesConverter()
    : ValueConverter<Guid, byte[]>(id => id.ToByteArray(true), bytes => new Guid(bytes, true));

using Microsoft.EntityFrameworkCore.Storage.ValueConversion;

namespace Cogwright.Storage;

/// <summary>A moment as 100 ns since the year 1, UTC.</summary>
internal sealed class TicksConverter()
    : ValueConverter<DateTimeOffset, long>(
        moment => moment.UtcTicks,
        ticks => new DateTimeOffset(ticks, TimeSpan.Zero)
    );

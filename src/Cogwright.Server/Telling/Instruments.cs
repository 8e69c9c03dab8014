using System.Diagnostics;
using System.Diagnostics.Metrics;

namespace Cogwright.Server;

/// <summary>
/// Hooks for OpenTelemetry, which nothing listens to as shipped: a host that wants figures subscribes to this name. No
/// exporter is among the dependencies.
/// </summary>
internal static class Instruments
{
    /// <summary>The name of source and meter.</summary>
    internal const string Name = "Cogwright.Server";

    private static readonly Meter Meter = new(Name);

    /// <summary>Traces.</summary>
    internal static ActivitySource Source { get; } = new(Name);

    /// <summary>Entries answered, by status.</summary>
    internal static Counter<long> Entries { get; } =
        Meter.CreateCounter<long>("cogwright.entries", "{entry}");

    /// <summary>Jobs that came in closed and could not be countersigned at once.</summary>
    internal static Counter<long> NotCountersigned { get; } =
        Meter.CreateCounter<long>("cogwright.notCountersigned", "{job}");

    /// <summary>Requests refused at the door, by code.</summary>
    internal static Counter<long> Refused { get; } =
        Meter.CreateCounter<long>("cogwright.refused", "{request}");

    /// <summary>Open live streams.</summary>
    internal static UpDownCounter<long> Streams { get; } =
        Meter.CreateUpDownCounter<long>("cogwright.streams", "{stream}");
}

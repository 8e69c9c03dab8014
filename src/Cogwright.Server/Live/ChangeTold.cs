namespace Cogwright.Server;

/// <summary>A job has grown.</summary>
/// <param name="Job">The job.</param>
/// <param name="Epoch">The life of the server's store.</param>
/// <param name="Receipt">The receipt number of its last entry.</param>
internal sealed record ChangeTold(Guid Job, Guid Epoch, long Receipt);

namespace Cogwright.Storage;

/// <summary>What an export wrote.</summary>
/// <param name="Folder">The folder.</param>
/// <param name="Counts">How much it holds.</param>
public sealed record ExportReport(string Folder, StoreCounts Counts);

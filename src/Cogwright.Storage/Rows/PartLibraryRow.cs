namespace Cogwright.Storage;

/// <summary>The one row that tells how often the library was changed. Whoever changes parts locks it first.</summary>
internal sealed class PartLibraryRow
{
    internal const int TheOne = 1;

    public int Number { get; set; }

    /// <summary>0: nobody has put anything in yet.</summary>
    public long Revision { get; set; }
}

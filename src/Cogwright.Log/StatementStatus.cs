namespace Cogwright.Log;

/// <summary>How a countersigned statement stands to what is here.</summary>
public enum StatementStatus
{
    /// <summary>The signature is not that of the key over these bytes.</summary>
    SignatureWrong,

    /// <summary>It is about another log.</summary>
    OtherLog,

    /// <summary>A statement is missing, or was replaced, in the chain of statements.</summary>
    StatementMissing,

    /// <summary>A later statement holds less than an earlier one.</summary>
    Shrunk,

    /// <summary>Entries that were there when it was signed are missing at the end of a chain.</summary>
    TailMissing,

    /// <summary>A chain holds other entries than when it was signed.</summary>
    Rewritten,

    /// <summary>The chains here hold another number of entries up to the ends stated.</summary>
    CountDiffers,
}

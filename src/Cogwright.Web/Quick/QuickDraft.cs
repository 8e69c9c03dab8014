namespace Cogwright.Web.Quick;

/// <summary>What was typed on the short path, kept while somebody looks at another page.</summary>
internal sealed class QuickDraft
{
    /// <summary>The entry so far.</summary>
    internal QuickEntry Entry { get; set; } = new();
}

using Cogwright.Setup.Jobs;

namespace Cogwright.Web.Jobs;

/// <summary>Kinds of work in words.</summary>
internal static class WorkKindWords
{
    /// <summary>A kind; one of a later version as it is named.</summary>
    internal static string Of(string kind) =>
        kind.Length == 0 ? Texts.Get("work.kindNone") : WorkKinds.TitleOf(kind);
}

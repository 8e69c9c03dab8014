namespace Cogwright.Parts;

/// <summary>What a rule answers, the worst first.</summary>
public enum Compatibility
{
    /// <summary>They do not belong together; the answer says why and by how much.</summary>
    No,

    /// <summary>Something is not known; the answer says what to measure or to look up.</summary>
    CannotSay,

    /// <summary>They belong together with an adapter, a setting or a gear left out; the answer says which.</summary>
    YesWith,

    /// <summary>They belong together.</summary>
    Yes,
}

namespace Cogwright.Parts;

/// <summary>What the value of a part's field looks like.</summary>
public enum PartShape
{
    /// <summary>The name of an interface: letters, digits, points and hyphens. Two parts meet when the names are the same.</summary>
    Tag,

    /// <summary>Several such names.</summary>
    Tags,

    /// <summary>A whole number.</summary>
    Whole,

    /// <summary>A length (mm).</summary>
    Length,

    /// <summary>A number without unit.</summary>
    Number,

    /// <summary>Whole numbers, such as the teeth of the cogs, the smallest first.</summary>
    Wholes,

    /// <summary>Lengths (mm) in their order.</summary>
    Lengths,
}

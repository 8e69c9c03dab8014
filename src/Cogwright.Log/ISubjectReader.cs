namespace Cogwright.Log;

/// <summary>Says what an entry writes. The caller knows the kinds; this room does not.</summary>
public interface ISubjectReader
{
    /// <summary>
    /// The subjects that an entry sets (an adjuster, a target, a stage), as keys; none if it sets nothing, or if its kind is
    /// not understood. It must depend on the entry alone.
    /// </summary>
    IEnumerable<string> SubjectsOf(Entry entry);
}

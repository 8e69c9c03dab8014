using System.Text;

namespace Cogwright.Log.Tests;

/// <summary>Entries of the kind "set" write the subjects that their body lists, with commas between.</summary>
internal sealed class BodySubjects : ISubjectReader
{
    public IEnumerable<string> SubjectsOf(Entry entry) =>
        entry.Kind == "set" ? Encoding.UTF8.GetString(entry.Body.Span).Split(',') : [];
}

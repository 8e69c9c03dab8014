using System.Globalization;

namespace Cogwright.Files;

/// <summary>Something wrong with a file, with its exact place. Immutable.</summary>
/// <param name="File">The name of the file, as it was given to the reader.</param>
/// <param name="Line">Line, counted from 1.</param>
/// <param name="Column">Column in that line, counted from 1.</param>
/// <param name="Field">The field, such as <c>rings[1].teeth</c>; empty when it is about the file itself.</param>
/// <param name="Message">What is wrong, what was expected, and what to do next.</param>
/// <param name="IsError">True when the file cannot be used; false for a remark.</param>
public sealed record FileProblem(
    string File,
    int Line,
    int Column,
    string Field,
    string Message,
    bool IsError
)
{
    /// <summary>The problem on one line: file, line, column, field and message.</summary>
    public override string ToString() =>
        string.Create(
            CultureInfo.InvariantCulture,
            $"{File}:{Line}:{Column}: {(Field.Length > 0 ? Field + ": " : "")}{Message}"
        );
}

namespace Cogwright.Architecture.Tests;

/// <summary>One place in compiled code that refers to a type, or to a member of it.</summary>
/// <param name="FromNamespace">The namespace of the type that refers.</param>
/// <param name="FromType">The type that refers, after those that it is nested in.</param>
/// <param name="FromMember">The member of it that refers; empty for the type's own declaration.</param>
/// <param name="IsWrittenByCompiler">The place was made by the compiler for a lambda or an iterator.</param>
/// <param name="ToAssembly">The assembly of what is referred to.</param>
/// <param name="ToType">The full name of the type referred to, generic arguments left out.</param>
/// <param name="ToMember">The member referred to, with its parameter types; empty for the type alone.</param>
public sealed record Use(
    string FromNamespace,
    string FromType,
    string FromMember,
    bool IsWrittenByCompiler,
    string ToAssembly,
    string ToType,
    string ToMember
)
{
    /// <summary>
    /// The type and member that refer. What the compiler wrote for a lambda, an iterator or a task
    /// has the name of its method in angle brackets, so that name is in here too.
    /// </summary>
    public string Place => $"{FromType}.{FromMember}";

    /// <summary>The place and what it refers to, for the message of a failed test.</summary>
    public override string ToString() =>
        $"{FromNamespace}.{Place} uses {ToType} {ToMember}".TrimEnd();
}

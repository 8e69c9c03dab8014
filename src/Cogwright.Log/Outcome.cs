using System.Diagnostics.CodeAnalysis;

namespace Cogwright.Log;

/// <summary>A value, or why there is none.</summary>
public sealed record Outcome<T>
    where T : class
{
    internal Outcome(T value) => Value = value;

    internal Outcome(LogFault fault) => Fault = fault;

    /// <summary>The value; null if it was refused.</summary>
    public T? Value { get; }

    /// <summary>Why it was refused; null if it was not.</summary>
    public LogFault? Fault { get; }

    /// <summary>Whether there is a value.</summary>
    [MemberNotNullWhen(true, nameof(Value))]
    [MemberNotNullWhen(false, nameof(Fault))]
    public bool IsGood => Value is not null;
}

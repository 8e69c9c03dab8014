namespace Cogwright.Setup.Procedures.Lint;

/// <summary>Something that a procedure should not be given out with. Immutable.</summary>
/// <param name="Rule">The rule it breaks: one of <see cref="LintRules.All"/>.</param>
/// <param name="Path">The field it is about, such as <c>steps[3].torque</c>.</param>
/// <param name="Message">What is wrong.</param>
public sealed record LintFinding(string Rule, string Path, string Message)
{
    /// <summary>What to do about it.</summary>
    public string WhatToDo => Texts.Get($"lint.{Rule}.todo");

    /// <summary>Where the rule comes from.</summary>
    public string Source => Texts.Get($"lint.{Rule}.source");
}

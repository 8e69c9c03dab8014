using Cogwright.Setup.Procedures.Expressions;

namespace Cogwright.Setup.Procedures;

/// <summary>A fastener to tighten. What is null was not said. Immutable.</summary>
public sealed record StepTorque
{
    /// <summary>Which: one of <see cref="Fasteners.All"/>.</summary>
    public required string Fastener { get; init; }

    /// <summary>Least torque (N·m).</summary>
    public Expression? Least { get; init; }

    /// <summary>Greatest torque (N·m).</summary>
    public Expression? Most { get; init; }

    /// <summary>Which kind of tool: one of <see cref="ProcedureWords.ToolClasses"/>.</summary>
    public string? ToolClass { get; init; }

    /// <summary>How the thread is treated: one of <see cref="ProcedureWords.ThreadTreatments"/>.</summary>
    public string? Thread { get; init; }
}

/// <summary>What is measured or looked at after a step. What is null was not said. Immutable.</summary>
public sealed record StepCheck
{
    /// <summary>What is measured, such as <c>gap</c>; the name of a target where there is one (<see cref="TargetNames"/>).</summary>
    public required string Quantity { get; init; }

    /// <summary>Ring that the chain lies on (teeth).</summary>
    public Expression? Ring { get; init; }

    /// <summary>Cog that the chain lies on (teeth).</summary>
    public Expression? Cog { get; init; }

    /// <summary>From what to what, where the chain lies, how the rear end stands.</summary>
    public string? Convention { get; init; }

    /// <summary>What it should be.</summary>
    public Expression? Target { get; init; }

    /// <summary>How far it may be from <see cref="Target"/>, either way.</summary>
    public Expression? Tolerance { get; init; }

    /// <summary>Least that it may be.</summary>
    public Expression? Least { get; init; }

    /// <summary>Most that it may be.</summary>
    public Expression? Most { get; init; }

    /// <summary>What is seen, heard or felt when it is right.</summary>
    public string? Expected { get; init; }

    /// <summary>The name under which the reading is kept.</summary>
    public string? Result { get; init; }

    /// <summary>Whether it asks for a number.</summary>
    public bool HasNumber => Target is not null || Least is not null || Most is not null;
}

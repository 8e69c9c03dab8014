namespace Cogwright.Fastening;

/// <summary>What a tool is to do at a fastener. Immutable.</summary>
/// <param name="Range">What the fastener is to get (N·m).</param>
public sealed record TighteningTask(TorqueRange Range)
{
    /// <summary>Whether its thread is left-handed: it tightens anticlockwise.</summary>
    public bool IsLeftHand { get; init; }

    /// <summary>The least sure kind of tool that the procedure lets at it, or null when it does not say.</summary>
    public ToolKind? LeastSure { get; init; }

    /// <summary>What stands between the tool and the fastener.</summary>
    public WrenchAdapter Adapter { get; init; } = WrenchAdapter.None;
}

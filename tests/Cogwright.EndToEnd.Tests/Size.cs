namespace Cogwright.EndToEnd.Tests;

/// <summary>A window (CSS pixels).</summary>
/// <param name="Name">What it is called in the names of pictures.</param>
/// <param name="Width">Width.</param>
/// <param name="Height">Height.</param>
public sealed record Size(string Name, int Width, int Height)
{
    /// <summary>A phone in one hand.</summary>
    public static Size Phone { get; } = new("phone", 360, 780);

    /// <summary>A tablet or screen at the desk.</summary>
    public static Size Desk { get; } = new("desk", 1280, 800);

    /// <summary>Both, as test cases.</summary>
    public static TheoryData<string> Both => ["phone", "desk"];

    /// <summary>The one with that name.</summary>
    public static Size Named(string name) => name == Phone.Name ? Phone : Desk;
}

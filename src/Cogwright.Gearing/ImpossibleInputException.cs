namespace Cogwright.Gearing;

/// <summary>
/// Input that no bicycle, rider or road can have. The message says what it is, what was expected and what to do; it is written
/// for the person who typed it.
/// </summary>
public sealed class ImpossibleInputException : Exception
{
    /// <summary>An input that cannot be.</summary>
    /// <param name="input">What the number belongs to, such as <c>mass</c> or <c>rings</c>; a stable name for programs.</param>
    /// <param name="message">What is wrong, what was expected, what to do.</param>
    public ImpossibleInputException(string input, string message)
        : base(message) => Input = input;

    /// <summary>What the number belongs to; a stable name for programs.</summary>
    public string Input { get; }
}

using Microsoft.JSInterop;

namespace Cogwright.Web.Tests.Device;

/// <summary>A browser's scripts of which some calls fail.</summary>
/// <param name="fails">What a call of that name fails with, or null.</param>
internal sealed class BrokenScripts(Func<string, string?> fails) : IJSRuntime, IJSObjectReference
{
    public ValueTask<TValue> InvokeAsync<TValue>(string identifier, object?[]? args) =>
        fails(identifier) is { } said ? throw new JSException(said)
        : this is TValue module ? new(module)
        : new(default(TValue)!);

    public ValueTask<TValue> InvokeAsync<TValue>(
        string identifier,
        CancellationToken cancellationToken,
        object?[]? args
    ) => InvokeAsync<TValue>(identifier, args);

    public ValueTask DisposeAsync() => ValueTask.CompletedTask;
}

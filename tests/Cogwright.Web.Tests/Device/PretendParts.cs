using System.Text;
using Cogwright.Files;
using Cogwright.Parts;

namespace Cogwright.Web.Tests.Device;

using Cogwright.Web.Parts;

/// <summary>The shop's library on a server in memory.</summary>
internal sealed class PretendParts : IShopParts
{
    private int revision;
    private ShopLibrary? now;

    /// <summary>What a request fails with, or null.</summary>
    internal Exception? Fails { get; set; }

    /// <summary>What it calls the state it is in.</summary>
    internal string? Mark => now?.Mark;

    internal int Fetches { get; private set; }

    /// <summary>What the server holds from now on.</summary>
    internal void Hold(params IEnumerable<Part> parts) => Hold(PartsWriter.ToCsv([.. parts]));

    /// <summary>What it, or somebody in its place, answers from now on.</summary>
    internal void Hold(string text) => now = new(text, $"\"{++revision}\"");

    public Task<ShopLibrary?> FetchAsync(string? mark, CancellationToken cancellation)
    {
        Fetches++;
        cancellation.ThrowIfCancellationRequested();
        return Fails is { } fault
            ? Task.FromException<ShopLibrary?>(fault)
            : Task.FromResult(now?.Mark == mark ? null : now);
    }

    public Task SetDemoAsync(bool there, CancellationToken cancellation)
    {
        if (Fails is { } fault)
        {
            return Task.FromException(fault);
        }
        Hold(there ? DemoParts.Library.Parts : []);
        return Task.CompletedTask;
    }

    /// <summary>What happens at an import, after which the server answers as is said in <see cref="Imports"/>.</summary>
    internal Action Importing { get; set; } = () => { };

    /// <summary>Whether the server stores what is sent, even if its answer does not arrive.</summary>
    internal bool Stores { get; set; } = true;

    /// <summary>How an import ends, or null: well.</summary>
    internal Exception? Imports { get; set; }

    /// <summary>The state that the last import was meant for.</summary>
    internal string? ImportedOn { get; private set; }

    public Task ImportAsync(
        ReadOnlyMemory<byte> file,
        string name,
        string mark,
        IProgress<ImportProgress> progress,
        CancellationToken cancellation
    )
    {
        ImportedOn = mark;
        if (Stores)
        {
            Hold(Encoding.UTF8.GetString(file.Span));
        }
        Importing();
        return Imports is { } fault ? Task.FromException(fault) : Task.CompletedTask;
    }
}

/// <summary>The library in memory, as a browser's cache has it.</summary>
internal sealed class PretendKeep : ILibraryKeep
{
    /// <summary>What is kept.</summary>
    internal ShopLibrary? Kept { get; set; }

    /// <summary>Reading it waits for this.</summary>
    internal Task Gate { get; set; } = Task.CompletedTask;

    public async ValueTask<ShopLibrary?> KeptAsync()
    {
        await Gate;
        return Kept;
    }

    public ValueTask KeepAsync(ShopLibrary library)
    {
        Kept = library;
        return ValueTask.CompletedTask;
    }
}

namespace Cogwright.Storage;

/// <summary>Something to be written. Several share one transaction; each is answered after its commit and not before.</summary>
internal abstract class WriteWork
{
    /// <summary>The log whose row it locks. Works are done in this order, so that two servers cannot wait for each other.</summary>
    internal abstract Guid Log { get; }

    /// <summary>Whether it takes in or erases photos, whose sum over all logs is limited.</summary>
    internal virtual bool LocksShop => false;

    /// <summary>Whether the log is begun by it, if it is not here.</summary>
    internal virtual bool OpensLog => true;

    /// <summary>Whether bytes that it deletes must vanish from the files.</summary>
    internal virtual bool Purges => false;

    /// <summary>Whether it has a transaction of its own: one that takes long, and may be ended on its way.</summary>
    internal virtual bool IsAlone => false;

    /// <summary>Ends it while it runs; counts only if <see cref="IsAlone"/>.</summary>
    internal virtual CancellationToken Cancellation => CancellationToken.None;

    /// <summary>How many bytes it brings, about: bounds what one transaction takes.</summary>
    internal virtual long SizeBytes => 0;

    /// <summary>Does it. It may run a second time, if the first transaction was rolled back.</summary>
    internal abstract Task RunAsync(WriteTransaction transaction);

    /// <summary>It is on the disk.</summary>
    /// <param name="bytes">What has become of the bytes that it deleted; counts only if <see cref="Purges"/>.</param>
    internal abstract void Succeed(ErasedBytes bytes);

    /// <summary>It was not done.</summary>
    internal abstract void Fail(StoreFaultException fault);

    /// <summary>It was ended on its way, and nothing of it is left.</summary>
    internal abstract void End();
}

/// <summary>Something to be written that has an answer.</summary>
internal abstract class WriteWork<TAnswer> : WriteWork
{
    private readonly TaskCompletionSource<TAnswer> done = new(
        TaskCreationOptions.RunContinuationsAsynchronously
    );

    internal Task<TAnswer> Done => done.Task;

    protected abstract TAnswer Answer(ErasedBytes bytes);

    internal sealed override void Succeed(ErasedBytes bytes) => done.TrySetResult(Answer(bytes));

    internal sealed override void Fail(StoreFaultException fault) => done.TrySetException(fault);

    internal sealed override void End() => done.TrySetCanceled(Cancellation);
}

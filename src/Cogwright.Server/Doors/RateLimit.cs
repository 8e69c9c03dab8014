namespace Cogwright.Server;

/// <summary>So many requests for each address: a bucket that fills again steadily.</summary>
internal sealed class RateLimit(RequestDelegate next, ServerOptions options)
{
    private const int MostAddresses = 10_000;

    private readonly double perSecond = options.RequestsPerMinute / 60.0;
    private readonly double most = Math.Max(1, options.RequestsPerMinute / 6.0);
    private readonly Dictionary<string, (double Left, long At)> buckets = [];
    private readonly Lock gate = new();

    public Task InvokeAsync(HttpContext context) =>
        Wait(context.Connection.RemoteIpAddress?.ToString() ?? "") is { } wait
            ? throw new ProblemException(Problem.TooMany, options.RequestsPerMinute)
            {
                RetryAfter = wait,
            }
            : next(context);

    private TimeSpan? Wait(string address)
    {
        var now = options.Clock.GetTimestamp();
        lock (gate)
        {
            if (buckets.Count >= MostAddresses && !buckets.ContainsKey(address))
            {
                // Whoever commands that many addresses gets no further by it: all begin anew.
                buckets.Clear();
            }
            var (left, at) = buckets.GetValueOrDefault(address, (most, now));
            left = Math.Min(
                most,
                left + (options.Clock.GetElapsedTime(at, now).TotalSeconds * perSecond)
            );
            var isIn = left >= 1;
            buckets[address] = (isIn ? left - 1 : left, now);
            return isIn ? null : TimeSpan.FromSeconds((1 - left) / perSecond);
        }
    }
}

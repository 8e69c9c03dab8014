namespace Cogwright.Web.Bikes;

/// <summary>A shelf that forgets with the page: where a browser gives no storage.</summary>
internal sealed class MemoryShelf : IBikeShelf
{
    private readonly Dictionary<string, BikeHistory> bikes = [];
    private readonly List<string> order = [];
    private bool hasDemo = true;

    public event Action? Changed;

    public int UnsentCount => bikes.Values.Sum(bike => bike.Changes.Count);

    public ValueTask<IReadOnlyList<BikeCard>> ListAsync() =>
        new([
            .. order
                .AsEnumerable()
                .Reverse()
                .Select(id => new BikeCard(id, bikes[id].Sheet["name"] ?? id, false)),
            .. DemoWorkshop
                .Ids.Where(_ => hasDemo)
                .Select(id => new BikeCard(id, DemoWorkshop.Sheet(id)["name"] ?? id, true)),
        ]);

    public ValueTask<BikeHistory?> OpenAsync(string id) =>
        new(
            bikes.GetValueOrDefault(id)
                ?? (DemoWorkshop.Ids.Contains(id) ? DemoWorkshop.History(id) : null)
        );

    public ValueTask<string> StartAsync(SpecChange first)
    {
        var id = Guid.CreateVersion7().ToString();
        bikes[id] = BikeHistory.Empty.With(first);
        order.Add(id);
        Changed?.Invoke();
        return new(id);
    }

    public ValueTask<BikeHistory> AddAsync(string id, SpecChange change)
    {
        bikes[id] = bikes[id].With(change);
        order.Remove(id);
        order.Add(id);
        Changed?.Invoke();
        return new(bikes[id]);
    }

    public ValueTask RemoveDemoAsync()
    {
        hasDemo = false;
        Changed?.Invoke();
        return default;
    }

    public ValueTask RestoreDemoAsync()
    {
        hasDemo = true;
        Changed?.Invoke();
        return default;
    }
}

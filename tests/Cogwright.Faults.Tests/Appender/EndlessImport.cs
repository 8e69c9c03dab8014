using System.Globalization;
using Cogwright.Parts;
using Cogwright.Storage;

namespace Cogwright.Faults;

/// <summary>Puts large libraries in, one after the other, and says how far it is, until it is killed.</summary>
internal static class EndlessImport
{
    internal static async Task RunAsync(string folder, int parts)
    {
        var store = await ShopStore.OpenAsync(new StoreOptions(folder)).ConfigureAwait(false);
        Console.WriteLine("ready");
        if (Console.ReadLine() is null)
        {
            return;
        }
        // The input ends with whoever started it: nothing is put in for nobody.
        _ = Task.Run(() =>
        {
            while (Console.ReadLine() is not null) { }
            Environment.Exit(1);
        });
        for (var round = await store.PartsRevisionAsync().ConfigureAwait(false) + 1; ; round++)
        {
            Part[] library =
            [
                .. Enumerable
                    .Range(1, parts)
                    .Select(number => new Part
                    {
                        Id = string.Create(CultureInfo.InvariantCulture, $"cassette-{number}"),
                        Kind = PartKind.Cassette,
                        // The same in all parts of a library: a mixture of two shows.
                        Name = string.Create(CultureInfo.InvariantCulture, $"Round {round}"),
                    }),
            ];
            var put = await store.PutPartsAsync(library, new Said()).ConfigureAwait(false);
            Say($"done {put.Revision}");
        }
    }

    private static void Say(string text)
    {
        Console.WriteLine(text);
        Console.Out.Flush();
    }

    private sealed class Said : IProgress<int>
    {
        public void Report(int value) => Say($"at {value}");
    }
}

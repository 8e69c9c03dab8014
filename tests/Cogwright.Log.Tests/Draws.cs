using System.Collections.Immutable;
using CsCheck;

namespace Cogwright.Log.Tests;

/// <summary>Random fields of entries, every optional one sometimes absent.</summary>
internal static class Draws
{
    private static readonly Gen<Guid> Ids = Gen.Byte.Array[16].Select(bytes => new Guid(bytes));

    private static readonly Gen<Digest> Digests = Gen
        .Byte.Array[Digest.Length]
        .Select(bytes => new Digest(bytes));

    private static readonly Gen<string> Words = Gen.OneOf(
        Gen.String[Gen.Char['!', '~'], 1, 20],
        Gen.OneOf(
            new[] { "żółć", "δοκιμή", "🚲", "a\u0000b", "e\u0301" }
                .Select(word => Gen.Const(word))
                .ToArray()
        )
    );

    private static readonly Gen<ImmutableArray<EntryExtension>> Extensions = Gen.Select(
            Gen.Byte[EntryTag.FirstUnknown, 255],
            Gen.Byte.Array[0, 8]
        )
        .Array[0, 3]
        .Select(all =>
            all.DistinctBy(each => each.Item1)
                .OrderBy(each => each.Item1)
                .Select(each => new EntryExtension(each.Item1, each.Item2))
                .ToImmutableArray()
        );

    internal static Gen<EntryFields> Fields { get; } =
        Gen.Select(
            Gen.Select(Ids, Ids, Ids, Gen.Long[1, EntryLimits.Sequence], Gen.Long),
            Gen.Select(Words, Words, Gen.Int[1, int.MaxValue], Gen.Byte.Array[0, 60]),
            Gen.Select(Ids.Array[0, 4], Digests, Ids, Gen.Bool, Digests.Array[0, 3]),
            Extensions,
            (place, said, seen, extensions) =>
                new EntryFields
                {
                    Id = new EntryId(place.Item1),
                    Log = new LogId(place.Item2),
                    Device = new DeviceId(place.Item3),
                    Sequence =
                        seen.Item4 ? 1
                        : place.Item4 + 1 > EntryLimits.Sequence ? 2
                        : place.Item4 + 1,
                    WallClockTicks = place.Item5,
                    Author = said.Item1,
                    Kind = said.Item2,
                    KindVersion = said.Item3,
                    Body = said.Item4,
                    Heads = [.. seen.Item1.Select(id => new EntryId(id))],
                    Previous = seen.Item4 ? null : seen.Item2,
                    Corrects = place.Item5 % 2 == 0 ? new EntryId(seen.Item3) : null,
                    Personal = [.. seen.Item5.Distinct()],
                    Extensions = extensions,
                }
        );
}

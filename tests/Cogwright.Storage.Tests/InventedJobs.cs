using Cogwright.Log;

namespace Cogwright.Storage.Tests;

/// <summary>Invented jobs: words as unevenly common as in any shop, names, serials of which no two are the same.</summary>
internal sealed class InventedJobs
{
    private const int Vocabulary = 6000;

    internal static readonly DateTime Now = new(2026, 11, 30, 8, 0, 0, DateTimeKind.Utc);

    private static readonly string[] Syllables =
    [
        "ka",
        "lo",
        "mi",
        "ter",
        "an",
        "so",
        "vel",
        "ru",
        "pe",
        "dor",
        "hin",
        "gas",
        "fe",
        "bu",
        "cas",
        "ni",
    ];

    private static readonly string[] Stages =
    [
        "intake",
        "compatibility",
        "targets",
        "set-up",
        "test",
        "handover",
        "aftercare",
    ];

    private readonly Random random;
    private readonly string[] words;
    private readonly string[] names;

    internal InventedJobs(int seed)
    {
        random = new Random(seed);
        words = [.. Enumerable.Range(0, Vocabulary).Select(_ => Word(2, 4))];
        names = [.. Enumerable.Range(0, 3000).Select(_ => Word(3, 4))];
    }

    internal FoldedLog Make(int number, int of)
    {
        var begun = Now.AddMinutes(-(of - number) * 8L).Ticks;
        var isOpen = number % 1000 == 0 || of - number < 60;
        var log = new LogId(new Guid(number + 1, 0, 0, new byte[8]));
        var said = random.Next(3) == 0 ? SearchWords.Of(Pick(names), Some(6)) : [];
        return new(
            log,
            1,
            1,
            [
                new(
                    new ListedJob(log, $"job{number}", Some(2))
                    {
                        Title = Some(4),
                        Kind = number % 3 == 0 ? "gears" : "full",
                        Stage = Stages[random.Next(Stages.Length)],
                        InHandsOf = isOpen ? $"P{random.Next(8)}" : "",
                        Waits = isOpen ? "work" : "",
                        BegunTicks = begun,
                        LastTicks = begun,
                        ClosedTicks = isOpen ? null : begun + TimeSpan.TicksPerDay,
                        DueOn =
                            of - number < 500
                                ? DateOnly.FromDateTime(Now).AddDays(number % 40)
                                : null,
                        Cause = number % 50 == 0 ? "cable-settling" : "",
                        StageSeconds = [600, 300, 200, 3600, 900, 200, 0],
                    },
                    SearchWords.Of(
                        Some(30),
                        $"SN{random.Next():x8} serial bike",
                        $"P{random.Next(8)}"
                    ),
                    said
                ),
            ]
        );
    }

    internal IEnumerable<(string What, string[] Questions)> Questions(int each) =>
        [
            ("a serial, its first six signs", [.. Times(each, () => $"sn{random.Next():x8}"[..6])]),
            ("a customer's name", [.. Times(each, () => Pick(names))]),
            ("a rare word", [.. Times(each, () => words[random.Next(Vocabulary / 2, Vocabulary)])]),
            ("a common word", [.. Times(each, () => words[random.Next(20)])]),
            ("a word of every job", [.. Times(each, () => "bike")]),
            ("one letter", [.. Times(each, () => Pick(Syllables)[..1])]),
            ("two letters", [.. Times(each, () => Pick(Syllables)[..2])]),
            ("four letters", [.. Times(each, () => words[random.Next(200)][..4])]),
            (
                "two common words",
                [.. Times(each, () => $"{words[random.Next(20)]} {words[random.Next(20)]}")]
            ),
            (
                "a common and a rare word",
                [.. Times(each, () => $"bike {words[random.Next(3000, Vocabulary)]}")]
            ),
            (
                "beginnings of three words",
                [
                    .. Times(
                        each,
                        () => $"{Pick(Syllables)} {Pick(Syllables)} {words[random.Next(200)][..4]}"
                    ),
                ]
            ),
            ("a word that is nowhere", [.. Times(each, () => "zz" + Word(2, 2))]),
        ];

    private static IEnumerable<string> Times(int count, Func<string> make) =>
        Enumerable.Range(0, count).Select(_ => make());

    // The n-th word comes about 1/n as often as the first.
    private string Some(int count) =>
        string.Join(
            ' ',
            Enumerable
                .Range(0, count)
                .Select(_ => words[(int)Math.Pow(Vocabulary, random.NextDouble()) - 1])
        );

    private string Word(int fewest, int most) =>
        string.Concat(
            Enumerable.Range(0, random.Next(fewest, most + 1)).Select(_ => Pick(Syllables))
        );

    private string Pick(string[] from) => from[random.Next(from.Length)];
}

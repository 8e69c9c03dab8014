using System.Text;
using CsCheck;
using Ical.Net;

namespace Cogwright.Care.Tests;

public sealed class CareCalendarTests
{
    private static readonly DateOnly Today = new(2026, 7, 1);
    private static readonly DateTime Stamp = new(2026, 7, 1, 9, 30, 5, DateTimeKind.Utc);

    private static DueItem Item(string what, DateOnly? day) =>
        new(CareKind.Cable, CarePlace.Rear, DueState.Later, what, "why", "from") { Day = day };

    private static string Write(params ReadOnlySpan<DueItem> items) =>
        CareCalendar.Write(items.ToArray(), "17", Today, Stamp);

    [Fact]
    public void Write_Item_IsReadBackByIcalNet()
    {
        const string What = "Replace: chain; cable, housing \\ and so on\nsecond line";
        var read = Calendar.Load(Write(Item(What, new(2026, 8, 3))))!;
        var found = Assert.Single(read.Events);

        Assert.Equal(What + " (bike 17)", found.Summary);
        Assert.Equal("why\nfrom", found.Description);
        Assert.Equal(new(2026, 8, 3), found.DtStart!.Date);
        Assert.Equal(new(2026, 8, 4), found.DtEnd!.Date);
        Assert.False(found.DtStart.HasTime);
        Assert.Equal(Stamp, found.DtStamp!.AsUtc);
        Assert.Equal("2.0", read.Version);
    }

    [Fact]
    public void Write_AnyText_IsFoldedAndReadBack() =>
        Gen.String[Gen.OneOf(Gen.Char['a', 'z'], Gen.Char["ä€漢,;\\ :"]), 1, 400]
            .Select(text => "x" + text + "😀y")
            .Sample(
                text =>
                {
                    var written = Write(Item(text, new(2026, 8, 3)));
                    foreach (var line in written.Split("\r\n"))
                    {
                        Assert.True(Encoding.UTF8.GetByteCount(line) <= 75, line);
                        Assert.DoesNotContain('\n', line);
                        // No sign is cut: every piece is text by itself.
                        Assert.DoesNotContain(
                            '\uFFFD',
                            Encoding.UTF8.GetString(Encoding.UTF8.GetBytes(line))
                        );
                    }
                    Assert.Equal(
                        text + " (bike 17)",
                        Assert.Single(Calendar.Load(written)!.Events).Summary
                    );
                },
                iter: 300
            );

    [Fact]
    public void Write_Identity_StaysWhenTheDayMoves()
    {
        static string? Uid(string text) => Assert.Single(Calendar.Load(text)!.Events).Uid;
        var first = Uid(Write(Item("a", new(2026, 8, 3))));

        Assert.Equal(first, Uid(Write(Item("b", new(2026, 9, 9)))));
        Assert.NotEqual(
            first,
            Uid(CareCalendar.Write([Item("a", new(2026, 8, 3))], "18", Today, Stamp))
        );
    }

    [Fact]
    public void Write_OverdueAndDayless_StandTodayOrNotAtAll()
    {
        var read = Calendar.Load(Write(Item("late", new(2026, 2, 3)), Item("never", null)))!;

        Assert.Equal(new(2026, 7, 1), Assert.Single(read.Events).DtStart!.Date);
    }

    [Fact]
    public void Write_Nothing_IsStillACalendar() =>
        Assert.Equal(
            "BEGIN:VCALENDAR\r\nVERSION:2.0\r\nPRODID:-//Cogwright//Care//EN\r\nCALSCALE:GREGORIAN\r\nEND:VCALENDAR\r\n",
            Write()
        );

    [Fact]
    public void Write_LocalMoment_IsRefused()
    {
        Assert.Throws<ArgumentException>(() =>
            CareCalendar.Write([], "17", Today, DateTime.SpecifyKind(Stamp, DateTimeKind.Local))
        );
        Assert.Throws<ArgumentException>(() => CareCalendar.Write([], " ", Today, Stamp));
    }

    [Fact]
    public void Escape_SignsNoTextMayHold_AreLeftOut() =>
        Assert.Equal(@"a\,b\;c\\d\ne", CareCalendar.Escape("a,b;c\\d\r\ne\u0007"));
}

using CsCheck;

namespace Cogwright.Facts.Tests;

using Cogwright.Facts;
using Cogwright.Files;

public sealed class BikeHistoryTests
{
    private static readonly BikeHistory Start = BikeHistory.Empty.With(
        BikeHistory.Empty.To(
            SpecSheet.Empty.With("name", "Hesby").With("frame.chainstay", "410"),
            "begun"
        )!
    );

    [Fact]
    public void Undo_OfTheFirstChange_IsNotOffered() => Assert.Null(Start.NextUndo);

    [Fact]
    public void UndoAndRedo_OfAnyEdits_GoThroughTheSameSheets() =>
        Gen.Select(Gen.Int[0, 3], Gen.Int[0, 2])
            .List[1, 12]
            .Sample(edits =>
            {
                var history = Start;
                var sheets = new Stack<string>();
                foreach (var (field, number) in edits)
                {
                    var before = history.Sheet.ToYaml();
                    var change = history.To(
                        history.Sheet.With($"frame.f{field}", number == 0 ? null : $"{number}"),
                        "edit"
                    );
                    if (change is not null)
                    {
                        sheets.Push(before);
                        history = history.With(change with { Id = $"e{history.Changes.Count}" });
                    }
                }
                var end = history.Sheet.ToYaml();
                var steps = sheets.Count;
                while (history.Undo() is { } undo)
                {
                    history = history.With(undo with { Id = $"u{history.Changes.Count}" });
                    Assert.Equal(sheets.Pop(), history.Sheet.ToYaml());
                }
                Assert.Empty(sheets);
                for (var i = 0; i < steps; i++)
                {
                    history = history.With(
                        history.Redo()! with
                        {
                            Id = $"r{history.Changes.Count}",
                        }
                    );
                }
                Assert.Equal(end, history.Sheet.ToYaml());
                Assert.Null(history.NextRedo);
            });
}

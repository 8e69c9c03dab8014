using System.Collections.Immutable;
using YamlDotNet.Core;
using YamlDotNet.Core.Events;

namespace Cogwright.Files.Documents;

/// <summary>
/// Reads one YAML (or JSON, which is YAML too) document into nodes with places. It works on the parser's events and
/// never on an object deserializer, so that a file can make nothing but nodes; anchors, aliases and tags are refused.
/// </summary>
internal sealed class DocumentReader
{
    /// <summary>Deepest nesting; a spec needs six.</summary>
    internal const int MostDepth = 20;

    /// <summary>Most values in a file; a full spec has some 200.</summary>
    internal const int MostNodes = 20_000;

    private readonly Parser parser;
    private readonly string text;
    private readonly ProblemList problems;
    private int nodes;
    private Place lastPlace = Place.Start;
    private readonly List<Entry> beside = [];
    private string? list;
    private bool isBegun;
    private bool isInside;
    private bool isOver;

    private DocumentReader(string text, ProblemList problems)
    {
        this.text = text;
        this.problems = problems;
        parser = new(new StringReader(text));
    }

    /// <summary>The top of the document, or null after telling what is wrong.</summary>
    internal static Node? Read(string text, ProblemList problems)
    {
        var reader = new DocumentReader(text, problems);
        try
        {
            return reader.ReadOnly();
        }
        catch (RefusedException refused)
        {
            problems.Error(refused.Place, "", refused.Message);
            return null;
        }
        catch (YamlException e)
        {
            reader.TellSyntax(PlaceOf(e.Start));
            return null;
        }
    }

    /// <summary>Begins a document of which one list is read entry by entry, so that its length does not matter.</summary>
    internal static DocumentReader Items(string text, string list, ProblemList problems) =>
        new(text, problems) { list = list };

    /// <summary>What stands at the top of such a document beside its list, as far as it was read.</summary>
    internal IReadOnlyList<Entry> Beside => beside;

    /// <summary>Whether the list has been met.</summary>
    internal bool HasList { get; private set; }

    /// <summary>The next entry of the list, or null at the end or after telling what is wrong.</summary>
    internal Node? NextItem()
    {
        if (isOver)
        {
            return null;
        }
        try
        {
            if (list is not null && NextOf(list) is { } item)
            {
                return item;
            }
        }
        catch (RefusedException refused)
        {
            problems.Error(refused.Place, "", refused.Message);
        }
        catch (YamlException e)
        {
            TellSyntax(PlaceOf(e.Start));
        }
        isOver = true;
        return null;
    }

    private Node? NextOf(string name)
    {
        if (!isInside && !isBegun)
        {
            isBegun = true;
            Next();
            if (Next() is not DocumentStart)
            {
                throw new RefusedException(Place.Start, Texts.Get("parts.empty"));
            }
            if (Next() is not MappingStart top)
            {
                throw new RefusedException(lastPlace, Texts.Get("parts.notMapping"));
            }
            RefuseExtras(top, PlaceOf(top.Start));
        }
        while (true)
        {
            nodes = 0;
            var at = Next();
            if (isInside)
            {
                if (at is not SequenceEnd)
                {
                    return ReadNode(at, 3);
                }
                isInside = false;
                continue;
            }
            if (at is MappingEnd)
            {
                Next();
                if (Next() is DocumentStart second)
                {
                    throw new RefusedException(
                        PlaceOf(second.Start),
                        Texts.Get("file.secondDocument")
                    );
                }
                return null;
            }
            if (ReadNode(at, 2) is not ScalarNode key)
            {
                throw new RefusedException(PlaceOf(at.Start), Texts.Get("file.complexKey"));
            }
            var value = Next();
            if (key.Text == name && value is SequenceStart start)
            {
                RefuseExtras(start, PlaceOf(start.Start));
                isInside = true;
                HasList = true;
                continue;
            }
            beside.Add(new(key.Text, key.Place, ReadNode(value, 2)));
        }
    }

    private Node? ReadOnly()
    {
        Next();
        if (Next() is not DocumentStart start)
        {
            problems.Error(Place.Start, "", Texts.Get("file.empty"));
            return null;
        }
        if (start.Tags is { Count: > 0 } tags && !start.IsImplicit && tags.Any(IsOwnTag))
        {
            throw new RefusedException(PlaceOf(start.Start), Texts.Get("file.tag"));
        }
        var top = ReadNode(Next(), 1);
        Next();
        if (Next() is DocumentStart second)
        {
            throw new RefusedException(PlaceOf(second.Start), Texts.Get("file.secondDocument"));
        }
        if (top is ScalarNode { IsEmpty: true })
        {
            problems.Error(top.Place, "", Texts.Get("file.empty"));
            return null;
        }
        return top;
    }

    private static bool IsOwnTag(YamlDotNet.Core.Tokens.TagDirective tag) =>
        tag.Handle is not ("!" or "!!");

    private ParsingEvent Next()
    {
        if (!MoveNext() || parser.Current is not { } current)
        {
            throw new RefusedException(Place.Start, Texts.Get("file.empty"));
        }
        lastPlace = PlaceOf(current.Start);
        return current;
    }

    /// <summary>
    /// The scanner meets some malformed input with exceptions of the runtime instead of its own (an unclosed bracket,
    /// a stray document end); they mean the same and are told at the last place that could be read.
    /// </summary>
    private bool MoveNext()
    {
        try
        {
            return parser.MoveNext();
        }
        catch (Exception e) when (e is InvalidOperationException or ArgumentException)
        {
            throw new SyntaxErrorException(
                new Mark(0, lastPlace.Line, lastPlace.Column),
                new Mark(0, lastPlace.Line, lastPlace.Column),
                e.Message
            );
        }
    }

    private Node ReadNode(ParsingEvent at, int depth)
    {
        var place = PlaceOf(at.Start);
        if (++nodes > MostNodes)
        {
            throw new RefusedException(place, Texts.Get("file.tooManyNodes", MostNodes));
        }
        if (depth > MostDepth)
        {
            throw new RefusedException(place, Texts.Get("file.tooDeep", MostDepth));
        }
        if (at is AnchorAlias)
        {
            throw new RefusedException(place, Texts.Get("file.alias"));
        }
        RefuseExtras(at, place);
        return at switch
        {
            Scalar scalar => new ScalarNode(
                scalar.Value,
                scalar.Style is not (ScalarStyle.Plain or ScalarStyle.Any),
                place
            ),
            SequenceStart => ReadSequence(place, depth),
            MappingStart => ReadMapping(place, depth),
            _ => throw new RefusedException(place, Texts.Get("file.syntax")),
        };
    }

    private static void RefuseExtras(ParsingEvent at, Place place)
    {
        if (at is NodeEvent { Anchor.IsEmpty: false })
        {
            throw new RefusedException(place, Texts.Get("file.anchor"));
        }
        if (at is NodeEvent { Tag.IsEmpty: false })
        {
            throw new RefusedException(place, Texts.Get("file.tag"));
        }
    }

    private SequenceNode ReadSequence(Place place, int depth)
    {
        var items = ImmutableArray.CreateBuilder<Node>();
        for (var at = Next(); at is not SequenceEnd; at = Next())
        {
            items.Add(ReadNode(at, depth + 1));
        }
        return new(items.ToImmutable(), place);
    }

    private MappingNode ReadMapping(Place place, int depth)
    {
        var entries = ImmutableArray.CreateBuilder<Entry>();
        var seen = new Dictionary<string, Place>(StringComparer.Ordinal);
        for (var at = Next(); at is not MappingEnd; at = Next())
        {
            if (ReadNode(at, depth + 1) is not ScalarNode key)
            {
                throw new RefusedException(PlaceOf(at.Start), Texts.Get("file.complexKey"));
            }
            var value = ReadNode(Next(), depth + 1);
            if (seen.TryGetValue(key.Text, out var first))
            {
                problems.Error(
                    key.Place,
                    "",
                    Texts.Get("file.duplicate", Quoting.Short(key.Text), first.Line)
                );
                continue;
            }
            seen.Add(key.Text, key.Place);
            entries.Add(new(key.Text, key.Place, value));
        }
        return new(entries.ToImmutable(), place);
    }

    /// <summary>
    /// Tells in a sentence of ours, in place of the parser's, what to look for at that place. A tab shows up only
    /// when the line before it has been read, so the lines around are looked at.
    /// </summary>
    private void TellSyntax(Place place)
    {
        var lines = text.Split('\n');
        for (var line = place.Line; line <= Math.Min(place.Line + 1, lines.Length); line++)
        {
            var indent = lines[line - 1].Length - lines[line - 1].AsSpan().TrimStart(" \t").Length;
            var tab = lines[line - 1].AsSpan(0, indent).IndexOf('\t');
            if (tab >= 0)
            {
                problems.Error(new(line, tab + 1), "", Texts.Get("file.tab"));
                return;
            }
        }
        problems.Error(place, "", Texts.Get("file.syntax"));
    }

    private static Place PlaceOf(Mark mark) =>
        new(
            (int)Math.Clamp(mark.Line, 1, int.MaxValue),
            (int)Math.Clamp(mark.Column, 1, int.MaxValue)
        );

    /// <summary>Ends the reading at a place; it never leaves this class.</summary>
    private sealed class RefusedException(Place place, string message) : Exception(message)
    {
        internal Place Place { get; } = place;
    }
}

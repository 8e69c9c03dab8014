using System.Collections.Immutable;
using System.Globalization;
using System.Text.RegularExpressions;
using Cogwright.Files.Documents;
using Cogwright.Gearing;

namespace Cogwright.Files;

/// <summary>What was read of a typed road. Immutable.</summary>
/// <param name="Route">The road, or null when it cannot be used.</param>
/// <param name="Problems">What is wrong with it, in the order of the text.</param>
public sealed record ProfileReading(Route? Route, ImmutableArray<FileProblem> Problems);

/// <summary>
/// Reads a road typed piece by piece: <c>5 km 2 %; 800 m -3.5 %</c>. Pieces are parted by semicolons or lines; a decimal has a
/// point or a comma; what follows a # is a note.
/// </summary>
public static partial class ProfileReader
{
    /// <summary>Most pieces of a typed road.</summary>
    public const int MostPieces = 10_000;

    /// <summary>Reads it.</summary>
    /// <param name="text">What was typed.</param>
    /// <param name="name">What it is called, in the problems too.</param>
    public static ProfileReading Read(string text, string name)
    {
        ArgumentNullException.ThrowIfNull(text);
        ArgumentNullException.ThrowIfNull(name);
        var problems = new ProblemList(name);
        if (TextIntake.Check(text, problems) is not { } whole)
        {
            return new(null, problems.Sorted());
        }
        var pieces = new List<ProfilePiece>();
        var total = 0.0;
        var line = 0;
        foreach (var row in whole.Split('\n'))
        {
            line++;
            var column = 1;
            foreach (var part in row.Split('#')[0].Split(';'))
            {
                var typed = part.Trim();
                if (typed.Length > 0)
                {
                    var place = new Place(
                        line,
                        column + part.IndexOf(typed[0], StringComparison.Ordinal)
                    );
                    if (pieces.Count == MostPieces)
                    {
                        problems.Error(place, "", Texts.Get("profile.tooMany", MostPieces));
                        return new(null, problems.Sorted());
                    }
                    if (Piece(typed, place, problems) is { } piece)
                    {
                        pieces.Add(piece);
                        total += piece.LengthM;
                    }
                }
                column += part.Length + 1;
            }
        }
        if (total > Route.MostLengthM)
        {
            problems.Error(Place.Start, "", Texts.Get("profile.tooLong", Route.MostLengthM / 1000));
        }
        else if (total < 1 && !problems.AnyError)
        {
            problems.Error(Place.Start, "", Texts.Get("profile.none"));
        }
        return new(problems.AnyError ? null : Route.OfProfile(name, pieces), problems.Sorted());
    }

    private static ProfilePiece? Piece(string typed, Place place, ProblemList problems)
    {
        var match = PieceForm().Match(typed);
        if (!match.Success)
        {
            problems.Error(place, "", Texts.Get("profile.piece", Quoting.Short(typed)));
            return null;
        }
        var length =
            Number(match.Groups[1].Value)
            * (match.Groups[2].Value.Equals("km", StringComparison.OrdinalIgnoreCase) ? 1000 : 1);
        var percent = Number(match.Groups[3].Value.Replace('−', '-'));
        if (!(length > 0 && length <= Route.MostLengthM))
        {
            problems.Error(place, "", Texts.Get("profile.length", length, Route.MostLengthM));
            return null;
        }
        if (!(Math.Abs(percent) <= RoadPower.SteepestGradient * 100))
        {
            problems.Error(
                place,
                "",
                Texts.Get("profile.gradient", percent, RoadPower.SteepestGradient * 100)
            );
            return null;
        }
        return new(length, percent / 100);
    }

    private static double Number(string typed) =>
        double.Parse(
            typed.Replace(',', '.'),
            NumberStyles.AllowDecimalPoint | NumberStyles.AllowLeadingSign,
            CultureInfo.InvariantCulture
        );

    [GeneratedRegex(
        @"^(\d{1,9}(?:[.,]\d{1,9})?)\s*(km|m)\s+([+\-−]?\d{1,4}(?:[.,]\d{1,9})?)\s*%$",
        RegexOptions.IgnoreCase
    )]
    private static partial Regex PieceForm();
}

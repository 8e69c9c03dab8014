using System.Collections.Concurrent;
using System.Globalization;
using System.Text;
using Cogwright.Drivetrain;

namespace Cogwright.Drawing;

public sealed partial class MovingSideView
{
    /// <summary>Writes the parts, each about its own origin, in the order in which they lie on one another.</summary>
    private sealed class Writer(Mechanism mechanism, Mechanism? before)
    {
        // Toothed rims are the most to write, and the same few return with every gear.
        private static readonly ConcurrentDictionary<
            (int Teeth, double TipMm, double PitchMm),
            string
        > Rims = new();

        private readonly StringBuilder svg = new(16384);

        internal string Write()
        {
            var spec = mechanism.Spec;
            var suspension = 0;
            foreach (var _ in RearEndDrawn.LinksOf(mechanism))
            {
                Line(FirstSuspensionLine + suspension++, "cw-faint", "cw-arm");
            }
            Others(inFront: false);
            svg.Append("<g class=\"cw-before\">");
            if (before is not null)
            {
                Still(sheet => Drawn.GhostChain(sheet, before));
            }
            svg.Append("</g>");
            Toothed(Part.Ring, mechanism.Ring, Drawn.SpindleRadiusMm);
            Toothed(Part.Cog, mechanism.Cog, Drawn.AxleRadiusMm);
            Others(inFront: true);
            Line(CentreLine, "cw-centre", null);
            Still(sheet => RearEndDrawn.Path(sheet, mechanism));
            if (mechanism.Idler is { } idler)
            {
                Toothed(Part.Idler, idler, RearEndDrawn.IdlerBoltRadiusMm);
            }
            if (spec.RearDerailleur is { } derailleur)
            {
                Derailleur(derailleur);
            }
            Chain();
            if (spec.RearDerailleur is { } with)
            {
                Cage(with.Cage);
            }
            Still(sheet => FrontCageDrawn.Add(sheet, mechanism));
            svg.Append("<g class=\"cw-before\">");
            if (before is not null)
            {
                Still(sheet => Drawn.GhostDerailleur(sheet, before));
            }
            svg.Append("</g><g data-dimensions=\"\"></g>");
            return svg.ToString();
        }

        private void Derailleur(RearDerailleur derailleur)
        {
            var isOnAxle = derailleur.Coaxial is not null;
            var bolt = mechanism.Spec.BoltOffsetMm;
            if (!isOnAxle)
            {
                Moved(
                    Part.Hanger,
                    new Polyline(
                        Outline.Round(
                            (default, Drawn.AxleRadiusMm + 4),
                            (bolt, Drawn.BoltRadiusMm + 4)
                        ),
                        Stroke.Part,
                        Closed: true,
                        Filled: true
                    )
                );
            }
            Line(ParallelogramLink, "cw-part", "cw-link-edge");
            Line(ParallelogramLink, "cw-part", "cw-link");
            Moved(Part.Knuckle, new Circle(0, 0, Drawn.KnuckleRadiusMm, Stroke.Part, Filled: true));
            var upper = derailleur.UpperPivotMm;
            var clamp = isOnAxle ? Drawn.AxleRadiusMm + 6 : Drawn.BoltRadiusMm + 4;
            Moved(
                Part.Body,
                new Polyline(
                    Outline.Round((default, clamp), (upper, Drawn.LinkRadiusMm + 2)),
                    Stroke.Part,
                    Closed: true,
                    Filled: true
                ),
                new Circle(0, 0, Drawn.BoltRadiusMm, Stroke.Part),
                new Circle(upper.X, upper.Y, Drawn.LinkRadiusMm / 2, Stroke.Part)
            );
            Toothed(Part.Tension, mechanism.Tension, Drawn.PulleyBoltRadiusMm);
            Toothed(Part.Guide, mechanism.Guide, Drawn.PulleyBoltRadiusMm);
        }

        private void Cage(PulleyCage cage)
        {
            if (mechanism.CagePivot is null)
            {
                return;
            }
            Moved(
                Part.Cage,
                new Polyline(
                    Outline.Round(
                        (cage.Guide.OffsetMm, Drawn.CagePlateRadiusMm),
                        (cage.Tension.OffsetMm, Drawn.CagePlateRadiusMm),
                        (default, Drawn.KnuckleRadiusMm)
                    ),
                    Stroke.Part,
                    Closed: true
                ),
                new Circle(0, 0, Drawn.PulleyBoltRadiusMm / 2, Stroke.Part)
            );
        }

        private void Chain()
        {
            svg.Append("<g class=\"cw-chain cw-links\" fill=\"none\">");
            foreach (
                var (plates, name) in ((string, string)[])
                    [("inner", "cw-inner"), ("outer", "cw-outer"), ("pins", "cw-pins")]
            )
            {
                svg.Append("<path data-chain=\"").Append(plates);
                svg.Append("\" class=\"").Append(name).Append("-edge\"/>");
                svg.Append("<path data-chain=\"").Append(plates);
                svg.Append("\" class=\"cw-plate ").Append(name).Append("\"/>");
            }
            svg.Append(
                "</g><g class=\"cw-warning cw-misfit\" fill=\"none\"><path data-chain=\"line\"/></g>"
            );
        }

        private void Others(bool inFront)
        {
            Begin(inFront ? Part.OthersInFront : Part.OthersBehind);
            var shapes = new List<Shape>();
            var still = new List<Shape>();
            foreach (var (centre, tip, isInFront) in Drawn.Others(mechanism))
            {
                if (isInFront == inFront)
                {
                    var isRing = centre == mechanism.Ring.Centre;
                    (isRing ? still : shapes).Add(new Circle(0, 0, tip, Stroke.Faint));
                }
            }
            SvgWriter.Fragment(svg, [.. shapes], PenScale);
            svg.Append("</g>");
            SvgWriter.Fragment(svg, [.. still], PenScale);
        }

        private void Toothed(Part part, Mechanism.Disc? disc, double boreMm)
        {
            if (disc is not { } there)
            {
                return;
            }
            Begin(part);
            svg.Append(
                Rims.GetOrAdd(
                    (there.Teeth, there.TipRadiusMm, there.PitchRadiusMm),
                    static key =>
                    {
                        var rim = new StringBuilder();
                        SvgWriter.Fragment(
                            rim,
                            [
                                new Polyline(
                                    Outline.Toothed(default, key.Teeth, key.PitchMm, key.TipMm, 0),
                                    Stroke.Part,
                                    Closed: true,
                                    Filled: true
                                ),
                                new Circle(0, 0, key.PitchMm, Stroke.Centre),
                                new Circle(0, 0, key.TipMm, Stroke.Faint),
                            ],
                            PenScale
                        );
                        return rim.ToString();
                    }
                )
            );
            SvgWriter.Fragment(svg, [new Circle(0, 0, boreMm, Stroke.Part)], PenScale);
            svg.Append("</g>");
        }

        private void Moved(Part part, params ReadOnlySpan<Shape> shapes)
        {
            Begin(part);
            SvgWriter.Fragment(svg, shapes, PenScale);
            svg.Append("</g>");
        }

        private void Begin(Part part) =>
            svg.Append("<g data-part=\"")
                .Append(((int)part).ToString(CultureInfo.InvariantCulture))
                .Append("\">");

        private void Line(int line, string pen, string? name)
        {
            svg.Append("<g class=\"").Append(pen).Append("\" fill=\"none\"><path data-line=\"");
            svg.Append(line.ToString(CultureInfo.InvariantCulture)).Append('"');
            if (name is not null)
            {
                svg.Append(" class=\"").Append(name).Append('"');
            }
            svg.Append("/></g>");
        }

        private void Still(Action<Sheet> draw)
        {
            var sheet = new Sheet(1);
            draw(sheet);
            SvgWriter.Fragment(svg, sheet.Shapes, PenScale);
        }
    }
}

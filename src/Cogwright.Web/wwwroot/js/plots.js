// Draws the plots with Chartist, which is loaded here and nowhere else. SVG with classes: colours, dark and print are our css.
import "../lib/chartist/chartist.js";

const { LineChart, AutoScaleAxis, FixedScaleAxis, Svg } = globalThis.Chartist;

// The content security policy refuses style attributes; what the library sets that way is set through the style object.
const attr = Svg.prototype.attr;
Svg.prototype.attr = function (attributes, ns) {
  if (attributes && typeof attributes === "object" && attributes.style) {
    const { style, ...rest } = attributes;
    for (const part of style.split(";")) {
      const at = part.indexOf(":");
      if (at > 0) this.getNode().style.setProperty(part.slice(0, at).trim(), part.slice(at + 1).trim());
    }
    return attr.call(this, rest, ns);
  }
  return attr.call(this, attributes, ns);
};

const shapes = [
  (x, y) => `M${x - 4} ${y}a4 4 0 1 0 8 0a4 4 0 1 0 -8 0Z`,
  (x, y) => `M${x - 4} ${y - 4}h8v8h-8Z`,
  (x, y) => `M${x - 5} ${y + 4}h10l-5 -9Z`,
];

export function draw(place, text) {
  const plot = JSON.parse(text);
  const series = plot.lines.map((points, i) => ({ className: `line-${i}`, data: points.map(([x, y]) => ({ x, y })) }));
  const [from, to] = plot.range;
  for (const y of plot.limits) series.push({ className: "limit", data: [{ x: from, y }, { x: to, y }] });
  const few = plot.labels.length > 0;
  const chart = new LineChart(place, { series }, {
    fullWidth: true,
    height: "260px",
    chartPadding: { top: 12, right: 16, bottom: 0, left: 4 },
    lineSmooth: false,
    axisX: few
      ? { type: FixedScaleAxis, low: from, high: to, ticks: plot.labels.map((_, i) => i), labelInterpolationFnc: (v) => plot.labels[v], labelOffset: { x: -8, y: 4 } }
      : { type: AutoScaleAxis, low: from, high: to, onlyInteger: true, scaleMinSpace: 48, labelOffset: { x: -8, y: 4 } },
    axisY: { type: AutoScaleAxis, scaleMinSpace: 28, offset: 44 },
  });
  chart.on("draw", (e) => {
    if (e.type !== "point") return;
    if (e.seriesIndex >= plot.lines.length || !few) return e.element.remove();
    e.element.replace(new Svg("path", { d: shapes[e.seriesIndex % 3](e.x, e.y) }, "plot-point"));
  });
  chart.on("created", (e) => {
    const svg = e.svg.getNode();
    svg.setAttribute("viewBox", `0 0 ${svg.clientWidth} ${svg.clientHeight}`);
    svg.setAttribute("aria-hidden", "true");
  });
  place.chart = chart;
}

export function clear(place) {
  place.chart?.detach();
}

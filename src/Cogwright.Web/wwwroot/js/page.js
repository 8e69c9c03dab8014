// Arrow keys in a grid of buttons: moving the focus, and keeping the page from scrolling under it, is the browser's business.
export function walk(grid) {
  grid.addEventListener("keydown", (e) => {
    const cell = e.target.closest("[data-row]");
    if (!cell) return;
    let row = +cell.dataset.row, column = +cell.dataset.column;
    const all = [...grid.querySelectorAll("[data-row]")];
    const lastRow = Math.max(...all.map((c) => +c.dataset.row));
    const lastColumn = Math.max(...all.map((c) => +c.dataset.column));
    switch (e.key) {
      case "ArrowUp": row--; break;
      case "ArrowDown": row++; break;
      case "ArrowLeft": column--; break;
      case "ArrowRight": column++; break;
      case "Home": column = 0; if (e.ctrlKey) row = 0; break;
      case "End": column = lastColumn; if (e.ctrlKey) row = lastRow; break;
      case "PageUp": row = 0; break;
      case "PageDown": row = lastRow; break;
      default: return;
    }
    e.preventDefault();
    grid.querySelector(`[data-row="${row}"][data-column="${column}"]`)?.focus();
  });
}

// Brings a place into view when its top is not to be seen, at once for those who want no motion.
export function reveal(place) {
  const box = place.getBoundingClientRect();
  if (box.top >= 0 && box.top < innerHeight * 0.55) return;
  const still = matchMedia("(prefers-reduced-motion: reduce)").matches;
  place.scrollIntoView({ behavior: still ? "auto" : "smooth", block: "start" });
}

// Marks a line of a text and brings it into view; the field has the focus then.
export function selectLine(area, line) {
  const lines = area.value.split("\n");
  const start = lines.slice(0, line - 1).reduce((sum, each) => sum + each.length + 1, 0);
  area.focus();
  area.setSelectionRange(start, start + (lines[line - 1] ?? "").length);
  area.scrollTop = (area.scrollHeight / lines.length) * Math.max(0, line - 4);
}

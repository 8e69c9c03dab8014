// The field that a caliper types into, and an ear for readings that arrive while it is not armed. A caliper sends its digits in
// one burst, far faster than a hand, and ends with Enter. The field
// is emptied here and at once, so that nothing of the next
// burst mixes with this one however long the page takes to compute.
const burstMs = 80;
const endMs = 250;

export function listen(page) {
  const current = () => document.getElementById("reading");
  let place = null; // what the field stood for when its text began
  let heard = "";
  let last = 0;
  let timer = 0;

  const take = () => {
    const field = current();
    const text = field.value;
    const to = place ?? field.dataset.place;
    field.value = "";
    place = null;
    if (text.trim() !== "") page.invokeMethodAsync("Arrived", text, to);
  };
  const end = () => {
    clearTimeout(timer);
    const text = heard;
    heard = "";
    if (/\d/.test(text)) page.invokeMethodAsync("Arrived", text, null);
  };
  const isText = (t) => t instanceof HTMLTextAreaElement || (t instanceof HTMLInputElement && !/^(checkbox|radio|button)$/.test(t.type));

  const onKey = (e) => {
    if (e.ctrlKey || e.metaKey || e.altKey) return;
    const field = current();
    if (e.target === field) {
      if (e.key === "Enter") {
        e.preventDefault();
        take();
      } else if (field.value === "" && e.key.length === 1) {
        place = field.dataset.place;
      }
      return;
    }
    if (isText(e.target)) return;
    const now = performance.now();
    if (heard !== "" && now - last > endMs) heard = "";
    if (e.key === "Enter" || e.key === "Tab") {
      if (heard.length > 1 && now - last <= burstMs) {
        // The end of a burst must not press the button that happens to have the focus.
        e.preventDefault();
        e.stopImmediatePropagation();
        end();
      }
      heard = "";
    } else if (/^[\d.,+\-]$/.test(e.key)) {
      heard = heard !== "" && now - last > burstMs ? e.key : heard + e.key;
      last = now;
      e.preventDefault();
      clearTimeout(timer);
      // Some calipers send no Enter; three characters at that speed are no hand.
      timer = setTimeout(() => (heard.length > 2 ? end() : (heard = "")), endMs);
    }
  };
  document.addEventListener("keydown", onKey, true);
  return {
    take,
    arm: () => current()?.focus(),
    stop: () => {
      clearTimeout(timer);
      document.removeEventListener("keydown", onKey, true);
    },
  };
}

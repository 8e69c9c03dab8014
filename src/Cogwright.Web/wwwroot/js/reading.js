// The field that a caliper types into, and an ear for readings that arrive while it is not armed. A caliper sends its digits in
// one burst and ends with Enter. The field is emptied here and at once, so that nothing of the next burst mixes with this one,
// however long the page takes to compute. Outside a field digits have no other meaning on this page, so the ear only
// tells one reading from the next by the pause between them.
const pauseMs = 800;

export function listen(page) {
  const current = () => document.getElementById("reading");
  let place = null; // what the field stood for when its text began
  let heard = "";
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
    if (e.key === "Enter" || e.key === "Tab") {
      if (heard === "") return;
      // The end of a burst must not press the button that happens to have the focus.
      e.preventDefault();
      e.stopImmediatePropagation();
      end();
    } else if (/^[\d.,+\-]$/.test(e.key)) {
      heard += e.key;
      e.preventDefault();
      clearTimeout(timer);
      // Some calipers send no Enter; a single key is a slip of the hand.
      timer = setTimeout(() => (heard.length > 1 ? end() : (heard = "")), pauseMs);
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

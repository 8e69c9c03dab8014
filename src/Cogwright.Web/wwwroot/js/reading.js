// The field that a caliper types into, and an ear for readings that arrive while it is not armed. A caliper sends its digits in
// one burst and ends with Enter. The field is emptied here and at once, so that nothing of the next burst mixes with this one,
// however long the page takes to compute. Outside a field digits have no other meaning on this page, so the ear only
// tells one reading from the next by the pause between them. All of a burst is heard, whatever it is: what is no length is
// said, and never made into another number by leaving signs out.
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

  // Not every keyboard sends keys: one on a screen, a paste and a dictation only change the text.
  const onInput = (e) => {
    const field = current();
    if (e.target !== field) return;
    if (field.value === "") place = null;
    else place ??= field.dataset.place;
  };
  const onBeforeInput = (e) => {
    if (e.target !== current() || e.inputType !== "insertLineBreak") return;
    e.preventDefault();
    take();
  };

  const onKey = (e) => {
    const isSign = e.key.length === 1;
    // A sign that needs AltGr is a sign too.
    if ((e.ctrlKey || e.metaKey || e.altKey) && !(isSign && e.getModifierState("AltGraph"))) return;
    if (e.target === current()) {
      if (e.key === "Enter") {
        e.preventDefault();
        take();
      }
      return;
    }
    if (isText(e.target)) return;
    if (e.key === "Enter" || e.key === "Tab") {
      if (!/\d/.test(heard)) return;
      // The end of a burst must not press the button that happens to have the focus.
      e.preventDefault();
      e.stopImmediatePropagation();
      end();
    } else if (isSign && (heard !== "" || e.key !== " ")) {
      heard += e.key;
      // Letters alone may mean something to the browser; within a reading no key does.
      if (/[\d.,+\-]/.test(heard)) e.preventDefault();
      clearTimeout(timer);
      // Some calipers send no Enter; a single key is a slip of the hand.
      timer = setTimeout(() => (heard.length > 1 ? end() : (heard = "")), pauseMs);
    }
  };
  document.addEventListener("input", onInput, true);
  document.addEventListener("beforeinput", onBeforeInput, true);
  document.addEventListener("keydown", onKey, true);
  return {
    take,
    arm: () => current()?.focus(),
    stop: () => {
      clearTimeout(timer);
      document.removeEventListener("input", onInput, true);
      document.removeEventListener("beforeinput", onBeforeInput, true);
      document.removeEventListener("keydown", onKey, true);
    },
  };
}

// Brings a step to the top of the screen and tells who listens to the screen where it is.
export function show(step) {
  const still = matchMedia("(prefers-reduced-motion: reduce)").matches;
  step.scrollIntoView({ block: "start", behavior: still ? "auto" : "smooth" });
  step.querySelector("#step-title")?.focus({ preventScroll: true });
}

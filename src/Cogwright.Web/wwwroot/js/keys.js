// Ctrl+Z and Ctrl+Shift+Z anywhere but in a text field, where they belong to the typing.
export function listen(undo) {
  const isText = (t) =>
    t instanceof HTMLTextAreaElement ||
    t?.isContentEditable ||
    (t instanceof HTMLInputElement && !/^(checkbox|radio|button|range|file)$/.test(t.type));
  const onKey = (e) => {
    if (!(e.ctrlKey || e.metaKey) || e.altKey || e.key.toLowerCase() !== "z" || isText(e.target)) return;
    e.preventDefault();
    // A key held down is one wish, not thirty in a second.
    if (e.repeat) return;
    undo.invokeMethodAsync(e.shiftKey ? "Redo" : "Undo");
  };
  document.addEventListener("keydown", onKey);
  return { stop: () => document.removeEventListener("keydown", onKey) };
}

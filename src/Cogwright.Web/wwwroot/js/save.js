// Hands a text to the browser's downloads.
export function save(name, text) {
  const address = URL.createObjectURL(new Blob([text], { type: "application/yaml" }));
  const link = document.createElement("a");
  link.href = address;
  link.download = name;
  document.body.append(link);
  link.click();
  link.remove();
  setTimeout(() => URL.revokeObjectURL(address), 10000);
}

// Brings a place of the page into view and gives it the focus.
export function show(id) {
  const place = document.getElementById(id);
  if (!place) return;
  place.scrollIntoView({ block: "center" });
  (place.querySelector("input, select, textarea, button") ?? place).focus({ preventScroll: true });
}

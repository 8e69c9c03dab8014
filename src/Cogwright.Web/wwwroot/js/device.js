// What only the browser can tell or do: whether the page is in front, the server's stream of changes, leave to keep data, files.
let stream;
let listener;

export function begin(to) {
  listener = to;
  document.addEventListener("visibilitychange", () => listener.invokeMethodAsync("Turn", isAwake()));
  window.addEventListener("online", () => listener.invokeMethodAsync("Turn", isAwake()));
  window.addEventListener("pageshow", (shown) => shown.persisted && listener.invokeMethodAsync("Turn", true));
  return isAwake();
}

const isAwake = () => document.visibilityState === "visible";

// The browser's own way to come back every two seconds would knock at a server that is gone: C# decides when.
export function listen() {
  stopListening();
  const own = (stream = new EventSource("api/v1/changes"));
  own.addEventListener("grown", (told) => listener.invokeMethodAsync("Grow", told.data));
  own.onerror = () => {
    own.close();
    if (own === stream) listener.invokeMethodAsync("EndStream");
  };
}

export function stopListening() {
  stream?.close();
  stream = undefined;
}

export const quiet = () =>
  new Promise((done) => {
    if (window.requestIdleCallback) requestIdleCallback(() => done(), { timeout: 2000 });
    else setTimeout(done, 300);
  });

const warn = (leaving) => leaving.preventDefault();

export function guard(on) {
  if (on) window.addEventListener("beforeunload", warn);
  else window.removeEventListener("beforeunload", warn);
}

export async function persist(ask) {
  const storage = navigator.storage;
  if (!storage?.persisted) return false;
  return (await storage.persisted()) || (ask && (await storage.persist()));
}

// Bytes used and bytes allowed, or nothing.
export async function room() {
  const told = await navigator.storage?.estimate?.();
  return told ? [told.usage ?? 0, told.quota ?? 0] : [];
}

export function download(name, text, type = "application/json") {
  const link = document.createElement("a");
  link.href = URL.createObjectURL(new Blob([text], { type }));
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 60000);
}

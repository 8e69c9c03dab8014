// Registers the service worker and tells when a new version of the program waits. It takes over only when somebody says so.
let listener;
let registration;
let isWanted = false;
let isOld = false;
const hour = 3600000;

export async function begin(to) {
  listener = to;
  if (!navigator.serviceWorker || !window.isSecureContext) return tell();
  // The first worker only keeps the version that is here; the next one to take over brings another.
  let { controller } = navigator.serviceWorker;
  navigator.serviceWorker.addEventListener("controllerchange", () => {
    if (isWanted) location.reload();
    else {
      isOld ||= !!controller;
      ({ controller } = navigator.serviceWorker);
      tell();
    }
  });
  try {
    registration = await navigator.serviceWorker.register("service-worker.js", { updateViaCache: "none" });
  } catch {
    // No server, or a certificate that is not trusted: what is registered already stays.
    registration = await navigator.serviceWorker.getRegistration();
  }
  if (registration) {
    registration.addEventListener("updatefound", () => watch(registration.installing));
    watch(registration.installing);
    setInterval(() => document.visibilityState === "visible" && registration.update().catch(() => {}), hour);
  }
  tell();
}

function watch(worker) {
  worker?.addEventListener("statechange", tell);
}

const tell = () =>
  listener.invokeMethodAsync("Stand", !!registration?.active, !!registration?.active && !!registration?.waiting, isOld);

export function useNew() {
  isWanted = true;
  if (registration?.waiting) registration.waiting.postMessage("take over");
  else location.reload();
}

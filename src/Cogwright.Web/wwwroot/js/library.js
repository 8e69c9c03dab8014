// The shop's library of parts as it was last fetched, in the browser's own cache: it may be large, and the device's tables are
// read whole at every start. Outside a secure context there is no cache; then the library is fetched anew.
const place = "library-of-parts";
const key = "/library-of-parts";

export async function kept() {
  if (!globalThis.caches) return null;
  const found = await (await caches.open(place)).match(key);
  return found ? { text: await found.text(), mark: found.headers.get("X-Mark") ?? "" } : null;
}

export async function keep(text, mark) {
  if (!globalThis.caches) return;
  await (await caches.open(place)).put(key, new Response(text, { headers: { "X-Mark": mark } }));
}

// Keeps the program on the device, so that it opens without the server. It keeps files of the program and nothing else: never an
// answer of the server, and none of its own pages. docs/how-to/offline.md
self.importScripts("./service-worker-assets.js");

const prefix = "cogwright-program-";
const name = prefix + self.assetsManifest.version;
const start = "index.html";
const wanted = [/^index\.html$/, /^_framework\//, /^(css|js|lib|img|icons)\//, /^icon\.svg$/, /^manifest\.webmanifest$/];
const unwanted = /\.(gz|br|pdb|map)$/;
const server = /^\/(api|openapi|health|trust|record)(\/|$)/i;

// Names with a fingerprint never change, so the browser's own cache may answer for them.
const fingerprinted = /\.[a-z0-9]{10}\.\w+$/;

self.addEventListener("install", (event) =>
  event.waitUntil(
    (async () => {
      const cache = await caches.open(name);
      const assets = self.assetsManifest.assets.filter(
        ({ url }) => wanted.some((p) => p.test(url)) && !unwanted.test(url),
      );
      await cache.addAll(
        assets.map(
          ({ url, hash }) =>
            new Request(url, { integrity: hash, cache: fingerprinted.test(url) ? "default" : "no-cache" }),
        ),
      );
    })(),
  ),
);

self.addEventListener("activate", (event) =>
  event.waitUntil(
    (async () => {
      for (const each of await caches.keys()) {
        if (each.startsWith(prefix) && each !== name) await caches.delete(each);
      }
      await self.clients.claim();
    })(),
  ),
);

// Only when somebody at a page has said so: until then the version in use stays in use.
self.addEventListener("message", (event) => event.data === "take over" && self.skipWaiting());

self.addEventListener("fetch", (event) => {
  const { request } = event;
  const url = new URL(request.url);
  if (request.method !== "GET" || url.origin !== self.location.origin || server.test(url.pathname)) return;
  const key = request.mode === "navigate" ? start : request;
  event.respondWith(
    (async () => (await (await caches.open(name)).match(key, { ignoreSearch: true })) ?? fetch(request))(),
  );
});

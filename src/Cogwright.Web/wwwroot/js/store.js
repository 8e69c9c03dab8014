// What survives the page: IndexedDB, locks and news between the tabs of this browser. All rules are in C# (Device/).
const shapes = {
  entries: "id",
  outbox: "id",
  bikes: "log",
  cursors: "log",
  settings: "name",
};
let db;
let channel;
const queues = new Map();
const held = new Map();
let lastHeld = 0;

// Begun with the page, so that it is done when the program has started; who asks for it hears what went wrong.
const opening = new Promise((resolve, reject) => {
  try {
    const request = indexedDB.open("cogwright", 1);
    request.onupgradeneeded = () => {
      for (const [name, keyPath] of Object.entries(shapes)) {
        const store = request.result.createObjectStore(name, { keyPath });
        if (name === "entries") store.createIndex("log", "log");
      }
    };
    request.onsuccess = () => resolve(request.result);
    request.onerror = () => reject(named(request.error));
  } catch (error) {
    reject(named(error));
  }
});
opening.catch(() => {});

export async function open(listener) {
  if (typeof BroadcastChannel !== "undefined") {
    channel = new BroadcastChannel("cogwright");
    channel.onmessage = (said) => listener.invokeMethodAsync("Hear", said.data);
  }
  db = await opening;
  // A later version of the app wants another shape: let it, this page then says that it cannot keep.
  db.onversionchange = () => db.close();
}

// The name first: C# tells full storage from the rest by it.
function named(error) {
  return new Error(`${error?.name ?? "Error"}: ${error?.message ?? error}`);
}

// All stores named in one transaction: what is read is from one moment.
function ask(stores, what) {
  return new Promise((resolve, reject) => {
    try {
      const together = db.transaction(stores, "readonly");
      const requests = stores.map((store) => what(together.objectStore(store)));
      together.oncomplete = () => resolve(requests.map((request) => request.result));
      together.onabort = () => reject(named(together.error));
    } catch (error) {
      reject(named(error));
    }
  });
}

export async function tables() {
  const names = Object.keys(shapes).filter((name) => name !== "entries");
  const read = await ask(names, (rows) => rows.getAll());
  return JSON.stringify(Object.fromEntries(names.map((name, i) => [name, read[i]])));
}

const ofLog = (what, log) =>
  ask(["entries"], (rows) => (log === null ? rows : rows.index("log"))[what](log ?? undefined)).then(([result]) => result);

export const entries = async (log) => JSON.stringify(await ofLog("getAll", log));

export const count = (log) => ofLog("count", log);

export function write(text) {
  return new Promise((resolve, reject) => {
    try {
      const writes = JSON.parse(text);
      const stores = [...new Set(writes.map((each) => each.store))];
      const together = db.transaction(stores, "readwrite", { durability: "strict" });
      together.oncomplete = () => resolve();
      together.onabort = () => reject(named(together.error));
      for (const { store, drop, ...row } of writes) {
        if (drop) together.objectStore(store).delete(drop);
        else together.objectStore(store).put(Object.values(row)[0]);
      }
    } catch (error) {
      reject(named(error));
    }
  });
}

export function acquire(name) {
  return new Promise((granted, failed) => {
    const hold = () =>
      new Promise((release) => {
        held.set(++lastHeld, release);
        granted(lastHeld);
      });
    // Without locks (a page that is not secure) there is still order within this tab.
    if (navigator.locks) navigator.locks.request("cogwright-" + name, hold).catch((e) => failed(named(e)));
    else queues.set(name, (queues.get(name) ?? Promise.resolve()).then(hold));
  });
}

export function release(id) {
  held.get(id)();
  held.delete(id);
}

export const tell = (log) => channel?.postMessage(log);

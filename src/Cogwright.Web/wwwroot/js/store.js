// What survives the page: IndexedDB, locks and news between the tabs of this browser. All rules are in C# (Device/).
const shapes = {
  entries: "id",
  outbox: "id",
  bikes: "log",
  cursors: "log",
  settings: "name",
  photos: "id",
};
const indices = { entries: "log", photos: "waiting" };
let db;
let channel;
const queues = new Map();
const held = new Map();
let lastHeld = 0;

// Begun with the page, so that it is done when the program has started; who asks for it hears what went wrong.
const opening = new Promise((resolve, reject) => {
  try {
    const request = indexedDB.open("cogwright", 2);
    // Only what is not there yet is made: what an earlier version has stored stays as it is.
    request.onupgradeneeded = () => {
      for (const [name, keyPath] of Object.entries(shapes)) {
        if (request.result.objectStoreNames.contains(name)) continue;
        const store = request.result.createObjectStore(name, { keyPath });
        if (indices[name]) store.createIndex(indices[name], indices[name]);
      }
    };
    request.onsuccess = () => {
      // A later version of the app wants another shape: let it, this page then says that it cannot keep. From the first moment,
      // for a page that is still starting would hold it up as well.
      request.result.onversionchange = () => request.result.close();
      resolve(request.result);
    };
    // A tab of an earlier version that does not let go: waiting for it would leave this page empty for ever.
    request.onblocked = () => reject(new Error("BlockedError: another tab holds the storage"));
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
      const requests = stores.map((store, i) => what(together.objectStore(store), i));
      together.oncomplete = () => resolve(requests.map((request) => request.result));
      together.onabort = () => reject(named(together.error));
    } catch (error) {
      reject(named(error));
    }
  });
}

// Of the photos only their keys, all and those to be sent: their bytes are read one by one.
export async function tables() {
  const rest = Object.keys(shapes).filter((name) => name !== "entries" && name !== "photos");
  const read = await ask([...rest, "photos", "photos"], (rows, i) => {
    if (i < rest.length) return rows.getAll();
    return (i === rest.length ? rows : rows.index("waiting")).getAllKeys();
  });
  return JSON.stringify(Object.fromEntries([...rest, "photos", "waitingPhotos"].map((name, i) => [name, read[i]])));
}

export const photo = async (id) => JSON.stringify((await ask(["photos"], (rows) => rows.getAll(id)))[0]);

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

// The browser's own database, as promises.

export const done = (request) => new Promise((resolve, reject) => {
  request.onsuccess = () => resolve(request.result);
  request.onerror = () => reject(request.error);
});

// A database of one store, made where there is none. Resolves to what gives that store to work with:
// mode "readonly" or "readwrite".
export async function openStore(name, store) {
  const request = indexedDB.open(name, 1);
  request.onupgradeneeded = () => request.result.createObjectStore(store);
  const database = await done(request);
  return (mode) => database.transaction(store, mode).objectStore(store);
}

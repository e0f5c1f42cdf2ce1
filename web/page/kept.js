// What a tab that the system closes needs to go on where it was: the work in the session's own storage,
// the master in the browser's database on this machine. Both go when the page is left; what a closed
// tab left behind and nobody took up goes at the next visit.

import {done, openStore} from './database.js';

const NAME = 'proofleaf.work';
const DATABASE = 'proofleaf-work';
const STORE = 'masters';
const MOST_OF_ROOM = 0.25;  // of what the browser says is left: a master may be large

function sessionItem() {
  try {
    return JSON.parse(sessionStorage.getItem(NAME)) ?? {};
  } catch {
    return {};  // storage is refused
  }
}

// Held as long as the page lives, so that other pages leave its master alone. Resolves to false where
// another page has it: this tab is a copy of that one.
const claim = (id) => new Promise((resolve) => {
  if (!navigator.locks) return resolve(true);
  navigator.locks.request(`proofleaf-work-${id}`, {ifAvailable: true}, (lock) => {
    resolve(Boolean(lock));
    return lock ? new Promise(() => {}) : null;
  });
});

export class Kept {
  constructor() {
    this.master = null;  // the Blob that is kept
    this.store = null;
    this.leaving = this.held = false;
    addEventListener('pagehide', (event) => { if (!event.persisted) this.forget(); });
  }

  // What an earlier life of this tab left: {text, demo, master: {name, blob} or null}, or null.
  async left() {
    const {id, text, name} = sessionItem();
    const mine = Boolean(text) && await claim(id);
    this.id = mine ? id : crypto.randomUUID();
    if (!mine) claim(this.id);
    const tidied = this.tidy();
    if (!mine) return null;
    const blob = await tidied;
    return {text, demo: !name, master: blob ? {name, blob} : null};
  }

  // Opens the database and takes away what closed tabs left; resolves to this tab's own master.
  async tidy() {
    try {
      this.store = await openStore(DATABASE, STORE);
      for (const id of await done(this.store('readonly').getAllKeys())) {
        if (id !== this.id && await claim(id)) await done(this.store('readwrite').delete(id));
      }
      return await done(this.store('readonly').get(this.id));
    } catch {
      return undefined;  // refused: the work is kept without its master
    }
  }

  // text: of the work; name and blob: of its master, undefined for the demo's.
  async keep(text, name, blob) {
    if (this.leaving) return;
    try {
      sessionStorage.setItem(NAME, JSON.stringify({id: this.id, text, name}));
    } catch {
      return;
    }
    if (!this.store || blob === this.master) return;
    this.master = blob;
    try {
      const {quota = 0, usage = 0} = await navigator.storage.estimate();
      const fits = blob && blob.size < (quota - usage) * MOST_OF_ROOM;
      await done(fits ? this.store('readwrite').put(blob, this.id) : this.store('readwrite').delete(this.id));
    } catch {
      // No room, or no Blobs in this browser's database: the person is asked for the file again.
    }
  }

  // What is kept stays, for the page that follows.
  hold() { this.held = this.leaving = true; }

  forget() {
    if (this.held) return;
    this.leaving = true;  // being put aside is told of after this
    try {
      sessionStorage.removeItem(NAME);
      this.store?.('readwrite').delete(this.id);
    } catch {
      // Nothing was kept.
    }
  }
}

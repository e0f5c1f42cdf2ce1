// The person's papers between visits, in the browser's own database on this machine.

import {done, openStore} from './database.js';

const DATABASE = 'proofleaf';
const STORE = 'papers';

// A full disk shows only when the browser writes what it was given, at the transaction's end.
const written = (request) => new Promise((resolve, reject) => {
  request.transaction.oncomplete = resolve;
  request.transaction.onabort = () => reject(request.transaction.error);
});

export class Shelf {
  // tell(outcome, count): "kept", "refused", "full" or "cleared", and how many papers are kept.
  constructor(tell) {
    this.tell = tell;
    this.last = Promise.resolve();  // one piece of work after another
  }

  // The papers kept, in the order they came: [{name, blob}].
  restore() {
    return this.next(async (store) => {
      const kept = await done(store('readonly').getAll());
      kept.sort((one, other) => one.added - other.added);
      this.tell('kept', kept.length);
      return kept.map(({name, bytes}) => ({name, blob: new Blob([bytes])}));
    }, []);
  }

  put(key, name, blob) {
    return this.next(async (store) => {
      const bytes = await blob.arrayBuffer();  // some browsers keep no Blobs
      const earlier = await done(store('readonly').get(key));
      await written(store('readwrite').put({name, bytes, added: earlier?.added ?? Date.now()}, key));
      this.tell('kept', await done(store('readonly').count()));
    });
  }

  drop(key) {
    return this.next(async (store) => {
      await done(store('readwrite').delete(key));
      this.tell('kept', await done(store('readonly').count()));
    });
  }

  clear() {
    return this.next(async (store) => {
      await done(store('readwrite').clear());
      this.tell('cleared', 0);
    });
  }

  // Runs `work` with the store once all earlier work is over; a browser that refuses is told of.
  next(work, otherwise) {
    const run = async () => {
      try {
        this.store ??= await openStore(DATABASE, STORE);
        return await work(this.store);
      } catch (error) {
        await this.fail(error);
        return otherwise;
      }
    };
    return this.last = this.last.then(run);
  }

  async fail(error) {
    const count = this.store && await done(this.store('readonly').count()).catch(() => 0);
    this.tell(error?.name === 'QuotaExceededError' ? 'full' : 'refused', count || 0);
  }
}

// Shares a delivery's bands out: this worker reads the master and writes the file, helpers of its own
// make bands, and when all of them are busy it makes one itself. Helpers end with this worker.

const SHARED_FROM = 32;      // bands; fewer are sooner done here
const MOST_HELPERS = 3;
const HELD = 2;              // bands a helper has at once, so that it never waits
const MOST_AHEAD = 16;       // bands made but not yet joined

class Failure extends Error {}

// Calls of the module that answer through `files`, see worker.js.
class Calls {
  constructor(module, files) {
    this.module = module;
    this.files = files;
  }

  // What the call gave: {json, name: bytes, ...}. Throws the sentence of what failed.
  run(name, types = [], values = []) {
    this.files.clear();
    this.module.ccall(name, null, types, values);
    const {outcome, buffers} = this.files;
    if (outcome?.failed) throw new Failure(outcome.failed);
    const given = Object.fromEntries(buffers.map(({name, bytes}) => [name, bytes]));
    return {...given, json: outcome?.answer?.json};
  }

  bring(bytes) {
    const at = this.module.ccall('band_room', 'number', ['number'], [bytes.length]);
    this.module.HEAPU8.set(bytes, at);
  }

  name(files) {
    this.files.use(files);
    Object.entries(files).forEach(([name, {blob, name: fileName}], index) => {
      this.module.ccall('worker_file', null, ['string', 'number', 'string', 'number'],
          [name, index, fileName, blob.size]);
    });
  }
}

// A helper's side.
class BandMaker {
  constructor(module, files) { this.calls = new Calls(module, files); }

  begin({request, files}) {
    this.calls.name(files);
    this.calls.run('maker_begin', ['string'], [request]);
  }

  make({band, pixels}) {
    this.calls.bring(pixels);
    return this.calls.run('maker_make', ['number'], [band]).band;
  }
}

// The reader's side of a helper.
class Helper {
  constructor(compiled, words, begin, tell) {
    this.held = new Set();
    this.worker = new Worker('worker.js');
    this.worker.onmessage = ({data}) => tell(this, data);
    this.worker.onerror = (event) => {
      event.preventDefault();
      tell(this, {died: true});
    };
    this.worker.postMessage({module: compiled, words});
    this.worker.postMessage({helper: begin});
  }

  make(band, pixels) {
    this.held.add(band);
    this.worker.postMessage({band, pixels}, [pixels.buffer]);
  }

  end() { this.worker.terminate(); }
}

class SharedDelivery {
  constructor(module, files, compiled, words) {
    this.calls = new Calls(module, files);
    this.compiled = compiled;
    this.words = words;
    this.helpers = [];
    this.made = new Map();  // band -> bytes
    this.again = [];        // bands of helpers that died
    this.next = 0;
    this.joined = 0;
    this.lost = 0;
    this.heard = () => {};
  }

  // Resolves when finished: the answer stands in files.outcome then. Throws what failed.
  async run({request, files}, progress) {
    this.calls.name(files);
    const {json, profile} = this.calls.run('shared_begin', ['string'], [request]);
    const {bands, maker, writing_share: writing} = JSON.parse(json);
    this.bands = bands;
    this.begin = {request: maker, files: {...files, profile: {blob: new Blob([profile]), name: 'profile'}}};
    delete this.begin.files.master;
    for (let count = this.helpersWanted(); count > 0; --count) this.startHelper();
    try {
      while (this.joined < bands) {
        await this.step();
        progress(writing * this.joined / bands);
      }
    } finally {
      for (const helper of this.helpers) helper.end();
    }
    this.calls.files.tellNow();  // the check begins
    this.calls.run('shared_finish', ['number'], [this.lost]);
  }

  helpersWanted() {
    if (this.bands < SHARED_FROM || typeof Worker === 'undefined') return 0;
    return Math.min(MOST_HELPERS, (navigator.hardwareConcurrency || 2) - 1);
  }

  startHelper() {
    this.helpers.push(new Helper(this.compiled, this.words, this.begin, (helper, said) => this.hear(helper, said)));
  }

  hear(helper, {band, made, died, failed}) {
    if (!this.helpers.includes(helper)) return;
    if (failed) this.failure = new Failure(failed);
    if (made) {
      helper.held.delete(band);
      this.made.set(band, made);
    }
    if (died) this.replace(helper);
    this.heard();
  }

  // What it held is made here; one that dies again and again is not begun for ever.
  replace(helper) {
    helper.end();
    this.helpers.splice(this.helpers.indexOf(helper), 1);
    this.again.push(...helper.held);
    if (++this.lost <= MOST_HELPERS) this.startHelper();
  }

  async step() {
    if (this.failure) throw this.failure;
    const band = this.made.get(this.joined);
    if (band) {
      this.made.delete(this.joined++);
      this.calls.bring(band);
      this.calls.run('shared_join');
    } else if (this.again.length) {
      this.makeHere(this.again.pop());
    } else if (this.next < this.bands && this.next - this.joined < MOST_AHEAD) {
      await this.calls.files.readAhead();
      this.handOut(this.next++);
      await breath();  // lets helpers be heard
    } else {
      await new Promise((heard) => { this.heard = heard; });
    }
  }

  handOut(band) {
    const helper = this.helpers.find(({held}) => held.size < HELD);
    if (!helper) return this.makeHere(band);
    const {pixels} = this.calls.run('shared_read', ['number', 'boolean'], [band, true]);
    helper.make(band, pixels);
  }

  makeHere(band) {
    this.calls.run('shared_read', ['number', 'boolean'], [band, false]);
    this.made.set(band, this.calls.run('shared_make').band);
  }
}

// A moment in which messages come in, much shorter than setTimeout's.
function breath() {
  return new Promise((resolve) => {
    const {port1, port2} = new MessageChannel();
    port1.onmessage = () => {
      port1.close();
      resolve();
    };
    port2.postMessage(0);
  });
}

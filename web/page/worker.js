// One lane's worker, or a helper of one: performs one request at a time in its own instance of the
// module, reading files by position and writing a delivery in chunks, so that neither is ever wholly
// in memory.
importScripts('proofleaf.js', 'ahead.js', 'bands.js');

const TOLD_EVERY = 400;  // [ms] each telling has the page drawn anew
const CHUNK = 4 << 20;
const HEAD = 1 << 20;  // of a master; the module reads as much at once
const SETTLED = 4;  // chunks behind the last one that are handed to the browser's own store
const reader = new FileReaderSync();
const nowhere = new MessageChannel().port1;
nowhere.close();

// What was read is given back at once: browsers collect it late, 100 MB of it while a large master opens.
function discard(bytes) { nowhere.postMessage(0, [bytes.buffer]); }

// A file being written. A chunk is a Uint8Array while it is being filled, then a Blob; a write to an
// earlier place brings its Blob back.
class Delivery {
  constructor() {
    this.chunks = [];
    this.size = 0;
  }

  write(offset, bytes) {
    let done = 0;
    while (done < bytes.length) {
      const at = offset + done;
      const within = at % CHUNK;
      const count = Math.min(bytes.length - done, CHUNK - within);
      this.open(Math.floor(at / CHUNK)).set(bytes.subarray(done, done + count), within);
      done += count;
    }
    this.size = Math.max(this.size, offset + bytes.length);
  }

  open(index) {
    while (this.chunks.length <= index) {
      this.chunks.push(new Uint8Array(CHUNK));
      this.settle(this.chunks.length - 1 - SETTLED);
    }
    const chunk = this.chunks[index];
    if (chunk instanceof Blob) this.chunks[index] = new Uint8Array(reader.readAsArrayBuffer(chunk));
    return this.chunks[index];
  }

  // The first chunk stays: a header is often filled in at the end.
  settle(index) {
    if (index > 0 && !(this.chunks[index] instanceof Blob)) {
      this.chunks[index] = new Blob([this.chunks[index]]);
    }
  }

  finish() { return new Blob(this.chunks).slice(0, this.size); }
}

// What the module calls, see bridge/imports.js.
class Files {
  begin(work) {
    this.work = work;
    this.sink = new Delivery();
    this.delivery = null;
    this.tellNow();
    this.clear();
  }

  // The numbers of blob_read are places in this list.
  use(files) {
    this.blobs = Object.values(files).map(({blob}) => blob);
    this.leaveOff();
    this.reached = -1;  // where the last read ended
    this.goesOn = false;  // it began where the one before it ended
  }

  clear() {
    this.buffers = [];
    this.outcome = null;
  }

  // Some bytes at least, all where none of them came before they were asked for.
  read(file, offset, into) {
    const count = (this.ahead?.file === file && this.ahead.take(offset, into)) || this.readNow(file, offset, into);
    this.goesOn = offset === this.reached;
    this.reached = offset + count;
    this.file = file;
    return count;
  }

  readNow(file, offset, into) {
    try {
      const part = this.blobs[file].slice(offset, offset + into.length);
      const bytes = new Uint8Array(reader.readAsArrayBuffer(part));
      const {length} = bytes;
      into.set(bytes);
      discard(bytes);
      return length;
    } catch {
      return -1;
    }
  }

  isThere(file) { return this.readNow(file, 0, new Uint8Array(1)) === 1; }

  // Between two steps of a module that reads a file from its beginning to its end: what it reads next is
  // there when this resolves.
  async readAhead() {
    const {file, reached} = this;
    if (!this.goesOn || reached >= this.blobs[file].size) return this.leaveOff();
    if (this.ahead?.file !== file || !this.ahead.leadsTo(reached)) this.follow(file, reached);
    await this.ahead.come(reached);
  }

  follow(file, from) {
    this.leaveOff();
    this.ahead = new Ahead(file, this.blobs[file], from);
  }

  leaveOff() {
    this.ahead?.stop();
    this.ahead = null;
  }

  write(offset, bytes) {
    try {
      this.sink.write(offset, bytes);
      return 0;
    } catch {
      return -1;
    }
  }

  finish() {
    this.delivery = this.sink.finish();
    return this.blobs.push(this.delivery) - 1;
  }

  // What comes next is told, however soon it comes.
  tellNow() { this.told = -Infinity; }

  progress(share) {
    const now = performance.now();
    if (now - this.told < TOLD_EVERY) return;
    this.told = now;
    postMessage({work: this.work, share});
  }

  buffer(name, bytes) { this.buffers.push({name, bytes}); }

  answer(json) {
    if (this.sink.size && !this.delivery) this.finish();
    this.outcome = {answer: {json, buffers: this.buffers, delivery: this.delivery}};
  }

  fail(failed) { this.outcome = {failed}; }
}

const files = new Files();
let opening = null;

// A memory that could not grow fails an allocation in the module, which may then speak of something else.
let starved = false;
const {grow} = WebAssembly.Memory.prototype;
WebAssembly.Memory.prototype.grow = function (pages) {
  try {
    return grow.call(this, pages);
  } catch (error) {
    starved = true;
    throw error;
  }
};

let compiled = null;
let words = null;  // of the language spoken, see words.js
let maker = null;

function open() {
  return createProofleaf({
    files,
    instantiateWasm(imports, received) {
      const instance = new WebAssembly.Instance(compiled, imports);
      received(instance, compiled);
      return instance.exports;
    },
  });
}

// Runs `task` and answers its outcome, or the sentence of what failed.
async function perform(module, work, task) {
  files.begin(work);
  starved = false;
  try {
    await task();
  } catch (error) {
    if (!(error instanceof Failure)) throw error;
    files.fail(error.message);
  }
  files.leaveOff();
  const memory = module.HEAPU8.length;
  postMessage({work, memory, starved: starved && Boolean(files.outcome.failed), ...files.outcome}, files.buffers.map(({bytes}) => bytes.buffer));
}

function begin(module, {work, request, files: used}) {
  const calls = new Calls(module, files);
  const {op} = JSON.parse(request);
  if (op === 'open') return perform(module, work, () => openInSteps(calls, {request, files: used}));
  if (op === 'deliver') {
    const shared = new SharedDelivery(module, files, compiled, words);
    return perform(module, work, () => shared.run({request, files: used}, (s) => files.progress(s)));
  }
  return perform(module, work, () => {
    calls.name(used);
    calls.run('worker_perform', ['string'], [request]);
  });
}

// Rows of the master until more of its file is read, then the next bytes of it, and so on.
async function openInSteps(calls, {request, files: used}) {
  calls.name(used);
  files.follow(Object.keys(used).indexOf('master'), HEAD);
  calls.run('open_begin', ['string'], [request]);
  for (;;) {
    const {reached} = files;
    do {
      if (calls.run('open_step').json) return;
    } while (files.reached === reached);
    await files.readAhead();
  }
}

// A helper's turn: made bands go back one by one.
function help(module, data) {
  try {
    if (data.helper) {
      maker = new BandMaker(module, files);
      return maker.begin(data.helper);
    }
    const made = maker.make(data);
    postMessage({band: data.band, made}, [made.buffer]);
  } catch (error) {
    if (starved || !(error instanceof Failure)) throw error;
    postMessage({failed: error.message});
  }
}

onmessage = async ({data}) => {
  try {
    if (data.words) words = data.words;
    if (data.module) {
      compiled = data.module;
      opening = open();
      opening.then(() => postMessage({ready: true}), () => {});
    }
    if (data.words) {
      (await opening).ccall('speak_language', null, ['string', 'string'], [words.code, words.catalogue]);
    } else if (data.helper || data.pixels) {
      help(await opening, data);
    } else {
      await begin(await opening, data);
    }
  } catch (error) {
    console.warn(error);
    postMessage({died: true});
  }
};

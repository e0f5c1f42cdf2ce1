// A lane does one piece of work after another in a web worker of its own. To stop a piece, its worker
// is ended and a fresh one begun: nothing is kept in a worker between two pieces.

import {phrase, said} from './words.js';

export const STARVED = phrase('The browser could not finish this: it ran out of memory, or the file could not ' +
    'be followed. Nothing was changed. Closing other pages may help.');

// A worker's memory only grows: one that has grown is replaced by a fresh one once nothing has been asked
// of it for a while, one that has grown far at once.
const FRESH = 32 << 20, SPENT = 512 << 20;  // [bytes]
const IDLE = 1000;  // [ms]

export class Lane {
  // script: address of worker.js; compiled: promise of the WebAssembly.Module, words: of its language
  // (words.js);
  // tell: {progress(work, share), answered(work, answer), failed(work, sentence, starved)}.
  constructor(script, compiled, words, tell) {
    this.script = script;
    this.compiled = compiled;
    this.words = words;
    this.tell = tell;
    this.waiting = [];
    this.current = 0;  // number of the work being done; 0 is none
    this.renew();
  }

  get load() { return this.waiting.length + (this.current ? 1 : 0); }

  start(job) {
    this.waiting.push(job);
    this.next();
  }

  // True when the work was in this lane.
  cancel(work) {
    const place = this.waiting.findIndex((job) => job.work === work);
    if (place >= 0) {
      this.waiting.splice(place, 1);
      return true;
    }
    if (this.current !== work) return false;
    this.renew();
    this.next();
    return true;
  }

  // A worker, and when it has been handed the module.
  make() {
    const worker = new Worker(this.script);
    worker.onmessage = ({data}) => {
      if (worker === this.worker) this.heard(data);
      else if (data.ready) this.swap(worker);
    };
    worker.onerror = (event) => {
      event.preventDefault();
      if (worker === this.worker) this.died();
      else worker.terminate();
    };
    const handed = Promise.all([this.compiled, this.words]).then(
        ([module, words]) => worker.postMessage({module, words}), () => {});
    return {worker, handed};
  }

  renew() {
    clearTimeout(this.idle);
    this.worker?.terminate();
    this.current = 0;
    Object.assign(this, this.make());
  }

  // The old worker stays until the fresh one is there: without a network that may be never.
  replace() {
    this.fresh?.worker.terminate();
    this.fresh = this.make();
  }

  swap(worker) {
    if (worker !== this.fresh?.worker || this.load) return worker.terminate();
    this.worker?.terminate();
    Object.assign(this, this.fresh);
    this.fresh = null;
  }

  speak(words) {
    this.words = words;
    for (const each of [this.worker, this.fresh?.worker]) each?.postMessage({words});
  }

  next() {
    if (this.current || !this.waiting.length) return;
    if (!this.worker) this.renew();
    clearTimeout(this.idle);
    const job = this.waiting.shift();
    this.current = job.work;
    const worker = this.worker;
    this.handed.then(() => worker.postMessage(job));  // goes nowhere if the worker was ended by then
  }

  heard({work, share, answer, failed, died, memory, starved}) {
    if (died) return this.died();
    if (work !== this.current) return;
    if (share !== undefined) return this.tell.progress(work, share);
    this.current = 0;
    if (memory > SPENT || starved) this.renew();
    else if (memory > FRESH) this.idle = setTimeout(() => this.replace(), IDLE);
    if (answer) this.tell.answered(work, answer);
    else this.tell.failed(work, starved ? said(STARVED) : failed, starved);
    this.next();
  }

  // A worker that dies idle is not begun again before there is work, lest it dies for ever.
  died() {
    const work = this.current;
    clearTimeout(this.idle);
    this.worker.terminate();
    this.worker = null;
    this.current = 0;
    if (work) this.tell.failed(work, said(STARVED), true);
    this.next();
  }
}

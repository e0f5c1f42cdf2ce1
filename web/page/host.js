// The page's side of shell/host.h: files, work, deliveries, words for screen readers, settings.
import {Lane} from './lane.js';
import {offer, Outbox} from './outbox.js';
import {pageWork} from './sharing.js';
import {Shelf} from './shelf.js';

const SLOW = ['open', 'deliver', 'condition', 'sample', 'digest', 'offer', 'returned'];
const HEAD_BYTES = 256;
const DELIVERIES_KEPT = 2;  // a print file and its test strip

export class Host {
  // events: {frame(), progress(work, share), answered(work, answer), failed(work, sentence, starved),
  // shelf(outcome, count), folder(files), deliveryFolder(name, names, refused), saved(name, outcome),
  // copied(done), language(code)}
  constructor(elements, compiled, words, events) {
    this.elements = elements;
    this.events = events;
    this.files = new Map();
    this.lastFile = 0;
    this.lastWork = 0;
    this.uses = {};
    this.deliveries = new Map();  // blobs by work: the last few only
    this.afterFirstProof = null;  // called once
    this.shelf = new Shelf(events.shelf);
    this.outbox = new Outbox(events);
    const tell = {...events, answered: (work, answer) => this.answered(work, answer)};
    const script = new URL('worker.js', import.meta.url);
    // Two quick lanes: the cubes of the master and of the proof are wanted at the same time.
    this.quick = [new Lane(script, compiled, words, tell), new Lane(script, compiled, words, tell)];
    this.slow = [new Lane(script, compiled, words, tell)];
  }

  // Keeps a File or Blob; resolves to what Shell::file_arrived wants to know of it.
  async arrive(blob, name) {
    const file = this.keep(blob, name);
    let head = new Uint8Array(0);
    try {
      head = new Uint8Array(await blob.slice(0, HEAD_BYTES).arrayBuffer());
    } catch {
      // A folder, or a file that went away: an empty head says as much.
    }
    return {file, name, bytes: blob.size, head};
  }

  keep(blob, name) {
    this.files.set(++this.lastFile, {blob, name});
    return this.lastFile;
  }

  answered(work, answer) {
    if (answer.delivery) this.keepDelivery(work, answer.delivery);
    this.events.answered(work, answer);
    if (!answer.json.includes('"refined":true')) return;
    this.afterFirstProof?.();
    this.afterFirstProof = null;
  }

  // Called from the module, see bridge/imports.js.
  pickFile() { this.elements.picker.click(); }

  pickFolder() {
    const picker = document.createElement('input');
    picker.type = 'file';
    picker.webkitdirectory = true;
    picker.onchange = () => this.events.folder([...picker.files]);
    picker.click();
  }

  shelfPut(key, name, file) {
    const kept = this.files.get(file);
    if (kept) this.shelf.put(key, name, kept.blob);
  }

  useFile(name, file) { this.uses[name] = this.files.get(file); }

  start(request) {
    const {op} = JSON.parse(request);
    const job = {work: ++this.lastWork, request, files: this.uses};
    this.uses = {};
    if (pageWork[op]) {
      this.performHere(job, pageWork[op]);
      return job.work;
    }
    const lanes = SLOW.includes(op) ? this.slow : this.quick;
    lanes.reduce((best, lane) => (lane.load < best.load ? lane : best)).start(job);
    return job.work;
  }

  // Work that needs what only the page has; its answer may come when nobody waits for it any more.
  async performHere({work, request, files}, perform) {
    try {
      this.events.answered(work, await perform(JSON.parse(request), files, this));
    } catch (error) {
      this.events.failed(work, error.message, false);
    }
  }

  cancel(work) { [...this.quick, ...this.slow].some((lane) => lane.cancel(work)); }

  keepBytes(name, bytes) { return this.keep(new Blob([bytes]), name); }

  dropFile(file) { this.files.delete(file); }

  keepDelivery(work, blob) {
    this.deliveries.set(work, blob);
    if (this.deliveries.size > DELIVERIES_KEPT) this.deliveries.delete(this.deliveries.keys().next().value);
  }

  saveDelivery(work, name) {
    const blob = this.deliveries.get(work);
    if (blob) this.outbox.save(blob, name);
    else this.events.saved(name, 'gone');
  }

  saveText(name, mime, bytes) { offer(new Blob([bytes], {type: mime + ';charset=utf-8'}), name); }

  get clientAddress() { return new URL('../client.html', import.meta.url).href; }

  copyText(text) {
    const copied = navigator.clipboard?.writeText(text) ?? Promise.reject();
    copied.then(() => this.events.copied(true), () => this.events.copied(false));
  }

  speak(code) { this.events.language(code); }

  // words: as words.js gives them.
  speakInWorkers(words) {
    for (const lane of [...this.quick, ...this.slow]) lane.speak(words);
  }

  showLicences() { open(new URL('licences.html', import.meta.url), '_blank', 'noopener'); }

  describe(state, news) {
    const {state: standing, news: live} = this.elements;
    if (standing.textContent !== state) standing.textContent = state;
    if (news) live.textContent = news;
  }

  remember(key, value) {
    try {
      localStorage.setItem('proofleaf.' + key, value);
    } catch {
      // Storage is refused or full: the setting lasts as long as the page.
    }
  }

  recall(key) {
    try {
      return localStorage.getItem('proofleaf.' + key) ?? '';
    } catch {
      return '';
    }
  }

  setCursor(name) { this.elements.canvas.style.cursor = name; }

  requestFrame() { this.events.frame(); }
}

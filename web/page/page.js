// Opens the page: everything is fetched at once, the module is compiled while it arrives, and the
// two workers begin while the letters load. Draws only when something changed.
import {lookThrough, lookThroughPicked} from './folder.js';
import {openGraphics, Painter} from './graphics.js';
import {Host} from './host.js';
import {Kept} from './kept.js';
import {STARVED} from './lane.js';
import {followFocus, listen} from './input.js';
import {watchScreen} from './screen.js';
import {keepTool} from './upkeep.js';
import {keepLanguage, phrase, said, sayPage, speak, wantedLanguage} from './words.js';

const NO_GRAPHICS = phrase('This browser cannot draw the proof: it lacks WebGL 2, or it is turned off. ' +
    'A current version of any common browser on this machine will do.');
const NO_MODULE = phrase('A part of the page did not arrive. Please check the connection and open the page again.');
const GRAPHICS_LOST = phrase('The browser took the drawing of the proof away, often after sleep or for want of ' +
    'memory. Your files are untouched. Please open the page again.');

const PANEL_DIED = phrase('The page ran out of memory. Your files are untouched. Open the page again: it goes on where ' +
    'it was, at a smaller working size.');

const DEMO = [
  {path: 'demo/saltings.png', role: 'demo-master'},
  {path: 'demo/tarnsea-baryta.icc', role: 'demo-paper'},
];
// Fetched once the first proof is up.
const MORE_PAPERS = ['owlbrook-pearl', 'quillmoor-cotton-smooth', 'plainside-office'];

const CARD = {used: 0, unwanted: 1, slower: 2};  // for proofs, as shell.h has it

const DEMO_HEAD_START = 60;  // [ms]
const LONGEST_ANSWER = 8192;  // [letters]
const PATIENCE = 4000;       // with a lost drawing context [ms]
const STILL = 700;           // without a new frame before the work is kept [ms]
const KEPT_AFTER = 10000;    // the tool at the latest; sooner once the first proof is up [ms]

const elements = Object.fromEntries(
  ['canvas', 'state', 'news', 'picker', 'typing', 'trouble', 'newer'].map((id) => [id, document.getElementById(id)]));
const address = (path) => new URL(path, import.meta.url);

function showTrouble(sentence) {
  const {trouble} = elements;
  trouble.querySelector('p').textContent = said(sentence);
  trouble.querySelector('button').onclick = () => location.reload();
  trouble.hidden = false;
}

async function load(path) {
  const response = await fetch(address(path));
  if (!response.ok) throw new Error(path + ': ' + response.status);
  return response;
}

async function compile() {
  try {
    return await WebAssembly.compileStreaming(load('proofleaf.wasm'));
  } catch {
    // Some hosts send it under another type, which streaming refuses.
    return WebAssembly.compile(await (await load('proofleaf.wasm')).arrayBuffer());
  }
}

const bytesOf = async (path) => new Uint8Array(await (await load(path)).arrayBuffer());

// The calls of bridge/page.cpp under plain names. A module that died is not called again: died() says so.
function wrapPanel(module, died) {
  let dead = false;
  const call = (name, types, result) => (...values) => {
    if (dead) return undefined;
    try {
      return module.ccall(name, result, types, values);
    } catch (error) {
      console.warn(error);
      dead = true;
      died();
      return undefined;
    }
  };
  const n = 'number', s = 'string';
  const room = call('page_stage', [s, n], n);
  // False where the memory is not enough.
  const stage = (name, bytes) => {
    const place = room(name, bytes.length);
    if (place) module.HEAPU8.set(bytes, place);
    return Boolean(place) || !bytes.length;
  };
  const failed = call('page_failed', [n, s, n]);
  const file = call('page_file', [n, s, n, s]);
  const answered = call('page_answered', [n, s]);
  const open = call('page_open', [n, n, n, n], 'boolean');
  const pixels = call('page_pixels', [], n);
  return {
    open(displayP3, touch, card, memory, font, bold) {
      stage('font', font);
      stage('bold', bold);
      return open(displayP3, touch, card, memory);
    },
    frame: call('page_frame', [n, n, n, n, n], 'boolean'),
    pointer: call('page_pointer', [n, n, n, n, n, n]),
    wheel: call('page_wheel', [n, n, n]),
    key: call('page_key', [n, s, s, n], 'boolean'),
    text: call('page_text', [s]),
    wantsText: call('page_wants_text', [], n),
    setTouch: call('page_set_touch', [n]),
    dropping: call('page_dropping', [n]),
    graphicsLost: call('page_graphics_lost', []),
    graphicsRestored: call('page_graphics_restored', []),
    file(id, name, bytes, head, role) {
      stage('head', head);
      file(id, name, bytes, role);
    },
    workLeft: call('page_work_left', [s, n]),
    leftWork: call('page_left_work', [], s),
    folder: call('page_folder', [s, n, n]),
    shelf: call('page_shelf', [s, n]),
    answer: call('page_answer', [s]),
    copied: call('page_copied', [n]),
    screen: call('page_screen', [s]),
    deliveryFolder: call('page_delivery_folder', [s, s, n]),
    saved: call('page_delivery_saved', [s, s]),
    progress: call('page_progress', [n, n]),
    answered(work, {json, buffers}) {
      if (buffers.every(({name, bytes}) => stage(name, bytes))) answered(work, json);
      else failed(work, said(STARVED), true);
    },
    failed,
    speak: call('speak_language', [s, s]),
    state: call('page_state', [], s),
    pixels(places) {
      stage('places', new Uint8Array(Float32Array.from(places).buffer));
      const start = pixels();
      return module.HEAPU8.slice(start, start + places.length * 3);
    },
  };
}

// The machine's memory as the browser tells it [GiB], 0 where it does not; less where it was not enough
// for this tab before.
const MEMORY = 'proofleaf.memory';
const USUAL_MEMORY = 4;
function memory() {
  const told = navigator.deviceMemory ?? 0;
  try {
    return Number(sessionStorage.getItem(MEMORY)) || told;
  } catch {
    return told;
  }
}

function rememberLess() {
  try {
    sessionStorage.setItem(MEMORY, Math.min(memory() || USUAL_MEMORY, USUAL_MEMORY) / 2);
  } catch {
    // Storage is refused: the page begins as it did.
  }
}

// A context that was taken away is mostly given back soon; the panel then draws everything anew.
function watchGraphics(canvas, panel, frame) {
  let giveUp = 0;
  canvas.addEventListener('webglcontextlost', (event) => {
    event.preventDefault();  // or it would not come back
    panel.graphicsLost();
    giveUp = setTimeout(() => showTrouble(GRAPHICS_LOST), PATIENCE);
    frame();
  });
  canvas.addEventListener('webglcontextrestored', () => {
    clearTimeout(giveUp);
    elements.trouble.hidden = true;
    panel.graphicsRestored();
    frame();
  });
}

// Brings the demo, unless the person was quicker.
async function bringDemo(arrivals, bring, untouched) {
  for (const {path, role} of DEMO) {
    const blob = await arrivals[role];
    if (blob && untouched()) await bring(blob, path.split('/').pop(), role);
  }
}

// A client's answer may come as a link to this page; it stands behind "#" and is taken off there.
function takeAnswer(answer) {
  const look = () => {
    if (!location.hash.startsWith('#answer=')) return;
    answer(location.hash.slice(1, LONGEST_ANSWER));
    history.replaceState(null, '', location.pathname + location.search);
  };
  addEventListener('hashchange', look);
  look();
}

// Keeps the work a moment after something changed, and at once when the page is put aside: a system
// that closes tabs closes those first.
function keepWork(kept, host, panel, painter, demo) {
  let seen = 0;
  const keep = () => {
    if (painter.last === seen) return;
    seen = painter.last;
    const text = panel.leftWork();
    if (!text) return;
    const {file} = JSON.parse(text);
    const {blob, name} = (file !== demo() && host.files.get(file)) || {};
    kept.keep(text, name, blob);
  };
  setInterval(() => { if (performance.now() - painter.last > STILL) keep(); }, STILL);
  document.addEventListener('visibilitychange', () => { if (document.hidden) keep(); });
}

async function morePapers() {
  const papers = await Promise.all(MORE_PAPERS.map(async (name) => ({
    name: `${name}.icc`, blob: await load(`demo/${name}.icc`).then((r) => r.blob()).catch(() => null)})));
  return papers.filter(({blob}) => blob);
}

const speakHere = (code) => speak(code, async (wanted) => (await load(`words-${wanted}.json`)).text());

async function main() {
  const words = speakHere(wantedLanguage());
  words.then(() => sayPage());
  const compiled = compile();
  compiled.catch(() => showTrouble(NO_MODULE));
  const letters = Promise.all([bytesOf('Inter-Regular.otf'), bytesOf('Inter-SemiBold.otf')]);
  letters.catch(() => showTrouble(NO_MODULE));
  const arrivals = Object.fromEntries(
    DEMO.map(({path, role}) => [role, load(path).then((r) => r.blob()).catch(() => null)]));

  const graphics = openGraphics(elements.canvas);
  if (!graphics) return showTrouble(NO_GRAPHICS);

  let painter = null;
  let panel = null;
  const frame = () => painter?.ask();
  const withFrame = (call) => (...values) => {
    call(...values);
    frame();
  };
  const host = new Host(elements, compiled, words, {
    frame,
    progress: withFrame((work, share) => panel.progress(work, share)),
    answered: withFrame((work, answer) => panel.answered(work, answer)),
    failed: withFrame((work, sentence, starved) => panel.failed(work, sentence, starved)),
    shelf: withFrame((outcome, count) => panel.shelf(outcome, count)),
    copied: withFrame((done) => panel.copied(done)),
    deliveryFolder: withFrame((name, names, refused) => panel.deliveryFolder(name, names, refused)),
    saved: withFrame((name, outcome) => panel.saved(name, outcome)),
    folder: (files) => bringFolder(lookThroughPicked(files)),
    async language(code) {
      keepLanguage(code);
      const chosen = await speakHere(code);
      sayPage();
      panel.speak(chosen.code, chosen.catalogue);
      host.speakInWorkers(chosen);
      frame();
    },
  });

  const binary = await compiled;
  const module = await createProofleaf({
    host,
    instantiateWasm(imports, received) {
      WebAssembly.instantiate(binary, imports).then((instance) => received(instance, binary));
      return {};
    },
  });
  // WebGL 2 alone is enough; asking for every extension costs a third of a second at start.
  const context = {majorVersion: 2, minorVersion: 0, enableExtensionsByDefault: false};
  module.GL.makeContextCurrent(module.GL.registerContext(graphics.gl, context));
  const kept = new Kept();
  panel = wrapPanel(module, () => {
    kept.hold();
    rememberLess();
    showTrouble(PANEL_DIED);
  });
  const {code, catalogue} = await words;
  panel.speak(code, catalogue);
  const touch = matchMedia('(pointer: coarse)').matches;
  const asked = new URLSearchParams(location.search).get('proof');
  const card = asked === 'cpu' ? CARD.unwanted : asked !== 'gpu' && graphics.byProcessor ? CARD.slower : CARD.used;
  if (!panel.open(graphics.displayP3, touch, card, memory(), ...await letters)) return showTrouble(NO_GRAPHICS);
  watchGraphics(elements.canvas, panel, frame);
  watchScreen(graphics.displayP3, withFrame((told) => panel.screen(told)));
  painter = new Painter(elements.canvas, panel, () => followFocus(elements, panel));

  let brought = false;
  let demo = 0;
  // Files {name, blob} at once: between two of them the panel would begin what the next one puts off.
  const bringTogether = async (files, role) => {
    const arrived = await Promise.all(files.map(({name, blob}) => host.arrive(blob, name)));
    for (const {file, name, bytes, head} of arrived) panel.file(file, name, bytes, head, role);
    if (role === 'demo-master') demo = arrived[0].file;
    frame();
  };
  const bring = (blob, name, role) => bringTogether([{name, blob}], role);
  // One paper alone is chosen at once; of several, the person chooses.
  const bringFolder = async (looking) => {
    const {name, profiles, cut} = await looking;
    await bringTogether(profiles.map((file) => ({name: file.name, blob: file})), profiles.length === 1 ? '' : 'folder');
    panel.folder(name, profiles.length, cut);
    frame();
  };
  const bringAll = async (files, folders = []) => {
    brought = true;
    for (const file of files) await bring(file, file.name, '');
    for (const folder of folders) await bringFolder(lookThrough(folder));
  };
  listen(elements, panel, painter, bringAll);
  elements.canvas.focus({preventScroll: true});
  takeAnswer(withFrame((message) => panel.answer(message)));
  const left = await kept.left();
  if (left) panel.workLeft(left.text, left.demo || left.master !== null);
  if (left?.master) {
    arrivals['demo-master'] = null;
    await bring(left.master.blob, left.master.name, '');
  }
  keepWork(kept, host, panel, painter, () => demo);
  // The workers read the demo while the first frame draws all letters, which takes a moment.
  const begun = bringDemo(arrivals, bring, () => !brought);
  const more = begun.then(morePapers);
  await Promise.race([begun, new Promise((resolve) => setTimeout(resolve, DEMO_HEAD_START))]);
  painter.draw();
  let tool = null;
  const keep = () => { tool ??= keepTool(elements.newer); };
  setTimeout(keep, KEPT_AFTER);
  host.afterFirstProof = async () => {
    keep();
    await bringTogether(await host.shelf.restore(), 'shelf');
    await bringTogether(await more, 'demo-paper');
  };

  // For the browser tests and for support.
  window.proofleaf = {
    state: () => JSON.parse(panel.state()),
    pixels(places) {
      painter.draw();
      return panel.pixels(places);
    },
    displayP3: graphics.displayP3,
  };
}

main().catch(() => showTrouble(NO_MODULE));

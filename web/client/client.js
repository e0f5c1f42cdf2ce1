// A client's page: opens the offer that stands behind "#" in its address, or in the page itself when
// it is a file, and makes the answer. All of it stays in this browser. Whatever people wrote is only
// ever set as text.
import {unseal} from './seal.js';
import {drawWall} from './wall.js';
import {phrase, said, sayPage, speak, wantedLanguage} from './words.js';

const NO_OFFER = phrase('There is no offer in this address. Please open the whole link, to its last letter.');
const NO_MODULE = phrase('A part of this page did not arrive. Please check the connection and open it again.');
const TOO_OLD = phrase('This browser is too old to work out the colours. A current version of any common browser will do.');
const COPIED = phrase('Copied.');
const COPY_YOURSELF = phrase('It is marked now; please copy it with Ctrl C or your device\'s own way.');

const MOST_ENLARGED = 1.6;  // CSS pixels to a pixel of the picture

const element = (id) => document.getElementById(id);
const textIn = (id, text) => {
  element(id).textContent = text;
  element(id).hidden = !text;
};
const today = () => {
  const now = new Date();
  return [now.getFullYear(), now.getMonth() + 1, now.getDate()].map((part) => String(part).padStart(2, '0')).join('-');
};
const dateWords = (date) => {
  const [year, month, day] = date.split('-').map(Number);
  return new Date(year, month - 1, day).toLocaleDateString(document.documentElement.lang, {day: 'numeric', month: 'long', year: 'numeric'});
};

function make(name, options = {}, ...inside) {
  const made = Object.assign(document.createElement(name), options);
  made.append(...inside);
  return made;
}

// The file holds the module and the offer within itself.
const held = (id) => element(id)?.textContent.trim();

// A language's texts as JSON.
async function readWords(code) {
  const inside = held('texts');
  if (inside) return JSON.stringify(JSON.parse(inside)[code]);
  const response = await fetch(new URL(`client-words-${code}.json`, import.meta.url));
  if (!response.ok) throw new Error(response.status);
  return response.text();
}

async function compiled() {
  const inside = held('module');
  if (inside) return WebAssembly.compile(Uint8Array.from(atob(inside), (letter) => letter.charCodeAt(0)));
  const response = await fetch(new URL('proofleaf-client.wasm', import.meta.url));
  if (!response.ok) throw new Error(response.status);
  return WebAssembly.compile(await response.arrayBuffer());
}

// The calls of bridge.cpp under plain names.
async function loadEngine(words) {
  const binary = await compiled();
  const module = await createClient({
    instantiateWasm(imports, received) {
      WebAssembly.instantiate(binary, imports).then((instance) => received(instance, binary));
      return {};
    },
  });
  module.ccall('speak_language', null, ['string', 'string'], [words.code, words.catalogue]);
  const give = (bytes) => {
    const place = module._client_room(bytes.length);
    module.HEAPU8.set(bytes, place);
  };
  const json = (name, types, ...values) => JSON.parse(module.ccall(name, 'string', types, values));
  const encoder = new TextEncoder();
  return {
    open(letters, fromFile) {
      give(encoder.encode(letters));
      return json('client_open', ['boolean', 'string'], fromFile, today());
    },
    packed() {
      const place = module._client_packed();
      return module.HEAPU8.slice(place, place + module._client_packed_length());
    },
    unlocked(bytes) {
      give(bytes);
      return json('client_unlocked', ['string'], today());
    },
    show(paper, white, {width, height}) {
      const place = module._client_show(paper, white);
      const rgba = module.HEAPU8.slice(place, place + width * height * 4);
      return new ImageData(new Uint8ClampedArray(rgba.buffer), width, height);
    },
    answer(paper, size, note) {
      give(encoder.encode(note));
      return json('client_answer', ['number', 'number'], paper, size);
    },
  };
}

// sentence: English of this page, or the module's own, which is said already.
function trouble(sentence) { textIn('trouble', said(sentence)); }

const chosen = (name) => Number(document.querySelector(`input[name=${name}]:checked`)?.value ?? -1);

function pickOf(name, index, ...words) {
  const radio = make('input', {type: 'radio', name, value: String(index), checked: index === 0});
  return make('label', {className: 'pick'}, radio, make('span', {}, ...words));
}

class Page {
  constructor(engine, offer) {
    Object.assign(this, {engine, offer});
    this.panes = [...document.querySelectorAll('figure')];
    this.fillIn();
    for (const id of ['papers', 'sizes', 'ways']) {
      element(id).addEventListener('change', () => this.changed());
    }
    element('choice').addEventListener('input', () => { element('answer').hidden = true; });
    element('choice').addEventListener('submit', (event) => {
      event.preventDefault();
      this.writeAnswer();
    });
    element('copy').addEventListener('click', () => this.copy(element('text').value));
    element('copy-link').addEventListener('click', () => this.copy(this.link));
    addEventListener('resize', () => { if (element('wall').checked) this.draw(); });
    trouble('');
    element('offer').hidden = false;
    this.draw();
  }

  fillIn() {
    const {title, note, expires, expired, papers, sizes} = this.offer;
    if (title) document.title = title;
    textIn('title', title || said('A print to choose'));
    textIn('note', note);
    textIn('ends', expires && (expired
      ? said('This offer ended on {}. You can still look at it; for a choice, please ask for a new one.', dateWords(expires))
      : said('It holds until {}.', dateWords(expires))));
    papers.forEach(({name, description}, index) => element('papers').append(pickOf('paper', index,
        make('b', {textContent: name}), make('span', {className: 'description', textContent: description}))));
    sizes.forEach(({size, price}, index) => {
      const pick = pickOf('size', index, size);
      pick.append(make('i', {textContent: price}));
      element('sizes').append(pick);
    });
    element('sizes').hidden = !sizes.length;
    element('beside').append(make('option', {value: '-1', textContent: said('nothing')}),
        ...papers.map(({name}, index) => make('option', {value: String(index), textContent: name})));
    element('beside-way').hidden = papers.length < 2;
    if (expired) for (const part of element('choice').children) part.hidden = part.id !== 'papers';
  }

  get printed() { return this.offer.sizes[chosen('size')]; }

  changed() {
    this.draw();
    const seen = this.panes.filter((pane) => !pane.hidden);
    this.news(seen.map((pane) => pane.querySelector('canvas').getAttribute('aria-label')).join(' '));
  }

  draw() {
    const beside = Number(element('beside').value);
    element('wall-way').hidden = !this.printed?.width_mm;
    const wall = element('wall').checked && !element('wall-way').hidden;
    element('wall-said').hidden = !wall;
    this.panes[1].hidden = beside < 0;
    element('panes').classList.toggle('two', beside >= 0);
    this.drawPane(this.panes[0], chosen('paper'), wall);
    if (beside >= 0) this.drawPane(this.panes[1], beside, wall);
  }

  drawPane(pane, index, wall) {
    const white = element('white').checked;
    const paper = this.offer.papers[index];
    const canvas = pane.querySelector('canvas');
    const picture = wall ? document.createElement('canvas') : canvas;
    picture.width = this.offer.width;
    picture.height = this.offer.height;
    picture.getContext('2d').putImageData(this.engine.show(index, white, this.offer), 0, 0);
    if (wall) drawWall(canvas, picture, this.printed, white ? paper.screen_white : [255, 255, 255], pane.clientWidth);
    canvas.style.maxWidth = wall ? 'none' : `${picture.width * MOST_ENLARGED}px`;
    pane.querySelector('figcaption').textContent = wall ? `${paper.name}, ${this.printed.size}` : paper.name;
    const onPaper = white ? said('The picture on {}, with the paper\'s own white', paper.name)
      : said('The picture on {}, white as the screen\'s', paper.name);
    const onWall = wall ? said(', on a wall at {} beside a line of 1.7 m', this.printed.size) : '';
    canvas.setAttribute('aria-label', `${onPaper}${onWall}.`);
  }

  writeAnswer() {
    const {title, papers} = this.offer;
    const note = element('words').value.replace(/\t/g, ' ').trim();
    const answer = this.engine.answer(chosen('paper'), chosen('size'), note);
    element('choice-said').textContent = answer.sentence ?? '';
    if (answer.sentence) return;
    const choice = [papers[chosen('paper')].name, this.printed?.size].filter(Boolean).join(', ');
    const sentence = title ? said('My choice for {}: {}.', title, choice) : said('My choice: {}.', choice);
    element('text').value = [sentence, note, answer.text].filter(Boolean).join('\n\n');
    const fromFile = Boolean(held('letters'));
    this.link = fromFile ? '' : new URL('./', location.href).href.replace(/[?#].*$/, '') + '#' + answer.text;
    element('copy-link').hidden = fromFile;
    element('answer').hidden = false;
    element('answer').focus();
    this.news(said('Your answer is written.'));
  }

  async copy(text) {
    try {
      await navigator.clipboard.writeText(text);
      this.news(said(COPIED));
    } catch {
      element('text').value = text;
      element('text').select();
      this.news(said(COPY_YOURSELF));
    }
  }

  news(sentence) { element('news').textContent = sentence; }
}

function askPassphrase(engine) {
  trouble('');
  element('lock').hidden = false;
  element('passphrase').focus();
  element('lock').addEventListener('submit', async (event) => {
    event.preventDefault();
    element('lock-said').textContent = said('One moment.');
    try {
      const offer = engine.unlocked(await unseal(engine.packed(), element('passphrase').value));
      element('lock').hidden = true;
      opened(engine, offer);
    } catch (error) {
      element('lock-said').textContent = error.message;
    }
  });
}

function opened(engine, offer) {
  if (offer.kind === 'locked') askPassphrase(engine);
  else if (offer.kind === 'opened') new Page(engine, offer);
  else trouble(offer.sentence);
}

async function main() {
  addEventListener('hashchange', () => location.reload());
  const words = await speak(wantedLanguage(), readWords);
  sayPage();
  const letters = held('letters') ?? location.hash.slice(1);
  if (!letters) return trouble(NO_OFFER);
  const engine = await loadEngine(words);
  opened(engine, engine.open(letters, held('letters') !== undefined));
}

main().catch((error) => trouble(error instanceof WebAssembly.CompileError ? TOO_OLD : NO_MODULE));

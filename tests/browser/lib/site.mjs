// The page in a real browser: server, browser, and what a person does there.
import {spawn} from 'node:child_process';
import {mkdtempSync, readFileSync, readdirSync, rmSync} from 'node:fs';
import {createRequire} from 'node:module';
import {tmpdir} from 'node:os';
import path from 'node:path';
import {after, before} from 'node:test';
import {fileURLToPath} from 'node:url';

// Imported, it would first be searched for names to export, which takes as long as to run it.
const {chromium, firefox} = createRequire(import.meta.url)('playwright-core');

export const ROOT = fileURLToPath(new URL('../../..', import.meta.url));
const FLAGS = ['--no-sandbox', '--use-angle=swiftshader', '--enable-unsafe-swiftshader', '--no-first-run',
  '--disable-background-networking', '--disable-component-update', '--disable-sync', '--disable-quic'];
// All is drawn in software, which is half of a test's work. With QUICK set, as tests/browser/run does, the
// page has one pixel for four CSS pixels where a test does not ask for SHARP, and no pretended card puts
// its parts together; WebGL is drawn as ever. And only what runs long is compiled a second time, for speed.
const QUICK = Boolean(process.env.QUICK);
if (QUICK) FLAGS.push('--disable-gpu-compositing', '--js-flags=--wasm-tiering-budget=2000000000');
export const SHARP = {deviceScaleFactor: 1};
// The browser keeps a copy of the page, to open it without a network.
export const KEEPING = {serviceWorkers: 'allow'};

// The sizes people use the page in.
export const SIZES = {
  desktop: {viewport: {width: 1440, height: 900}},
  tablet: {viewport: {width: 1024, height: 768}, hasTouch: true},
  phone: {viewport: {width: 390, height: 844}, hasTouch: true, isMobile: true},
};

export async function serve(under = '/', folder = path.join(ROOT, 'build/site'), port = 8700) {
  const server = spawn(process.execPath, [path.join(ROOT, 'web/serve.mjs'), '--port', String(port), '--under', under, folder],
      {stdio: ['ignore', 'pipe', 'inherit']});
  const address = await new Promise((resolve, reject) => {
    server.on('exit', () => reject(new Error('The server did not start.')));
    server.stdout.on('data', (text) => resolve(String(text).match(/http:\S+/)[0]));
  });
  return {address, stop: () => server.kill()};
}

// With IN_FIREFOX=1 in Debian's own Firefox, which draws WebGL in software only on a screen, if a
// pretended one, and tells the tests nothing of what it saves.
const IN_FIREFOX = Boolean(process.env.IN_FIREFOX);
const SAVED = IN_FIREFOX ? mkdtempSync(path.join(tmpdir(), 'saved-')) : '';
if (SAVED) process.on('exit', () => rmSync(SAVED, {recursive: true}));
const FIREFOX = {channel: 'moz-firefox', executablePath: '/usr/bin/firefox-esr', headless: false,
  downloadsPath: SAVED, firefoxUserPrefs: {'webgl.force-enabled': true}};
const CHROMIUM = {executablePath: process.env.CHROMIUM ?? '/usr/bin/chromium-headless-shell', args: FLAGS};

export const launch = (options = {}) => IN_FIREFOX
  ? firefox.launch({...FIREFOX, ...options}) : chromium.launch({...CHROMIUM, ...options});

// The file that the page hands over upon act(): {name, bytes}.
export async function handedOver(page, act) {
  if (!IN_FIREFOX) {
    const download = page.waitForEvent('download', {timeout: 60000});
    await act();
    const arrived = await download;
    return {name: arrived.suggestedFilename(), bytes: readFileSync(await arrived.path())};
  }
  const earlier = readdirSync(SAVED);
  await act();
  for (let turn = 0; turn < 300; ++turn) {
    const [name, ...parts] = readdirSync(SAVED).filter((one) => !earlier.includes(one));
    const bytes = name && !parts.length && readFileSync(path.join(SAVED, name));
    if (bytes?.length) return {name, bytes};  // written to, under another name, it was two files
    await page.waitForTimeout(200);
  }
  throw new Error('Nothing was handed over.');
}

// What a screen reader is told is soon followed by something else: window.heard keeps all of it.
const listen = () => {
  window.heard = [];
  document.addEventListener('DOMContentLoaded', () => {
    const news = document.getElementById('news');
    if (news) new MutationObserver(() => window.heard.push(news.textContent)).observe(news, {childList: true});
  });
};

export const forgetNews = (page) => page.evaluate(() => { window.heard.length = 0; });
// Waits until a sentence with these words has been told since the page opened or news were forgotten.
export const told = (page, words, timeout = 10000) =>
  page.waitForFunction((text) => window.heard.some((news) => news.includes(text)), words, {timeout});

// Opens the page, its address with this query, in a fresh context; `requests`, `complaints` and
// `saved`, the names of files handed over, grow while it lives.
// prepare(context) comes before the page does. The browser keeps no copy of the page, which is work, where it
// is not asked to.
export async function open(browser, address, {query = '', ...options} = {}, prepare = async () => {}) {
  const context = await browser.newContext({viewport: {width: 1440, height: 900}, acceptDownloads: true,
    ...(IN_FIREFOX ? {} : {serviceWorkers: 'block'}),
    deviceScaleFactor: QUICK && !IN_FIREFOX ? 0.5 : 1, ...options});
  await context.addInitScript(listen);
  await prepare(context);
  const page = await context.newPage();
  const visit = {context, page, requests: [], complaints: [], saved: []};
  context.on('request', (request) => visit.requests.push(request.url()));
  page.on('download', (file) => visit.saved.push(file.suggestedFilename()));
  page.on('pageerror', (error) => visit.complaints.push(String(error)));
  page.on('console', (line) => { if (line.type() === 'error') visit.complaints.push(line.text()); });
  const began = performance.now();
  await page.goto(address + query);
  await page.waitForFunction(() => window.proofleaf);
  visit.opened = Math.round(performance.now() - began);
  return visit;
}

// All workers of the context get this script as edit(its text) has it. A worker that the page began while its context
// closes wants its script no more; what else goes wrong here needs no word of its own: the worker waits for its
// script in vain, and so does the test for the worker.
export const edited = (context, script, edit) => context.route(`**/${script}`, async (route) => {
  try {
    const whole = await route.fetch();
    await route.fulfill({response: whole, body: edit(await whole.text())});
  } catch { /* see above */ }
});

// A fault for all workers of the context: script put at the end of bands.js, before the rest of them is made.
// fault() says which, each time a worker begins.
export const spoil = (context, fault) => edited(context, 'bands.js', (text) => text + fault());

// Workers that have nothing to do end: the next ones have a small memory, and the fault of that time.
export async function endWorkers(page) {
  const ended = page.workers().map((worker) => worker.evaluate(() => {
    setTimeout(() => { throw new Error('ended by the test'); });
  }).catch(() => {}));
  // One that ended by itself just now may never answer.
  await Promise.race([Promise.all(ended), page.waitForTimeout(1000)]);
  await page.waitForTimeout(200);
}

// Work whose request passes window.held goes no further once it has told how far it is, and short work, of
// which nothing may be told, keeps its answer: to stop such work there is all the time in the world. Lane
// ends the worker, so nothing is left waiting.
// window.asked keeps all requests.
export async function holding(context) {
  await context.addInitScript(() => {
    window.held = () => false;
    window.asked = [];
    const {postMessage} = Worker.prototype;
    Worker.prototype.postMessage = function (job, ...more) {
      if (!job.request) return postMessage.call(this, job, ...more);
      const request = JSON.parse(job.request);
      window.asked.push(request);
      return postMessage.call(this, {...job, held: window.held(request)}, ...more);
    };
  });
  await spoil(context, () => `{
    const [tell, perform] = [postMessage, begin];
    const asleep = new Int32Array(new WebAssembly.Memory({initial: 1, maximum: 1, shared: true}).buffer);
    let held = false;
    begin = (module, job) => {
      held = Boolean(job.held);
      return perform(module, job);
    };
    const sleep = () => {
      while (held) Atomics.wait(asleep, 0, 0, 1000);
    };
    self.postMessage = (said, carried = []) => {
      if (said.memory) sleep();  // an answer
      tell(said, carried);
      if (said.share > 0) sleep();
    };
  }`);
}

// A server and a browser for all tests of a file: {address, browser, open(options, first)} from when they are
// there. prepare(host) is awaited before the first test, in the same hook: two hooks of one file would run side by
// side.
export function served(prepare = async () => {}, under = '/') {
  const host = {};
  let server;
  before(async () => {
    server = await serve(under);
    host.address = server.address;
    host.browser = await launch();
    host.open = (options, first) => open(host.browser, host.address, options, first);
    await prepare(host);
  });
  after(async () => {
    await host.browser?.close();
    server?.stop();
  });
  return host;
}

// One page for all of them, with which prepare(visit) is called. first(context) comes before the page does.
export function onePage(prepare, {under = '/', first = async () => {}, ...options} = {}) {
  served(async (host) => prepare({...await host.open(options, first), address: host.address}), under);
}

// As text: an object of its size is taken apart and put together again on its way, which takes four times as long.
export const state = async (page) => JSON.parse(await page.evaluate(() => JSON.stringify(window.proofleaf.state())));

// Waits until the page's state passes `test`; answers that state.
export async function until(page, test, timeout = 60000) {
  const end = performance.now() + timeout;  // clocks of machines are set, this one is not
  for (let pause = 40;; pause = Math.min(pause * 1.2, 160)) {  // asking costs the page and node some time
    const now = await state(page);
    if (test(now)) return now;
    if (performance.now() > end) throw new Error(`Waited in vain for ${test}; the state is ${JSON.stringify(now)}`);
    await page.waitForTimeout(pause);
  }
}

// Drops files on the page as a person would; each is {name, bytes}.
export async function drop(page, ...files) {
  const plain = files.map(({name, bytes}) => ({name, base64: Buffer.from(bytes).toString('base64')}));
  await page.evaluate((list) => {
    const carried = new DataTransfer();
    for (const {name, base64} of list) {
      const bytes = Uint8Array.from(atob(base64), (letter) => letter.charCodeAt(0));
      carried.items.add(new File([bytes], name));
    }
    for (const type of ['dragover', 'drop']) {
      window.dispatchEvent(new DragEvent(type, {dataTransfer: carried, bubbles: true, cancelable: true}));
    }
  }, plain);
}

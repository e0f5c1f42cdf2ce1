// The page in headless Chromium, with software graphics: page_bench.mjs DELIVERY-BENCH FOLDER prints
// one JSON object a line. The masters in FOLDER are delivery_bench's. Peers are native processes of
// the same run.
import {execFileSync} from 'node:child_process';
import {readFileSync, readdirSync, rmSync} from 'node:fs';
import path from 'node:path';
import {click, press, ready} from '../browser/lib/panel.mjs';
import {drop, launch, open, ROOT, serve, state, until} from '../browser/lib/site.mjs';

const [bench, folder] = process.argv.slice(2);
const ROUNDS = 3;
const WRITING = 0.8;  // the share of a delivery told when it is written, see engine/deliver
const JPEG = path.resolve(folder, 'master-11648x8736.jpg');
const TIFF = path.resolve(folder, 'master-11648x8736.tif');
const SMALL = path.resolve(folder, 'master-2912x2184.tif');  // the page works on 2 megapixels of it
const PAPERS = path.join(ROOT, 'demo-images/papers');
const PAPER = path.join(PAPERS, 'tarnsea-baryta.icc');
const MINUTES = 60000, REST = 5000;  // [ms]

const row = (what, ours, peer, goal, note) =>
  console.log(JSON.stringify({what, ours, peer, goal, at_most: true, note}));

function timed(command, ...words) {
  const began = performance.now();
  execFileSync(command, words, {stdio: ['ignore', 'ignore', 'ignore']});
  return (performance.now() - began) / 1000;
}

function jpgicc() {
  const out = path.resolve(folder, 'raced.jpg');
  const took = timed('jpgicc', '-q95', '-t1', '-b', '-e', `-o${PAPER}`, JPEG, out);
  rmSync(out);
  return took;
}

const decode = () => Number(execFileSync(bench, ['--decode', JPEG]).toString());

// The most resident memory of the page's own process (proc(5): VmHWM), all its workers included.
function renderersPeak(before) {
  const peaks = readdirSync('/proc').filter((name) => /^\d+$/.test(name) && !before.has(name)).map((pid) => {
    try {
      if (!readFileSync(`/proc/${pid}/cmdline`, 'latin1').includes('--type=renderer')) return 0;
      return Number(readFileSync(`/proc/${pid}/status`, 'latin1').match(/VmHWM:\s+(\d+)/)[1]) * 1024 / 1e6;
    } catch {
      return 0;
    }
  });
  return Math.max(...peaks);
}

async function visit(work, options = {}, prepare = undefined) {
  const before = new Set(readdirSync('/proc'));
  const browser = await launch();
  try {
    const {page} = await open(browser, server.address, options, prepare);
    await until(page, ready, 2 * MINUTES);
    return await work(page, () => renderersPeak(before));
  } finally {
    await browser.close();
  }
}

// Papers are judged, and there was time to make the report and to keep the tool for a visit without a
// network: peers have the machine for themselves, too.
async function atRest(page) {
  await until(page, (s) => ready(s) && s.busy.length === 0 && s.choice.tried === s.choice.to_try, 2 * MINUTES);
  await page.waitForTimeout(REST);
}

// Brings a file as the picker does; answers seconds from then to the first and to the exact proof, as
// the page's own frames see them.
async function proofOf(page, file) {
  const name = path.basename(file);
  await atRest(page);
  await page.evaluate((wanted) => {
    window.seen = {};
    window.addEventListener('change', () => { window.began = performance.now(); }, {capture: true, once: true});
    const look = () => {
      const {master, grid, ready} = window.proofleaf.state();
      const now = (performance.now() - window.began) / 1000;
      if (master.name === wanted && grid > 0) window.seen.first ??= now;
      if (master.name === wanted && ready) window.seen.exact ??= now;
      if (!window.seen.exact) setTimeout(look, 10);
    };
    look();
  }, name);
  await page.locator('input[type=file]').setInputFiles(file);
  await page.waitForFunction(() => window.seen.exact, null, {timeout: 5 * MINUTES});
  return page.evaluate(() => window.seen);
}

// Notes when the delivery's worker first tells that all is written and the check has begun. The page itself
// is not asked over and over, which would take time from the work.
const noteWritten = (context) => context.addInitScript((writing) => {
  const {postMessage} = Worker.prototype;
  const heard = new WeakSet();
  Worker.prototype.postMessage = function (...all) {
    if (all[0].request && JSON.parse(all[0].request).op === 'deliver' && !heard.has(this)) {
      heard.add(this);
      this.addEventListener('message', ({data}) => {
        if (data.share >= writing) window.written ??= performance.now();
      });
    }
    return postMessage.apply(this, all);
  };
}, WRITING);

// Once nothing else is going on, as for the peers; seconds from the click to the written file, and to the
// checked one in the person's hands.
async function deliveryOf(page) {
  await atRest(page);
  await press(page, '6');
  await page.evaluate(() => addEventListener('pointerup', () => {
    window.asked = performance.now();
    window.written = undefined;
  }, {capture: true}));
  const download = page.waitForEvent('download', {timeout: 5 * MINUTES});
  await click(page, 'make');
  const began = performance.now();
  await (await download).path();
  const checked = (performance.now() - began) / 1000;
  return {checked, written: await page.evaluate(() => (window.written - window.asked) / 1000)};
}

// Twelve papers: the demo's four, and twice as many under other dates.
async function rankingOf(page) {
  await until(page, (s) => ready(s) && s.choice.tried === 4, 2 * MINUTES);
  const files = readdirSync(PAPERS).filter((name) => name.endsWith('.icc'));
  const dated = (name, year) => {
    const bytes = readFileSync(path.join(PAPERS, name));
    bytes.writeUInt16BE(year, 24);  // ICC.1:2022 7.2.1: year of creation, and the profile's ID after it
    return {name: `${year}-${name}`, bytes: bytes.fill(0, 84, 100)};
  };
  await drop(page, ...[2001, 2002].flatMap((year) => files.map((name) => dated(name, year))));
  await until(page, (s) => ready(s) && s.choice.tried === 12 && s.choice.to_try === 12, 2 * MINUTES);
  await page.evaluate((wanted) => {
    window.seen = {};
    const look = () => {
      const {master, ready, choice} = window.proofleaf.state(), now = performance.now() / 1000;
      if (master.name === wanted && choice.tried < 12) {
        if (ready) window.seen.exact ??= now;
        if (choice.tried > 0) window.seen.first ??= now;
      }
      if (window.seen.exact && choice.tried === 12) window.seen.last = now;
      else setTimeout(look, 5);
    };
    look();
  }, path.basename(SMALL));
  await page.locator('input[type=file]').setInputFiles(SMALL);
  await page.waitForFunction(() => window.seen.last, null, {timeout: 2 * MINUTES});
  const {exact, last} = await page.evaluate(() => window.seen);
  return last - exact;
}

// The page's own time in each frame, told by the frames themselves.
const watchFrames = (context) => context.addInitScript(() => {
  window.frames_took = [];
  const ask = window.requestAnimationFrame.bind(window);
  window.requestAnimationFrame = (call) => ask((at) => {
    const began = performance.now();
    call(at);
    window.frames_took.push(performance.now() - began);
  });
});

// Two fingers pull the picture larger and about; answers the frames' times in order [ms].
async function gestureOf(page) {
  await until(page, (s) => ready(s) && s.choice.tried === 4, 2 * MINUTES);
  await page.locator('input[type=file]').setInputFiles(SMALL);
  await until(page, (s) => ready(s) && s.master.name === path.basename(SMALL) && s.choice.tried === 4, 2 * MINUTES);
  const [x, y, width, height] = (await state(page)).rects.picture;
  const devtools = await page.context().newCDPSession(page);
  const touch = (type, apart, shift) => devtools.send('Input.dispatchTouchEvent', {type,
    touchPoints: type === 'touchEnd' ? [] : [-1, 1].map((side, id) =>
      ({id, x: x + width / 2 + side * apart + shift, y: y + height / 2 + shift / 2}))});
  await page.evaluate(() => { window.frames_took.length = 0; });
  await touch('touchStart', 40, 0);
  for (let step = 1; step <= 60; ++step) await touch('touchMove', 40 + 3 * step, 0);
  for (let step = 1; step <= 60; ++step) await touch('touchMove', 220, 60 * Math.sin(step / 5));
  await touch('touchEnd');
  return (await page.evaluate(() => window.frames_took)).sort((one, other) => one - other);
}

const best = (rounds, key) => Math.min(...rounds.map((round) => round[key]));

const server = await serve();
try {
  const rounds = [];
  for (let i = 0; i < ROUNDS; ++i) {
    const native = {jpgicc: jpgicc(), decode: decode()};
    const ours = await visit(async (page) => ({...await proofOf(page, JPEG), ...await deliveryOf(page)}), {}, noteWritten);
    rounds.push({...native, ...ours});
  }
  const seconds = 's, best of 3 rounds; peer is native';
  row('102-Mpx JPEG delivered in Chromium, unverified, against jpgicc', best(rounds, 'written'), best(rounds, 'jpgicc'), 1, seconds);
  row('the same, verified', best(rounds, 'checked'), best(rounds, 'jpgicc'), 0, seconds);
  const decoding = best(rounds, 'decode'), first = best(rounds, 'first');
  row('first proof after a drop, against libjpeg-turbo\'s full decode', first, decoding, 1, seconds);
  row('full-sharpness proof at screen size, the same (it is the first one)', first, decoding, 2, seconds);
  row('proof with exact colours, the same', best(rounds, 'exact'), decoding, 0, seconds);
  const ranking = Math.min(await visit(rankingOf), await visit(rankingOf), await visit(rankingOf));
  row('12 papers judged, 2 megapixels, from the exact proof to the last', ranking, 1, 1, 's, best of 3; peer: the budget');
  const frames = await visit(gestureOf,
    {viewport: {width: 1024, height: 768}, hasTouch: true, deviceScaleFactor: 2}, watchFrames);
  const note = `ms of the page's own thread, of ${frames.length} frames; peer: a sixtieth of a second`;
  row('two fingers on a tablet\'s screen, a frame in the middle', frames[frames.length >> 1], 1000 / 60, 1, note);
  row('the same, the 95th of 100', frames[Math.floor(frames.length * 0.95)], 1000 / 60, 1, note);
  const peak = await visit(async (page, memory) => {
    await proofOf(page, TIFF);
    await deliveryOf(page);
    return memory();
  });
  row('memory of the whole tab, 102-Mpx 16-bit TIFF to JPEG', peak, 700, 1, 'MB at most; peer: the budget');
} finally {
  server.stop();
}

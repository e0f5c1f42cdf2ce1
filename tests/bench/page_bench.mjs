// The page in headless Chromium, with software graphics: page_bench.mjs DELIVERY-BENCH FOLDER prints
// one JSON object a line. The masters in FOLDER are delivery_bench's. Peers are native processes of
// the same run.
import {execFileSync} from 'node:child_process';
import {readFileSync, readdirSync, rmSync} from 'node:fs';
import path from 'node:path';
import {click, press, ready, typeInto} from '../browser/lib/panel.mjs';
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

async function visit(work, options = {}, prepare = async () => {}) {
  const before = new Set(readdirSync('/proc'));
  const browser = await launch();
  try {
    const {page} = await open(browser, server.address, options, async (context) => {
      await watchFrames(context);
      await prepare(context);
    });
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

// Tells of each frame how much of the page's own time it took, and then has the page looked at, by look(): to
// ask it over and over would take time from the work.
const watchFrames = (context) => context.addInitScript(() => {
  window.frames_took = [];
  window.look = () => {};
  const ask = window.requestAnimationFrame.bind(window);
  window.requestAnimationFrame = (call) => ask((at) => {
    const began = performance.now();
    call(at);
    window.frames_took.push(performance.now() - began);
    window.look();
  });
});

// Brings a file as the picker does; answers seconds from then to the first and to the exact proof, as
// the page's own frames see them.
async function proofOf(page, file) {
  const name = path.basename(file);
  await atRest(page);
  await page.evaluate((wanted) => {
    window.seen = {};
    window.addEventListener('change', () => { window.began = performance.now(); }, {capture: true, once: true});
    window.look = () => {
      const now = (performance.now() - window.began) / 1000;
      const {master, grid, ready} = window.proofleaf.state();
      if (master.name === wanted && grid > 0) window.seen.first ??= now;
      if (master.name === wanted && ready) window.seen.exact ??= now;
      if (window.seen.exact) window.look = () => {};
    };
  }, name);
  await page.locator('input[type=file]').setInputFiles(file);
  await page.waitForFunction(() => window.seen.exact, null, {timeout: 5 * MINUTES});
  return page.evaluate(() => window.seen);
}

// Notes when the delivery's worker first tells that all is written and the check has begun.
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
    window.look = () => {
      const now = performance.now() / 1000, {master, ready, choice} = window.proofleaf.state();
      if (master.name === wanted && choice.tried < 12) {
        if (ready) window.seen.exact ??= now;
        if (choice.tried > 0) window.seen.first ??= now;
      }
      if (window.seen.exact && choice.tried === 12) window.seen.last = now;
      if (window.seen.last) window.look = () => {};
    };
  }, path.basename(SMALL));
  await page.locator('input[type=file]').setInputFiles(SMALL);
  await page.waitForFunction(() => window.seen.last, null, {timeout: 2 * MINUTES});
  const {exact, last} = await page.evaluate(() => window.seen);
  return last - exact;
}

// Intent, paper and correction are changed in turns; answers for each change the longest frame of the page's
// own thread and all that it spent on the proof, from the quick one to the exact one, each in order [ms].
async function changesOf(page) {
  await page.locator('input[type=file]').setInputFiles(SMALL);
  await until(page, (s) => s.master.name === path.basename(SMALL));
  await atRest(page);
  const frames = [], proofs = [];
  const changed = async (act, done) => {
    await page.evaluate(() => { window.frames_took.length = 0; });
    await act();
    proofs.push((await until(page, (s) => done(s) && ready(s))).proof_ms);
    frames.push(await page.evaluate(() => Math.max(...window.frames_took)));
  };
  for (let turn = 0; turn < 4; ++turn) {
    const {intent, paper} = await state(page);
    await changed(() => press(page, 'i'), (s) => s.intent !== intent);
    await press(page, '2');
    await changed(() => click(page, `paper-${turn % 2 + 2}`), (s) => s.paper !== paper);
    await press(page, '4');
    await changed(() => typeInto(page, 'fit-saturation-field', `${turn + 5}`),
      (s) => s.recipe.now.correction.saturation === turn + 5);
  }
  const inOrder = (list) => list.sort((one, other) => one - other);
  return {frames: inOrder(frames), proofs: inOrder(proofs)};
}

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
  for (const [query, how, goal] of [['?proof=gpu', 'with the card', 16], ['?proof=cpu', 'without', 60]]) {
    const {frames, proofs} = await visit(changesOf, {query});
    const half = frames.length >> 1;
    row(`change of intent, paper or correction at 2 megapixels, ${how}`, frames[half], goal, 1,
      `ms of the page's own thread, the longest frame, the middle of ${frames.length} changes, at most ` +
      `${Math.round(frames.at(-1))}; quick and exact proof together ${Math.round(proofs[half])}; peer: the budget`);
  }
  const frames = await visit(gestureOf,
    {viewport: {width: 1024, height: 768}, hasTouch: true, deviceScaleFactor: 2});
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

// The page in headless Chromium, with software graphics: page_bench.mjs DELIVERY-BENCH FOLDER prints
// one JSON object a line. The masters in FOLDER are delivery_bench's. Peers are native processes of
// the same run.
import {execFileSync} from 'node:child_process';
import {readFileSync, readdirSync, rmSync} from 'node:fs';
import path from 'node:path';
import {click, press, ready} from '../browser/lib/panel.mjs';
import {launch, open, ROOT, serve, until} from '../browser/lib/site.mjs';

const [bench, folder] = process.argv.slice(2);
const ROUNDS = 3;
const JPEG = path.resolve(folder, 'master-11648x8736.jpg');
const TIFF = path.resolve(folder, 'master-11648x8736.tif');
const PAPER = path.join(ROOT, 'demo-images/papers/tarnsea-baryta.icc');
const MINUTES = 60000;

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

async function visit(work) {
  const before = new Set(readdirSync('/proc'));
  const browser = await launch();
  try {
    const {page} = await open(browser, server.address);
    await until(page, ready, 2 * MINUTES);
    return await work(page, () => renderersPeak(before));
  } finally {
    await browser.close();
  }
}

// Brings a file as the picker does; answers seconds from then to the first and to the exact proof, as
// the page's own frames see them.
async function proofOf(page, file) {
  const name = path.basename(file);
  await page.evaluate((wanted) => {
    window.seen = {};
    window.addEventListener('change', () => { window.began = performance.now(); }, {capture: true, once: true});
    const look = () => {
      const {master, grid, ready} = window.proofleaf.state();
      const now = (performance.now() - window.began) / 1000;
      if (master.name === wanted && grid > 0) window.seen.first ??= now;
      if (master.name === wanted && ready) window.seen.exact ??= now;
      if (!window.seen.exact) requestAnimationFrame(look);
    };
    requestAnimationFrame(look);
  }, name);
  await page.locator('input[type=file]').setInputFiles(file);
  await page.waitForFunction(() => window.seen.exact, null, {timeout: 5 * MINUTES});
  return page.evaluate(() => window.seen);
}

async function deliveryOf(page) {
  await press(page, '6');
  const download = page.waitForEvent('download', {timeout: 5 * MINUTES});
  await click(page, 'make');
  const began = performance.now();
  let written;
  while (!written) {
    const {busy} = await page.evaluate(() => window.proofleaf.state());
    if (busy.some(({share}) => share >= 0.8)) written = (performance.now() - began) / 1000;
    else await page.waitForTimeout(10);
  }
  await (await download).path();
  return {written, checked: (performance.now() - began) / 1000};
}

const best = (rounds, key) => Math.min(...rounds.map((round) => round[key]));

const server = await serve();
try {
  const rounds = [];
  for (let i = 0; i < ROUNDS; ++i) {
    const native = {jpgicc: jpgicc(), decode: decode()};
    const ours = await visit(async (page) => ({...await proofOf(page, JPEG), ...await deliveryOf(page)}));
    rounds.push({...native, ...ours});
  }
  const seconds = 's, best of 3 rounds; peer is native';
  row('102-Mpx JPEG delivered in Chromium, unverified, against jpgicc', best(rounds, 'written'), best(rounds, 'jpgicc'), 1, seconds);
  row('the same, verified', best(rounds, 'checked'), best(rounds, 'jpgicc'), 0, seconds);
  const decoding = best(rounds, 'decode'), first = best(rounds, 'first');
  row('first proof after a drop, against libjpeg-turbo\'s full decode', first, decoding, 1, seconds);
  row('full-sharpness proof at screen size, the same (it is the first one)', first, decoding, 2, seconds);
  row('proof with exact colours, the same', best(rounds, 'exact'), decoding, 0, seconds);
  const peak = await visit(async (page, memory) => {
    await proofOf(page, TIFF);
    await deliveryOf(page);
    return memory();
  });
  row('memory of the whole tab, 102-Mpx 16-bit TIFF to JPEG', peak, 700, 1, 'MB at most; peer: the budget');
} finally {
  server.stop();
}

// node soak.mjs PICTURES: opens, proofs and delivers one picture after another in one tab. Fails if, past
// the first quarter, the tab's memory grows by more than a tenth, or if workers, event listeners,
// elements or object URLs pile up.
import {readFileSync} from 'node:fs';
import jpegJs from 'jpeg-js';
import {tiff} from './lib/master.mjs';
import {click, press, ready} from './lib/panel.mjs';
import {png} from './lib/spots.mjs';
import {drop, launch, open, serve, state, until} from './lib/site.mjs';

const PICTURES = Number(process.argv[2] ?? 200);
const GROWTH = 1.1;
const URL_LIFE = 60000;  // of a saved file's object URL, web/page/host.js [ms]
const WIDE = readFileSync('/usr/share/color/icc/ghostscript/rommrgb.icc');

// A picture of soft ramps, another one each time.
function pixels(width, height, channels, turn) {
  const bytes = Buffer.alloc(width * height * channels);
  for (let y = 0, at = 0; y < height; ++y) {
    for (let x = 0; x < width; ++x) {
      for (let c = 0; c < channels; ++c) bytes[at++] = c === 3 ? 255 : (x * (c + 1) + y * (turn % 7 + 1) + turn * 40) >> 2;
    }
  }
  return bytes;
}

function rampPng(width, height, channels, turn) {
  const picture = pixels(width, height, channels, turn), row = width * channels;
  const rows = Array.from({length: height}, (_, y) => [Buffer.alloc(1), picture.subarray(y * row, (y + 1) * row)]);
  return png(width, height, channels, Buffer.concat(rows.flat()));
}

const KINDS = [
  (turn) => jpegJs.encode({width: 1200, height: 900, data: pixels(1200, 900, 4, turn)}, 90).data,
  () => tiff(WIDE, 4),
  (turn) => rampPng(900, 1100, 3, turn),
  (turn) => rampPng(1600, 300, 1, turn),
  () => tiff(null, 9),
];
const pictureOf = (turn) => ({name: `picture-${turn}`, bytes: KINDS[turn % KINDS.length](turn)});

const COUNT_URLS = () => {
  const {createObjectURL, revokeObjectURL} = URL;
  const live = new Set();
  URL.createObjectURL = (blob) => {
    const url = createObjectURL.call(URL, blob);
    live.add(url);
    return url;
  };
  URL.revokeObjectURL = (url) => {
    live.delete(url);
    revokeObjectURL.call(URL, url);
  };
  window.liveUrls = () => live.size;
};

// Resident memory of the browser's pages [MB], Linux' proc(5).
async function pageMemory(browserSession) {
  const {processInfo} = await browserSession.send('SystemInfo.getProcessInfo');
  const kilobytes = processInfo.filter(({type}) => type === 'renderer').map(({id}) => {
    const [, resident] = readFileSync(`/proc/${id}/status`, 'utf8').match(/VmRSS:\s+(\d+)/);
    return Number(resident);
  });
  return Math.round(kilobytes.reduce((sum, each) => sum + each, 0) / 1024);
}

async function look(page, session, browserSession) {
  await session.send('HeapProfiler.collectGarbage');
  const {metrics} = await session.send('Performance.getMetrics');
  const metric = (wanted) => metrics.find(({name}) => name === wanted).value;
  return {
    memory: await pageMemory(browserSession), heap: Math.round(metric('JSHeapUsedSize') / 1e5) / 10,
    listeners: metric('JSEventListeners'), elements: metric('Nodes'), workers: page.workers().length,
    urls: await page.evaluate(() => window.liveUrls()),
  };
}

async function takeThrough(page, turn) {
  const picture = pictureOf(turn);
  await drop(page, picture);
  await until(page, (s) => s.master.name === picture.name && ready(s), 120000);
  await press(page, 'i');
  await until(page, ready, 120000);
  await press(page, '6');
  const download = page.waitForEvent('download', {timeout: 120000});
  await click(page, 'make');
  const file = await download;
  await file.path();
  await file.delete();
  await until(page, (s) => s.delivered && !s.busy.length, 120000);
}

const median = (values) => [...values].sort((a, b) => a - b)[Math.floor(values.length / 2)];

async function main() {
  const server = await serve();
  const browser = await launch();
  const {page, context, complaints} = await open(browser, server.address, {}, (opened) => opened.addInitScript(COUNT_URLS));
  await until(page, (s) => ready(s) && s.papers.length === 4);
  const session = await context.newCDPSession(page), browserSession = await browser.newBrowserCDPSession();
  await session.send('Performance.enable');
  const seen = [];
  console.log('picture  memory MB  script MB  listeners  elements  workers  URLs');
  for (let turn = 0; turn < PICTURES; ++turn) {
    await takeThrough(page, turn);
    seen.push(await look(page, session, browserSession));
    if (turn % 10 && turn !== PICTURES - 1) continue;
    const {memory, heap, listeners, elements, workers, urls} = seen.at(-1);
    console.log([turn + 1, memory, heap, listeners, elements, workers, urls].map((each, i) => String(each).padStart([7, 10, 10, 10, 9, 8, 5][i])).join(' '));
  }
  await page.waitForTimeout(URL_LIFE + 5000);
  const last = await look(page, session, browserSession);
  await browser.close();
  server.stop();

  const quarter = Math.floor(PICTURES / 4);
  const faults = [...complaints];
  for (const what of ['memory', 'heap', 'listeners', 'elements', 'workers']) {
    const early = median(seen.slice(quarter, 2 * quarter).map((each) => each[what]));
    const late = median(seen.slice(-quarter).map((each) => each[what]));
    console.log(`${what}: ${early} in the second quarter, ${late} in the last: ${(late / early * 100 - 100).toFixed(1)} %`);
    if (late > early * GROWTH) faults.push(`${what} grew`);
  }
  console.log(`object URLs a minute after the last delivery: ${last.urls}`);
  if (last.urls) faults.push('object URLs are left');
  console.log(faults.length ? `FAILED: ${faults.join('; ')}` : `${PICTURES} pictures: nothing piled up.`);
  process.exitCode = faults.length ? 1 : 0;
}

await main();

// The condition report: it comes by itself after the proof, leads to the places it names, steps aside
// for a delivery, and can be kept as a page and as numbers.
import assert from 'node:assert/strict';
import {mkdtempSync, readFileSync, rmSync, writeFileSync} from 'node:fs';
import {tmpdir} from 'node:os';
import path from 'node:path';
import {test} from 'node:test';
import {pathToFileURL} from 'node:url';
import {tiff} from './lib/master.mjs';
import {click, press, ready, typeInto} from './lib/panel.mjs';
import {drop, holding, onePage, SHARP, state, told, until} from './lib/site.mjs';
import {HEIGHT, SPOTS, WIDTH, spottedPng} from './lib/spots.mjs';

const NAME = '<img src=x onerror=alert(1)>&"spots".png';

const COPIES = 150;  // of the test picture: 26 megapixels

let visit, page;
onePage((opened) => {
  visit = opened;
  page = visit.page;
}, {...SHARP, first: holding});

const reported = (s) => s.condition.report && !s.condition.working;
// The state once the outline stands still.
async function resting() {
  for (let earlier = null; ;) {
    const now = await state(page);
    const seen = JSON.stringify([now.rects.outline, now.view]);
    if (seen === earlier) return now;
    earlier = seen;
    await page.waitForTimeout(100);
  }
}

const middleOf = ([x, y, w, h]) => [x + w / 2, y + h / 2];

async function saved(button) {
  const download = page.waitForEvent('download', {timeout: 20000});
  await click(page, button);
  const file = await download;
  return {name: file.suggestedFilename(), text: readFileSync(await file.path(), 'utf8')};
}

test('the demo is proofed first, then its condition is told', async () => {
  const first = await until(page, (s) => s.ready || s.condition.working);
  assert.ok(first.ready, 'the report began before the proof was up');
  const now = await until(page, reported);
  assert.match(now.condition.summary, /^(Nothing|\d+ things?) to mend/);
  assert.ok(now.condition.report.findings.length > 8);
  await page.locator('#state', {hasText: now.condition.summary}).waitFor({state: 'attached', timeout: 5000});
});

test('what is to be mended comes first, and every finding has its words', async () => {
  const {condition} = await state(page);
  const order = condition.report.findings.map(({severity}) => ['act', 'look', 'good'].indexOf(severity));
  assert.deepEqual(order, [...order].sort());
  for (const {title, what} of condition.report.findings) assert.ok(title && what);
});

test('spots put into a smooth picture are found', async () => {
  await drop(page, {name: NAME, bytes: spottedPng()});
  await until(page, (s) => s.master.name === NAME && ready(s));
  const {condition} = await until(page, reported);
  const found = condition.report.dust;
  assert.equal(found.length, SPOTS.length);
  for (const {x, y} of SPOTS) {
    const near = found.some((spot) => Math.hypot(spot.x - x, spot.y - y) < 3);
    assert.ok(near, `no spot at ${x}, ${y}`);
  }
});

test('a finding takes the picture to its place, and outlines it there', async () => {
  await press(page, '1');
  await click(page, 'finding-dust');
  await until(page, (s) => s.condition.walk === 'dust' && s.rects.outline);
  const now = await resting();
  assert.equal(now.condition.open, 'dust');
  assert.equal(now.view.zoom, 1);  // one pixel of the master to one of the screen
  const [x, y] = middleOf(now.rects.outline);
  const [left, top, width, height] = now.rects.picture;
  assert.ok(x > left && x < left + width / 2, 'not on the master\'s half');
  assert.ok(y > top && y < top + height, 'not in view');
});

test('the outlined place is where the spot is', async () => {
  const {rects, condition, view} = await resting();
  const spot = condition.report.dust[condition.at];
  const [x, y] = middleOf(rects.outline);
  const [left, top, width, height] = rects.picture;
  assert.ok(Math.abs(view.x * WIDTH + x - (left + width / 2) - spot.x) < 3);
  assert.ok(Math.abs(view.y * HEIGHT + y - (top + height / 2) - spot.y) < 3);
});

test('keys and buttons step through the spots, round and back', async () => {
  const count = SPOTS.length;
  for (let at = 1; at <= count; ++at) {
    const before = (await state(page)).view;
    await press(page, 'n');
    const now = await until(page, (s) => s.condition.at === at % count);
    assert.notDeepEqual([now.view.x, now.view.y], [before.x, before.y]);
  }
  await told(page, `1 of ${count}: `);
  await press(page, 'u');
  await until(page, (s) => s.condition.at === count - 1);
  await click(page, 'walk-next');
  await until(page, (s) => s.condition.at === 0);
  await click(page, 'walk-previous');
  await until(page, (s) => s.condition.at === count - 1);
  await press(page, 'Escape');
  await until(page, (s) => s.condition.walk === '' && !s.rects.outline);
});

test('another spot size and another print: the report is made anew', async () => {
  // 25.4 mm to the inch: ISO 80000-3.
  await typeInto(page, 'spot-size', 2.5);
  const {condition: larger} = await until(page, (s) => reported(s) && s.condition.report.dust_mm === 2.5);
  assert.ok(Math.abs(larger.report.dust_px - 2.5 * 300 / 25.4) < 0.1);
  await typeInto(page, 'print-width', 60);
  const {condition: wide} = await until(page, (s) => reported(s) && s.condition.report.print_width_mm === 600);
  assert.ok(Math.abs(wide.report.print_ppi - WIDTH / (600 / 25.4)) < 0.1);
  assert.ok(Math.abs(wide.report.dust_px - 2.5 * WIDTH / 600) < 0.1);
  await click(page, 'print-width-reset');
  await until(page, (s) => reported(s) && s.condition.report.print_width_mm === null);
});

test('the report is kept as a page without script that prints its numbers', async () => {
  const {condition} = await state(page);
  const {name, text} = await saved('save-page');
  assert.match(name, /report\.html$/);
  assert.doesNotMatch(text, /<script/i);
  assert.doesNotMatch(text, /<img src=x/);
  const folder = mkdtempSync(path.join(tmpdir(), 'proofleaf-'));
  const file = path.join(folder, 'report.html');
  writeFileSync(file, text);
  const kept = await visit.context.newPage();
  const asked = [], complaints = [];
  kept.on('request', (request) => asked.push(request.url()));
  kept.on('console', (line) => complaints.push(line.text()));
  await kept.goto(pathToFileURL(file).href);
  assert.equal(await kept.locator('h1').textContent(), NAME);
  assert.equal(await kept.title(), `Print report: ${NAME}`);
  const said = await kept.locator('body').innerText();
  for (const finding of condition.report.findings) assert.ok(said.includes(finding.what), finding.what);
  for (const size of condition.report.print_sizes) assert.ok(said.includes(size.width_cm.toFixed(1).replace(/\.0$/, '')));
  assert.equal(await kept.locator('script').count(), 0);
  assert.equal(await kept.evaluate(() => document.querySelectorAll('h1 *').length), 0);
  const drawn = await kept.evaluate(async () => {
    const picture = new Image();
    picture.src = document.querySelector('svg image').getAttribute('href');
    await picture.decode();
    return [picture.naturalWidth, picture.naturalHeight];
  });
  assert.ok(Math.abs(drawn[0] / drawn[1] - WIDTH / HEIGHT) < 0.01);
  const foreign = asked.filter((url) => !url.startsWith('file:') && !url.startsWith('data:'));
  assert.deepEqual(foreign, []);
  assert.deepEqual(complaints, []);
  const pdf = await kept.pdf({format: 'A4'});
  assert.ok(pdf.length > 10000);
  await kept.close();
  await page.bringToFront();
  rmSync(folder, {recursive: true});
});

test('the report is kept as numbers', async () => {
  const {condition} = await state(page);
  const {name, text} = await saved('save-numbers');
  assert.match(name, /report\.json$/);
  const kept = JSON.parse(text);
  assert.equal(kept.proofleaf_report, 1);
  assert.equal(kept.master.name, NAME);
  assert.deepEqual(kept.condition, condition.report);
});

test('the report can be stopped, and asked for again', async () => {
  const wide = readFileSync('/usr/share/color/icc/ghostscript/rommrgb.icc');  // Debian's libgs-common
  await page.evaluate(() => { window.held = ({op}) => op === 'condition'; });
  await drop(page, {name: 'tall.tif', bytes: tiff(wide, COPIES)});
  await until(page, (s) => s.master.name === 'tall.tif' && s.condition.working && s.condition.share > 0);
  await click(page, 'stop-condition');
  const stopped = await until(page, (s) => s.condition.stopped);
  assert.equal(stopped.condition.working, false);
  assert.equal(stopped.condition.report, null);
  await click(page, 'ask-condition');
  await until(page, (s) => s.condition.working && s.condition.share > 0);
});

test('a delivery goes before the report, which follows it', async () => {
  assert.ok((await state(page)).condition.working);
  await page.evaluate(() => { window.held = () => false; });
  await press(page, '6');
  const download = page.waitForEvent('download', {timeout: 120000});
  await click(page, 'make');
  const during = await until(page, (s) => s.busy.some(({words, share}) => /tall/.test(words) && share > 0) || s.delivered);
  if (!during.delivered) assert.equal(during.condition.working, false);
  await download;
  await until(page, reported);
  assert.deepEqual(visit.complaints, []);
});

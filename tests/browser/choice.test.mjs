// Which paper for this picture: the ranking, choosing from it, the rings over the proof, the paper
// card, names of one's own. That the numbers themselves are right is tested in tests/native.
import assert from 'node:assert/strict';
import {readFileSync, readdirSync} from 'node:fs';
import path from 'node:path';
import {test} from 'node:test';
import {allControls, click, press, proofPixels, ready, swipeUp, wheel} from './lib/panel.mjs';
import {drop, onePage, open, ROOT, SIZES, state, told, until} from './lib/site.mjs';

const ON_SHEET = [180, 500];
const PAPERS = path.join(ROOT, 'demo-images/papers');
let visit, page;
onePage(async (opened) => {
  visit = opened;
  page = visit.page;
  await until(page, ready);
});

const ranked = (count) => (s) => ready(s) && s.choice.to_try === count && s.choice.tried === count;
const PLACES = [[0.2, 0.2], [0.5, 0.1], [0.3, 0.7], [0.6, 0.9], [0.8, 0.8], [0.45, 0.55]];

// Scrolls what lies at x, y (the wide sheet) until the control of that id shows; answers its place.
async function shown(page, id, x = 1000, y = 600) {
  for (let turn = 0; turn < 60; ++turn) {
    for (let wait = 0; wait < 5; ++wait) {  // a frame may take its time
      const place = (await state(page)).rects[id];
      if (place) return place;
      await page.waitForTimeout(60);
    }
    await page.mouse.move(x, y);
    await wheel(page, turn < 30 ? 200 : -200);  // down to the end, then up
  }
  throw new Error(`The panel shows no control called ${id}.`);
}

async function clickThere(page, id, ...at) {
  await shown(page, id, ...at);
  await page.waitForTimeout(250);  // until nothing scrolls
  const [x, y, width, height] = await shown(page, id, ...at);
  await page.mouse.click(x + width / 2, y + height / 2);
}

async function picturePixels(page) {
  const [x, y, width, height] = (await state(page)).rects.picture;
  return page.screenshot({clip: {x: x + width / 2 + 40, y: y + 80, width: width / 2 - 80, height: height - 160}});
}

// Tabs on until the keyboard is on something that matches.
async function tabTo(pattern) {
  for (let turn = 0; turn < 80; ++turn) {
    const {focused: earlier} = await state(page);
    if (pattern.test(earlier)) return;
    await page.keyboard.press('Tab');
    for (let wait = 0; wait < 20 && (await state(page)).focused === earlier; ++wait) await page.waitForTimeout(50);
  }
  throw new Error(`Tab never came to ${pattern}`);
}

test('the ranking of the demo appears by itself, with every paper', async () => {
  const began = performance.now();
  const {choice, papers} = await until(page, ranked(4));
  console.log(`4 papers ranked ${Math.round(performance.now() - began)} ms after the proof was ready`);
  assert.deepEqual(choice.ranking.map(({paper}) => paper).sort(), [...papers].sort());
  const scores = choice.ranking.map(({score}) => score);
  assert.deepEqual(scores, [...scores].sort((p, q) => q - p));
  for (const {score, sentence, thumbnail, delta_e: [mean, p95, max]} of choice.ranking) {
    assert.ok(score >= 0 && score <= 100);
    assert.ok(mean <= p95 && p95 <= max);
    assert.ok(sentence.length > 20 && thumbnail);
  }
  await page.locator('#state', {hasText: /Which paper for this picture.*of 100/s}).waitFor({state: 'attached', timeout: 5000});
});

test('the table and the caption tell one share of the picture beyond the gamut', async () => {
  const {choice, off_gamut_share: shown} = await until(page, ready);
  const {off_gamut_share: judged} = choice.ranking.find((row) => row.in_use);
  assert.ok(Math.abs(judged - shown) < 0.01, `${judged} in the table, ${shown} under the picture`);
});

test('choosing from the table changes paper, intent and proof', async () => {
  const before = await state(page);
  const pixels = await proofPixels(page, PLACES);
  await press(page, '2');
  await click(page, 'see-papers');
  await until(page, (s) => s.choice.open);
  const place = before.choice.ranking.findIndex(({in_use: used}) => !used);
  const wanted = before.choice.ranking[place];
  await clickThere(page, `rank-${place}`);
  const now = await until(page, (s) => s.paper === wanted.paper && ready(s));
  assert.equal(now.intent, wanted.intent);
  assert.equal(now.black_point_compensation, wanted.black_point_compensation);
  assert.notDeepEqual(await proofPixels(page, PLACES), pixels);
});

test('a thumbnail chooses its paper; columns sort', async () => {
  await page.mouse.move(1000, 600);
  await wheel(page, -5000);
  const {choice} = await state(page);
  await clickThere(page, 'thumb-0');
  await until(page, (s) => s.paper === choice.ranking[0].paper);
  await clickThere(page, 'sort-paper');
  await page.waitForTimeout(200);
  await clickThere(page, 'rank-0');
  const first = choice.ranking.map(({paper}) => paper).sort()[0];
  await until(page, (s) => s.paper === first && ready(s));
  await clickThere(page, 'sort-score');
});

test('the card says what the engine answered', async () => {
  await clickThere(page, 'page-card');
  const now = await until(page, (s) => s.choice.cards[s.choice.card] && s.choice.card_lines.length > 8 && ready(s));
  const card = now.choice.cards[now.choice.card];
  const lines = now.choice.card_lines.join('\n').replaceAll('−', '-');
  assert.equal(card.name, now.paper);
  const fixed = (value, digits) => {
    const text = value.toFixed(digits);
    return Number(text) === 0 ? text.replace('-', '') : text;
  };
  for (const lab of [card.white, card.black]) {
    const [l, a, b] = lab.map((value) => fixed(value, 1));
    assert.ok(lines.includes(`L* ${l}  a* ${a}  b* ${b}`), lines);
  }
  assert.ok(lines.includes(`${fixed(card.white_density, 2)} to ${fixed(card.black_density, 2)}, range ${fixed(card.density_range, 2)}`), lines);
  assert.ok(lines.includes(`${fixed(card.contrast_ratio, 0)} to 1`), lines);
  assert.ok(lines.includes(`${fixed(card.gamut_volume / 1000, 0)} thousand`), lines);
  assert.ok(lines.includes(`mean ${fixed(card.round_trip.mean, 2)}`), lines);
});

test('charts are read with the arrow keys and told to a screen reader', async () => {
  const [x, y, width, height] = await shown(page, 'chart-tone');
  await page.mouse.move(x + width / 2, y + Math.min(height, 200) / 2);
  await until(page, (s) => s.choice.cursors['chart-tone'] > 0);
  await tabTo(/^Tone/);
  const {focused: before} = await state(page);
  assert.match(before, /Master L\* \d+ prints as L\* [\d.]+/);
  await page.mouse.move(200, 20);
  await page.keyboard.press('ArrowRight');
  await until(page, (s) => s.focused !== before && s.focused.startsWith('Tone'));
  await page.waitForTimeout(500);
  const {focused: after} = await state(page);
  await told(page, after.slice(0, 40));
});

test('the solid turns by drag', async () => {
  const {choice} = await state(page);
  const [x, y, width, height] = await shown(page, 'solid');
  await page.mouse.move(x + width / 2, y + height / 2);
  await page.mouse.down();
  await page.mouse.move(x + width / 2 + 60, y + height / 2, {steps: 4});
  await page.mouse.up();
  await until(page, (s) => s.choice.turn[0] !== choice.turn[0]);
  await press(page, 'Escape');
  await until(page, (s) => !s.choice.open);
});

test('rings change the picture, and a worst place is gone to', async () => {
  await press(page, '3');
  await page.waitForTimeout(400);
  const before = await picturePixels(page);
  await press(page, 'd');
  const {choice} = await until(page, (s) => s.choice.rings_shown && s.choice.worst.length > 0);
  await page.waitForTimeout(300);
  assert.notDeepEqual(await picturePixels(page), before);
  await clickThere(page, 'worst-0', ...ON_SHEET);
  const {view} = await until(page, (s) => !s.view.whole);
  const [x, y] = choice.worst[0];
  assert.ok(Math.abs(view.x - x) < 0.3 && Math.abs(view.y - y) < 0.3, JSON.stringify([view, choice.worst]));
  await press(page, 'd');
  await press(page, 'w');
  await until(page, (s) => !s.choice.rings_shown && s.view.whole);
  await page.waitForTimeout(300);
  assert.deepEqual(await picturePixels(page), before);
});

test('a paper gets a name of one\'s own, kept for the next visit, and is taken off the list', async () => {
  await press(page, '2');
  await clickThere(page, 'paper-0', ...ON_SHEET);
  const {paper} = await until(page, (s) => s.paper === s.papers[0] && ready(s));
  await clickThere(page, 'rename', ...ON_SHEET);
  await clickThere(page, 'paper-name', ...ON_SHEET);
  await page.waitForFunction(() => document.activeElement.id === 'typing');
  await page.keyboard.press('Control+a');
  await page.keyboard.type('Hallway paper');
  await until(page, (s) => s.choice.new_name === 'Hallway paper');
  await clickThere(page, 'keep-name', ...ON_SHEET);
  await until(page, (s) => s.paper === 'Hallway paper');
  await until(page, (s) => s.choice.ranking.some(({paper: name}) => name === 'Hallway paper'));
  await page.reload();
  await page.waitForFunction(() => window.proofleaf);
  await until(page, (s) => ranked(4)(s) && s.papers.includes('Hallway paper') && !s.papers.includes(paper));
  await press(page, '2');
  const {paper: chosen} = await state(page);
  await clickThere(page, 'remove-paper', ...ON_SHEET);
  const now = await until(page, (s) => s.papers.length === 3 && ranked(3)(s));
  assert.ok(!now.papers.includes(chosen));
  assert.ok(!now.choice.ranking.some(({paper: name}) => name === chosen));
});

// The same papers under another date (ICC.1:2022 7.2.8, bytes 24 to 35) count as others; their
// profile ID (7.2.18) is emptied.
function redated(bytes, year) {
  const copy = Buffer.from(bytes);
  copy.writeUInt16BE(year, 24);
  copy.fill(0, 84, 100);
  return copy;
}

test('twelve papers are ranked', async () => {
  await page.reload();
  await page.waitForFunction(() => window.proofleaf);
  await until(page, ranked(4));
  const files = readdirSync(PAPERS).filter((name) => name.endsWith('.icc'));
  const began = performance.now();
  for (const year of [2001, 2002]) {
    await drop(page, ...files.map((name) =>
      ({name: `${year}-${name}`, bytes: redated(readFileSync(path.join(PAPERS, name)), year)})));
  }
  const {choice} = await until(page, ranked(3 * files.length), 120000);
  console.log(`${choice.tried} papers: 8 brought and ranked in ${Math.round(performance.now() - began)} ms`);
  assert.deepEqual(visit.complaints, []);
});

async function tap(page, id) {
  const [x, y, width, height] = (await state(page)).rects[id];
  await page.touchscreen.tap(x + width / 2, y + height / 2);
}

// WCAG 2.2, 2.5.5 target size (enhanced): 44 by 44 CSS pixels.
for (const [name, options] of Object.entries(SIZES).slice(1)) {
  test(`${name}: the wide sheet fits the screen, and its controls fit a finger`, async () => {
    const {page, context, complaints} = await open(visit.context.browser(), visit.address, options);
    const picture = (what) => page.screenshot({path: path.join(ROOT, 'build/screenshots', `${name}-choice-${what}.png`)});
    const {width, height} = options.viewport;
    await until(page, ranked(4));
    await press(page, 'p');
    await until(page, (s) => s.rects['page-card']);
    const sizes = await allControls(page, options.viewport);
    await picture('papers');
    await tap(page, 'page-card');
    await until(page, (s) => s.rects['chart-tone']);
    for (const [id, size] of await allControls(page, options.viewport)) sizes.set(id, size);
    for (const part of ['card', 'card-end']) {
      await picture(part);
      await swipeUp(page, width - 20, height - 60, 360);
    }
    for (const id of ['thumb-3', 'rank-3', 'chart-tone', 'chart-slice', 'solid', 'cut-lightness']) assert.ok(sizes.has(id), id);
    // What lies under the wide sheet at the edge of the leaf's own box is cut off there.
    const small = [...sizes].filter(([id, [w, h]]) => !/^(paper|finding)-/.test(id) && (w < 43.5 || h < 43.5));
    assert.deepEqual(small, []);
    assert.deepEqual(complaints, []);
    await context.close();
  });
}

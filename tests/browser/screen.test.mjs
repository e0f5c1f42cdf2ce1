// The check of a screen, walked through before a simulated screen: the test looks at the pixels drawn,
// works out the light that a screen of known response would make of them, and answers as a person would
// who sees no difference. How well answers with an eye's noise do is tested in tests/native.
import assert from 'node:assert/strict';
import path from 'node:path';
import {test} from 'node:test';
import {click, drawn, press, proofPixels, ready, tabTo} from './lib/panel.mjs';
import {shot} from './lib/shot.mjs';
import {handedOver, onePage, ROOT, SHARP, state, until} from './lib/site.mjs';

const EXPONENTS = [2.05, 2.2, 2.36];  // of the simulated screen
const FIRST_DARK = 3, LAST_LIGHT = 3;  // squares of eight: codes 6 and 252
const STEPS = {tint: 0, rows: 1, dark: 2, light: 3, red: 4, green: 5, blue: 6, neutral: 7, turning: 8, white: 9, result: 10};
const PLACES = Array.from({length: 100}, (_, i) => [(i % 10 + 0.5) / 10, (Math.floor(i / 10) + 0.5) / 10]);

let visit, page;
onePage(async (opened) => {
  visit = opened;
  page = visit.page;
  await until(page, (s) => ready(s) && s.papers.length > 1);
  // A smaller one, since each of its many frames is drawn in software.
}, {...SHARP, viewport: {width: 1100, height: 720}, query: '?proof=gpu'});

const shoot = (name) => page.screenshot({path: path.join(ROOT, 'build/screenshots', `screen-${name}.png`)});

// The walk is at that step, and it is drawn.
async function at(name, match = 0) {
  await until(page, ({screen_check: c}) => c.step === STEPS[name] && c.match === match);
  await drawn(page);
}
const check = async () => (await state(page)).screen_check;

// R, G, B, A of a part of the canvas, drawn anew as after a rest.
const canvasPixels = (place) => page.evaluate(([x, y, width, height]) => {
  document.dispatchEvent(new Event('visibilitychange'));
  window.proofleaf.pixels([0.5, 0.5]);
  const canvas = document.getElementById('canvas'), gl = canvas.getContext('webgl2');
  const bytes = new Uint8Array(width * height * 4);
  gl.readPixels(x, canvas.height - y - height, width, height, gl.RGBA, gl.UNSIGNED_BYTE, bytes);
  return [...bytes];
}, place.map(Math.floor));

// The light of a part of the canvas, as the simulated screen shows that channel: 0..1.
async function light(place, channel) {
  const rgba = await canvasPixels(place);
  let sum = 0;
  for (let i = channel; i < rgba.length; i += 4) sum += (rgba[i] / 255) ** EXPONENTS[channel];
  return sum / (rgba.length / 4);
}

// The solid's code at which its light is that of the rows to its left: whole periods of them.
async function alike(channel) {
  const {rects} = await state(page);
  const [x, y, , side] = rects['check-patch-1'];
  const rows = await light([x + 2, y, 4, Math.floor(side / 8) * 8], channel);
  return Math.min(254, Math.max(1, Math.round(255 * rows ** (1 / EXPONENTS[channel]))));
}

async function solidAlone(channel, code) {
  const {rects} = await state(page);
  const [x, y, width] = rects['check-patch-2'];
  const rgba = await canvasPixels([x + width / 2, y + width / 2, 1, 1]);
  const wanted = [0, 0, 0];
  wanted[channel] = code;
  assert.deepEqual(rgba.slice(0, 3), wanted);
}

// Moves the square with the arrow keys, in eights and ones.
async function moveTo(code) {
  const off = code - (await check()).solid, key = off < 0 ? 'ArrowLeft' : 'ArrowRight';
  for (let i = 0; i < Math.floor(Math.abs(off) / 8); ++i) await page.keyboard.press(`Shift+${key}`);
  for (let i = 0; i < Math.abs(off) % 8; ++i) await page.keyboard.press(key);
  await until(page, (s) => s.screen_check.solid === code);
  await drawn(page);
}

function exponentsFit(found) {
  const {exponents} = found.screen_check;
  console.log(`exponents ${exponents.map(([e, u]) => `${e.toFixed(3)} ± ${u.toFixed(3)}`)} for ${EXPONENTS}`);
  exponents.forEach(([e], c) => assert.ok(Math.abs(e - EXPONENTS[c]) < 0.05, `${e} for ${EXPONENTS[c]}`));
}

test('the walk by mouse: what is drawn is pixel-exact, the response comes out', async () => {
  await press(page, '3');
  await click(page, 'screen-check');
  await at('tint');
  await shoot('begin');
  await click(page, 'tint-off');
  await at('rows');
  const {rects} = await state(page);
  const [x, y] = rects['check-patch-1'];
  // Rows of full light and none, one pixel high each.
  const {rgba} = await shot(page, {x, y, width: 4, height: 4});
  assert.deepEqual([0, 16, 32, 48].map((row) => rgba[row]), [255, 0, 255, 0]);
  await click(page, 'rows-even');
  await at('dark');
  await shoot('dark');
  await click(page, `step-square-${FIRST_DARK}`);  // tapped in the field
  await at('light');
  await click(page, `step-${LAST_LIGHT}`);  // chosen in the list
  for (const [channel, name] of ['red', 'green', 'blue'].entries()) {
    for (let match = 0; match < 4; ++match) {
      await at(name, match);
      const code = await alike(channel);
      if (match === 0) {  // by the buttons, the last step
        await moveTo(code - 1);
        await click(page, 'tone-lighter');
        await until(page, (s) => s.screen_check.solid === code);
        await drawn(page);
        await solidAlone(channel, code);
      } else {
        await moveTo(code);
      }
      if (channel === 2 && match === 1) await shoot('tone');
      await click(page, 'tone-alike');
    }
  }
  await at('neutral');
  await press(page, 'ArrowRight');
  await press(page, 'ArrowRight');
  await press(page, 'PageDown');
  await until(page, ({screen_check: {moved: [a, b]}}) => a === -1 && b === 2);
  await click(page, 'neutral-alike');
  await click(page, 'turning-steady');
  await at('white');
  await shoot('white');
  await click(page, 'white-alike');
  const found = await until(page, (s) => s.screen_check.step === STEPS.result && s.screen_check.kept && s.screen_check.share);
  await shoot('result');
  exponentsFit(found);
  assert.equal(found.screen_check.answers.first_dark, 6);
  assert.equal(found.screen_check.answers.last_light, 252);
  assert.equal(found.screen_check.grade, 2);  // tones: red and blue are off by more than colour allows
  assert.ok(found.screen_check.share.any >= found.screen_check.share.beyond);
  assert.equal(found.screen_check.corrected, false);
  await click(page, 'check-close');
  await until(page, (s) => !s.screen_check.open);
});

test('the correction changes the screen as calculated, and never the delivered file', async () => {
  const plain = await proofPixels(page, PLACES);
  const deliver = async () => {
    await press(page, '6');
    const {bytes} = await handedOver(page, () => click(page, 'make'));
    await until(page, (s) => s.delivered && ready(s));
    return bytes;
  };
  const bare = await deliver();
  await press(page, '3');
  await click(page, 'screen-correct');
  const {screen_check: {codes, grade}} = await until(page, (s) => s.screen_check.corrected && ready(s));
  assert.equal(grade, 3);
  await shoot('corrected');
  const corrected = await proofPixels(page, PLACES);
  const off = corrected.flatMap((here, i) => ['proof', 'master'].flatMap((layer) =>
    here[layer].map((code, c) => Math.abs(code - codes[c][plain[i][layer][c]]))));
  const moved = corrected.flatMap((here, i) => here.proof.map((code, c) => Math.abs(code - plain[i].proof[c])));
  console.log(`codes moved by up to ${Math.max(...moved)}; at most ${Math.max(...off).toFixed(2)} from what was calculated`);
  assert.ok(Math.max(...moved) > 6);
  assert.ok(Math.max(...off) <= 2, `${Math.max(...off)}`);
  assert.ok((await deliver()).equals(bare));
  assert.match(await page.locator('#state').textContent(), /Corrected for this screen/);
});

test('it is kept, and the kernel draws the same as the graphics card', async () => {
  const card = await until(page, ready);
  const seen = await proofPixels(page, PLACES);
  await page.goto(visit.address + '?proof=cpu');
  await page.waitForFunction(() => window.proofleaf);
  const now = await until(page, (s) => ready(s) && s.paper === card.paper && s.screen_check.corrected);
  assert.deepEqual([card.proof, now.proof], ['gpu', 'cpu']);
  assert.match(now.proof_why, /address/);
  assert.deepEqual(await proofPixels(page, PLACES), seen);
});

test('the walk by keyboard alone; what is left out stays open', async () => {
  await press(page, '3');
  await tabTo(page, /Check it anew/);
  await page.keyboard.press('Space');
  await at('tint');
  await tabTo(page, /No night tint/);
  await page.keyboard.press('Space');
  await at('rows');
  await tabTo(page, /Plain grey/);
  await page.keyboard.press('Space');
  for (const name of ['dark', 'light']) {
    await at(name);
    await tabTo(page, name === 'dark' ? /^3/ : /^4/);
    await page.keyboard.press('Space');
  }
  for (const [channel, name] of ['red', 'green', 'blue'].entries()) {
    for (let match = 0; match < 4; ++match) {
      await at(name, match);
      await moveTo(await alike(channel));
      if (channel + match === 0) await tabTo(page, /They are alike/);
      await page.keyboard.press('Space');
    }
  }
  for (const name of ['neutral', 'turning', 'white']) {
    await at(name);
    await tabTo(page, /Leave out/);
    await page.keyboard.press('Space');
  }
  const found = await until(page, (s) => s.screen_check.step === STEPS.result && s.screen_check.kept);
  exponentsFit(found);
  assert.equal(found.screen_check.answers.neutral, null);
  assert.equal(found.screen_check.corrected, false, 'a new check corrects nothing by itself');
  await page.keyboard.press('Escape');
  await until(page, (s) => !s.screen_check.open);
});

test('what the browser tells is taken in, and its silence is said', async () => {
  await page.emulateMedia({forcedColors: 'active'});
  const forced = await until(page, (s) => s.screen_check.platform.forced_colours);
  assert.equal(forced.screen_check.platform.canvas, forced.screen === 'p3' ? 'p3' : 'srgb');
  await page.emulateMedia({forcedColors: 'none'});
  await until(page, (s) => !s.screen_check.platform.forced_colours);
});

test('damaged and forgotten checks leave the page as if there were none', async () => {
  await page.evaluate(() => localStorage.setItem('proofleaf.screen check', '{"proofleaf_screen":1,"answers":{"tint":77}}'));
  await page.reload();
  await page.waitForFunction(() => window.proofleaf);
  const damaged = await until(page, ready);
  assert.equal(damaged.screen_check.kept, false);
  assert.match(damaged.screen_check.kept_trouble, /damaged/);
  assert.equal(damaged.screen_check.corrected, false);
  assert.deepEqual(visit.complaints, []);
});

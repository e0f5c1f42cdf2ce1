// The licences of all that became part of the page are one step from the key card, without a network.
import assert from 'node:assert/strict';
import {readFileSync} from 'node:fs';
import path from 'node:path';
import {test} from 'node:test';
import {click, press, ready} from './lib/panel.mjs';
import {KEEPING, onePage, ROOT, until} from './lib/site.mjs';

const parts = readFileSync(path.join(ROOT, '.ci/sources.list'), 'utf8').split('\n')
    .map((line) => line.split(/\s+/)).filter(([kind, , , , , where]) => kind !== '#' && where === 'page');
let visit, licences;
onePage(async (opened) => {
  visit = opened;
  await until(visit.page, ready);
  await visit.page.evaluate(() => navigator.serviceWorker.ready);
}, KEEPING);

test('the key card opens the licences beside the page, from what the browser kept', async () => {
  await visit.context.setOffline(true);
  await press(visit.page, 'k');
  const beside = visit.context.waitForEvent('page');
  await click(visit.page, 'licences');
  licences = await beside;
  await licences.waitForLoadState();
  assert.equal(await licences.title(), 'Licences - Proofleaf');
});

test('each part is there, with a licence of its own', async () => {
  assert.ok(parts.length >= 9);
  for (const [, name, , , licence] of parts) {
    const section = licences.locator('section', {has: licences.locator('h2', {hasText: name + ' '})});
    assert.equal(await section.count(), 1, name);
    assert.match(await section.locator('p').textContent(), new RegExp(licence.split(',')[0]));
    assert.ok((await section.locator('pre').allTextContents()).join('').length > 500, name);
  }
  for (const words of ['Marti Maria', 'Omar Cornut', 'Independent JPEG Group', 'Sam Leffler', 'Jean-loup Gailly',
    'Niels Lohmann', 'Sean Barrett', 'SIL OPEN FONT LICENSE|OFL', 'musl', 'Emscripten Authors']) {
    assert.match(await licences.locator('main').textContent(), new RegExp(words), words);
  }
});

// WCAG 2.2: 1.4.3 contrast, 1.4.10 reflow, 3.1.1 language.
test('they can be read by anyone', async () => {
  await licences.setViewportSize({width: 320, height: 640});
  const page = await licences.evaluate(() => {
    const style = getComputedStyle(document.documentElement);
    return {wide: document.documentElement.scrollWidth, language: document.documentElement.lang,
      ink: style.color, ground: style.backgroundColor, landmarks: document.querySelectorAll('main, h1').length};
  });
  assert.ok(page.wide <= 320, `${page.wide} pixels wide`);
  assert.equal(page.language, 'en-GB');
  assert.equal(page.landmarks, 2);
  const light = (colour) => colour.match(/\d+/g).slice(0, 3).map((code) => code / 255)
      .map((v) => (v <= 0.04045 ? v / 12.92 : ((v + 0.055) / 1.055) ** 2.4))
      .reduce((sum, v, i) => sum + v * [0.2126, 0.7152, 0.0722][i], 0);
  assert.ok((light(page.ink) + 0.05) / (light(page.ground) + 0.05) >= 7);
  assert.deepEqual(visit.complaints, []);
});

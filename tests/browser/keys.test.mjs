// The main job by keyboard alone, with what a screen reader is told on the way; and a pasted picture.
import assert from 'node:assert/strict';
import {readFileSync} from 'node:fs';
import path from 'node:path';
import {test} from 'node:test';
import {press, ready, tabTo} from './lib/panel.mjs';
import {forgetNews, onePage, ROOT, state, told, until} from './lib/site.mjs';

let visit, page;
onePage(async (opened) => {
  visit = opened;
  page = visit.page;
  await until(page, (s) => ready(s) && s.papers.length > 1);
});

test('another paper and another intent are chosen by keyboard', async () => {
  const earlier = (await state(page)).paper;
  await press(page, '2');
  await tabTo(page, /Owlbrook Pearl/);
  await page.keyboard.press('Space');
  const chosen = await until(page, (s) => s.paper !== earlier && ready(s));
  assert.equal(chosen.paper, 'Owlbrook Pearl');
  await tabTo(page, /Perceptual/);
  await page.keyboard.press('Space');
  await until(page, (s) => s.intent === 'perceptual' && ready(s));
  assert.match(await page.locator('#state').textContent(), /Owlbrook Pearl.*Perceptual/s);
});

test('the reading cross reads a colour by keyboard', async () => {
  await press(page, 'r');
  await forgetNews(page);
  await page.keyboard.press('ArrowRight');
  await told(page, 'L*');
  await press(page, 'r');
});

test('where the control the keyboard is at goes away, the keyboard goes on in its leaf', async () => {
  await press(page, '4');
  await tabTo(page, /^Monochrome, off/);
  await page.keyboard.press('Space');
  await until(page, (s) => s.recipe.now.monochrome.on && ready(s));
  await press(page, '4');
  await tabTo(page, /Undo all corrections/);
  await page.keyboard.press('Space');
  await until(page, (s) => !s.recipe.now.monochrome.on && ready(s));
  await page.keyboard.press('Tab');
  await until(page, (s) => s.focused !== '' && !/Undo all/.test(s.focused), 5000);
});

test('the print file is made by keyboard', async () => {
  await press(page, '6');
  await tabTo(page, /Make the print file/);
  const download = page.waitForEvent('download', {timeout: 60000});
  await page.keyboard.press('Space');
  assert.match((await download).suggestedFilename(), /Owlbrook-Pearl-[\d.x]+cm\.jpg$/);
  await until(page, (s) => s.delivered);
  await page.locator('#state', {hasText: 'Read back and checked'}).waitFor({state: 'attached', timeout: 5000});
});

test('a pasted picture becomes the master', async () => {
  const base64 = readFileSync(path.join(ROOT, 'demo-images/stairwell.png')).toString('base64');
  await page.evaluate((text) => {
    const carried = new DataTransfer();
    const bytes = Uint8Array.from(atob(text), (letter) => letter.charCodeAt(0));
    carried.items.add(new File([bytes], 'pasted.png', {type: 'image/png'}));
    window.dispatchEvent(new ClipboardEvent('paste', {clipboardData: carried, bubbles: true, cancelable: true}));
  }, base64);
  const now = await until(page, (s) => s.master.name === 'pasted.png' && ready(s));
  assert.equal(now.master.width, 720);
  assert.deepEqual(visit.complaints, []);
});

// The main job by keyboard alone, with what a screen reader is told on the way; and a pasted picture.
import assert from 'node:assert/strict';
import {readFileSync} from 'node:fs';
import path from 'node:path';
import {after, before, test} from 'node:test';
import {press, ready} from './lib/panel.mjs';
import {ROOT, launch, open, serve, state, until} from './lib/site.mjs';

let server, browser, page, visit;

before(async () => {
  server = await serve();
  browser = await launch();
  visit = await open(browser, server.address);
  page = visit.page;
  await until(page, (s) => ready(s) && s.papers.length > 1);
});

after(async () => {
  await browser?.close();
  server?.stop();
});

const news = () => page.locator('#news').textContent();

// Tabs on until the screen reader is told of something that matches.
async function tabTo(pattern) {
  for (let turn = 0; turn < 60; ++turn) {
    const earlier = await news();
    await page.keyboard.press('Tab');
    // Told a frame or two later; a Tab that only enters the sheet tells nothing.
    for (let wait = 0; wait < 20 && await news() === earlier; ++wait) await page.waitForTimeout(50);
    if (pattern.test(await news())) return;
  }
  throw new Error(`Tab never came to ${pattern}`);
}

test('another paper and another intent are chosen by keyboard', async () => {
  const earlier = (await state(page)).paper;
  await press(page, '2');
  await tabTo(/Owlbrook Pearl/);
  await page.keyboard.press('Space');
  const chosen = await until(page, (s) => s.paper !== earlier && ready(s));
  assert.equal(chosen.paper, 'Owlbrook Pearl');
  await tabTo(/Perceptual/);
  await page.keyboard.press('Space');
  await until(page, (s) => s.intent === 'perceptual' && ready(s));
  assert.match(await page.locator('#state').textContent(), /Owlbrook Pearl.*Perceptual/s);
});

test('the reading cross reads a colour by keyboard', async () => {
  await press(page, 'r');
  await page.keyboard.press('ArrowRight');
  await page.locator('#news', {hasText: 'L*'}).waitFor({state: 'attached', timeout: 5000});
  await press(page, 'r');
});

test('the print file is made by keyboard', async () => {
  await press(page, '4');
  await tabTo(/Make the print file/);
  const download = page.waitForEvent('download', {timeout: 60000});
  await page.keyboard.press('Space');
  assert.match((await download).suggestedFilename(), /Owlbrook-Pearl-print\.jpg$/);
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

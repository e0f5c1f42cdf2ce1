// The page at the sizes people use it in; pictures for people to look at go to build/screenshots.
import assert from 'node:assert/strict';
import path from 'node:path';
import {after, before, test} from 'node:test';
import {press, ready} from './lib/panel.mjs';
import {ROOT, launch, open, serve, state, until} from './lib/site.mjs';

const SIZES = [
  {name: 'desktop', viewport: {width: 1440, height: 900}},
  {name: 'tablet', viewport: {width: 1024, height: 768}, hasTouch: true},
  {name: 'phone', viewport: {width: 390, height: 844}, hasTouch: true, isMobile: true, deviceScaleFactor: 2},
];

let server, browser;
before(async () => {
  server = await serve();
  browser = await launch();
});
after(async () => {
  await browser?.close();
  server?.stop();
});

// The size of every control of the leaf, seen while the sheet is scrolled to its end: what is cut off
// at the edge of the sheet shows its whole size later. Fails when one lies outside the screen.
async function allControls(page, {viewport, hasTouch}) {
  const sizes = new Map();
  for (let earlier = '', still = 0; ;) {
    const {rects} = await state(page);
    for (const [id, [x, , w, h]] of Object.entries(rects)) {
      assert.ok(x > -0.5 && x + w < viewport.width + 0.5, `${id} lies outside the screen`);
      const [widest, highest] = sizes.get(id) ?? [0, 0];
      sizes.set(id, [Math.max(w, widest), Math.max(h, highest)]);
    }
    still = JSON.stringify(rects) === earlier ? still + 1 : 0;  // a busy machine may miss a swipe
    if (!hasTouch || still === 2) return sizes;
    earlier = JSON.stringify(rects);
    await swipeUp(page, viewport);
  }
}

// A finger on the lower end of the sheet moves up, then stands still, so that nothing glides on.
async function swipeUp(page, {width, height}) {
  const devtools = await page.context().newCDPSession(page);
  const touch = (type, y) => devtools.send('Input.dispatchTouchEvent',
      {type, touchPoints: type === 'touchEnd' ? [] : [{x: Math.min(width, 400) / 2, y}]});
  const start = height - 60, travel = 140;  // [CSS px] less than the least of the sheet that shows
  await touch('touchStart', start);
  for (const rest of [0.5, 0, 1 / travel, 0, 1 / travel, 0]) {
    await touch('touchMove', start - travel * (1 - rest));
    await page.waitForTimeout(25);
  }
  await touch('touchEnd');
  await devtools.detach();
  await page.waitForTimeout(150);
}

for (const {name, ...options} of SIZES) {
  test(`${name}: controls lie on the screen, nothing scrolls sideways`, async () => {
    const {page, context, complaints} = await open(browser, server.address, options);
    // What comes and goes with the report would be seen in part only.
    await until(page, (s) => ready(s) && s.condition.report && !s.condition.working, 120000);
    const picture = (what) => page.screenshot({path: path.join(ROOT, 'build/screenshots', `${name}-${what}.png`)});
    for (const leaf of ['1', '2', '3', '4', '5', '6']) {
      await press(page, leaf);
      await page.waitForTimeout(400);
      await picture(leaf);
      const sizes = await allControls(page, options);
      assert.ok(sizes.size > 3);
      if (!options.hasTouch) continue;
      // WCAG 2.2, 2.5.5 target size (enhanced): 44 by 44 CSS pixels.
      const small = [...sizes].filter(([, [w, h]]) => w < 43.5 || h < 43.5);
      assert.deepEqual(small, []);
    }
    const scrolls = await page.evaluate(() => document.documentElement.scrollWidth > innerWidth);
    assert.equal(scrolls, false);
    assert.deepEqual(complaints, []);
    await context.close();
  });
}

test('a screen reader is told what is shown', async () => {
  const {page, context} = await open(browser, server.address);
  const now = await until(page, ready);
  const canvas = page.getByRole('application');
  assert.equal(await canvas.getAttribute('aria-describedby'), 'state');
  const words = await page.locator('#state').textContent();
  assert.ok(words.includes(now.master.name), words);
  assert.ok(words.includes(now.paper), words);
  await context.close();
});

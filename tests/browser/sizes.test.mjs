// The page at the sizes people use it in; pictures for people to look at go to build/screenshots.
import assert from 'node:assert/strict';
import path from 'node:path';
import {test} from 'node:test';
import {allControls, press, ready, swipeUp, typeInto} from './lib/panel.mjs';
import {ROOT, served, SIZES, state, until} from './lib/site.mjs';

const host = served();

// The sheet follows a finger.
async function glides(page, {width, height}) {
  const before = JSON.stringify((await state(page)).rects);
  await swipeUp(page, Math.min(width, 400) / 2, height - 60, 140);
  await until(page, (s) => JSON.stringify(s.rects) !== before);
}

for (const [name, options] of Object.entries(SIZES)) {
  test(`${name}: controls lie on the screen, nothing scrolls sideways`, async () => {
    const {page, context, complaints} = await host.open(options);
    // What comes and goes with the report would be seen in part only.
    await until(page, (s) => ready(s) && s.condition.report && !s.condition.working, 120000);
    const picture = (what) => page.screenshot({path: path.join(ROOT, 'build/screenshots', `${name}-${what}.png`)});
    for (const leaf of ['1', '2', '3', '4', '5', '6']) {
      await press(page, leaf);
      await page.waitForTimeout(400);
      await picture(leaf);
      const sizes = await allControls(page, options.viewport);
      assert.ok(sizes.size > 3);
      if (!options.hasTouch) continue;
      if (leaf === '4') await glides(page, options.viewport);
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

test('a tablet that is turned keeps the work, and all of it is on the screen', async () => {
  const lying = {width: 1024, height: 720}, standing = {width: 720, height: 1024};
  const {page, context, complaints} = await host.open({viewport: lying, hasTouch: true});
  await until(page, (s) => ready(s) && s.condition.report && !s.condition.working, 120000);
  await press(page, '4');
  await typeInto(page, 'fit-saturation-field', '12');
  await press(page, '1');
  const before = await until(page, (s) => ready(s) && s.recipe.now.correction.saturation === 12);
  for (const viewport of [standing, lying]) {
    await page.setViewportSize(viewport);
    await allControls(page, viewport);
    const fits = ([x, y, width, height]) => x >= 0 && y >= 0 && x + width <= viewport.width &&
        y + height <= viewport.height && width > 200 && height > 100;
    const after = await until(page, (s) => ready(s) && fits(s.rects.picture));
    for (const part of ['leaf', 'paper', 'intent', 'compare']) assert.equal(after[part], before[part]);
    assert.deepEqual(after.recipe.now, before.recipe.now);
    assert.equal(after.master.version, before.master.version);
    await page.screenshot({path: path.join(ROOT, `build/screenshots/turned-${viewport.width}.png`)});
  }
  assert.deepEqual(complaints, []);
  await context.close();
});

test('a field asks a tablet for the keyboard that its numbers want', async () => {
  const {page, context} = await host.open({viewport: {width: 1024, height: 2400}, hasTouch: true});
  await until(page, (s) => ready(s) && s.condition.report && !s.condition.working, 120000);
  // HTML, 6.8.8 (inputmode). Keyboards of numbers often have no minus.
  const fields = [['1', 'print-width', 'decimal'], ['3', 'threshold-field', 'numeric'], ['4', 'fit-saturation-field', 'text']];
  for (const [leaf, field, keyboard] of fields) {
    await press(page, leaf);
    const [x, y, width, height] = (await until(page, (s) => s.rects[field])).rects[field];
    await page.touchscreen.tap(x + width / 2, y + height / 2);
    await page.waitForFunction((wanted) => document.activeElement.id === 'typing' && document.activeElement.inputMode === wanted, keyboard);
    await page.keyboard.press('Escape');
    await page.waitForFunction(() => document.activeElement.id !== 'typing');
  }
  await context.close();
});

test('a screen reader is told what is shown', async () => {
  const {page, context} = await host.open();
  const now = await until(page, ready);
  const canvas = page.getByRole('application');
  assert.equal(await canvas.getAttribute('aria-describedby'), 'state');
  const words = await page.locator('#state').textContent();
  assert.ok(words.includes(now.master.name), words);
  assert.ok(words.includes(now.paper), words);
  await context.close();
});

// What a person does on the panel, by the names of its controls and keys.
import assert from 'node:assert/strict';
import {forgetNews, state, told} from './site.mjs';

// The exact proof of the present settings is on the screen.
export const ready = (state) => state.ready && !state.busy.length;

// Two frames: what was asked for before them is drawn.
export const drawn = (page) => page.evaluate(() =>
  new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(() => setTimeout(done)))));

// Where the control lies once it stands still, or nothing, looked for a few times.
async function restingPlace(page, id, times) {
  for (let earlier = null, turn = 0; turn < 40; ++turn) {
    const place = (await state(page)).rects[id];
    if (place && String(place) === String(earlier)) return place;
    if (!place && turn >= times) return null;
    earlier = place;
    await page.waitForTimeout(60);
    await drawn(page);
  }
  return null;
}

// Turns the wheel; the browser hands `way` [CSS px] on larger where a pixel holds more than one of them.
export const wheel = async (page, way) => page.mouse.wheel(0, way * await page.evaluate(() => devicePixelRatio));

const TURNS = 20;  // of the wheel, each way

// Clicks the middle of the control of that id, scrolling down, then up to it where needed: the open leaf,
// or what lies at `over`.
export async function click(page, id, over = null) {
  for (let turn = 0; turn < 2 * TURNS; ++turn) {
    const place = await restingPlace(page, id, turn ? 2 : 5);
    if (place) {
      const [x, y, width, height] = place;
      return page.mouse.click(x + width / 2, y + height / 2);
    }
    const {leaf, rects} = await state(page);
    const [x, y, width, height] = rects[`leaf-${leaf}`];
    await page.mouse.move(...(over ?? [x + width / 2, y + height + 40]));
    await wheel(page, turn < TURNS ? 200 : -200);
  }
  throw new Error(`The panel shows no control called ${id}.`);
}

// Types over what a field of the panel holds, and leaves it.
export async function typeInto(page, id, value) {
  await click(page, id);
  await page.waitForFunction(() => document.activeElement.id === 'typing');
  await page.keyboard.press('Control+a');
  await page.keyboard.type(String(value));
  await page.keyboard.press('Enter');
  await page.waitForFunction(() => document.activeElement.id !== 'typing');
  await drawn(page);
}

const HIGH = 8000;  // [CSS px] a screen that holds the longest leaf whole

// Every control of what is open, with its width and height [CSS px], as a screen of this width shows it
// when nothing is cut off at an edge of the sheet. Fails when one lies beside the screen.
export async function allControls(page, {width, height}) {
  await page.setViewportSize({width, height: HIGH});
  await page.waitForFunction((high) => innerHeight === high, HIGH);
  let rects = {};
  for (let earlier = null; String(earlier) !== String(Object.entries(rects)); await page.waitForTimeout(100)) {
    earlier = Object.entries(rects);
    await drawn(page);
    ({rects} = await state(page));
  }
  await page.setViewportSize({width, height});
  const beside = Object.entries(rects).filter(([, [x, , w]]) => x < -0.5 || x + w > width + 0.5);
  assert.deepEqual(beside, []);
  return new Map(Object.entries(rects).map(([id, [, , w, h]]) => [id, [w, h]]));
}

// A finger moves up by `way` [CSS px] from x, y and stands still there, so that nothing glides on.
export async function swipeUp(page, x, y, way) {
  const devtools = await page.context().newCDPSession(page);
  const touch = (type, at) => devtools.send('Input.dispatchTouchEvent',
      {type, touchPoints: type === 'touchEnd' ? [] : [{x, y: at}]});
  await touch('touchStart', y);
  for (const gone of [0.5, 1, 1 - 1 / way, 1, 1 - 1 / way, 1]) {
    await touch('touchMove', y - way * gone);
    await page.waitForTimeout(25);
  }
  await touch('touchEnd');
  await devtools.detach();
  await drawn(page);
}

export async function press(page, key) {
  await page.locator('#canvas').focus();
  await page.keyboard.press(key);
}

export async function noticesPutAway(page) {
  while ((await state(page)).notices) {
    await press(page, 'Escape');
    await page.waitForTimeout(50);
  }
}

export async function proofPixels(page, places) {
  const bytes = await page.evaluate((list) => [...window.proofleaf.pixels(list)], places.flat());
  return places.map((_, index) => ({
    proof: bytes.slice(index * 6, index * 6 + 3),
    master: bytes.slice(index * 6 + 3, index * 6 + 6),
  }));
}

// Tabs on until the keyboard is on something that matches, and the screen reader was told so.
export async function tabTo(page, pattern) {
  await forgetNews(page);
  for (let turn = 0; turn < 60; ++turn) {
    const {focused: earlier} = await state(page);
    await page.keyboard.press('Tab');
    // Moves a frame or two later; a Tab that only enters the sheet moves nothing.
    let {focused} = await state(page);
    for (let wait = 0; wait < 20 && focused === earlier; ++wait) {
      await page.waitForTimeout(50);
      ({focused} = await state(page));
    }
    if (!pattern.test(focused)) continue;
    // A Tab in the frame in which a field gives the keyboard back may move on once more.
    await page.waitForTimeout(300);
    if (!pattern.test((await state(page)).focused)) continue;
    await told(page, focused.slice(0, 20));
    return;
  }
  throw new Error(`Tab never came to ${pattern}`);
}

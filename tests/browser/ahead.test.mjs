// A master's file comes in parts while those before are read: every byte is in its place.
import assert from 'node:assert/strict';
import {createHash} from 'node:crypto';
import {readFileSync} from 'node:fs';
import {test} from 'node:test';
import {tiffOf} from './lib/master.mjs';
import {ready} from './lib/panel.mjs';
import {drop, endWorkers, onePage, spoil, until} from './lib/site.mjs';

// Not made smaller for the page, several reads long, and no two strips alike.
const SIDE = 1000;
const SAMPLES = new Uint16Array(SIDE * SIDE * 3);
for (let i = 0, x = 2026; i < SAMPLES.length; ++i) {  // xorshift32, Marsaglia 2003
  x ^= x << 13; x ^= x >>> 17; x ^= x << 5;
  SAMPLES[i] = x;
}
const BYTES = Buffer.from(SAMPLES.buffer);
const MASTER = tiffOf({width: SIDE, height: SIDE, data: BYTES, rowsPerStrip: 40,
  profile: readFileSync('/usr/share/color/icc/ghostscript/rommrgb.icc')});  // Debian's libgs-common

// Workers tell with each answer how many bytes came ahead.
const COUNTING = `{
  const [tell, {take}] = [postMessage, Ahead.prototype];
  let ahead = 0;
  Ahead.prototype.take = function (...place) {
    const count = take.apply(this, place);
    ahead += count;
    return count;
  };
  self.postMessage = (said, carried = []) => tell(said.memory ? {...said, ahead} : said, carried);
}`;
const WITHOUT_STREAMS = `Blob.prototype.stream = () => new ReadableStream({
  pull() { throw new Error('no streams, says the test'); },
});`;

// Keeps what is told of the last master: window.opened, a promise of {ahead, preview: SHA-256}.
const listen = (context) => context.addInitScript(() => {
  const {postMessage} = Worker.prototype;
  const heard = new WeakSet();
  Worker.prototype.postMessage = function (...all) {
    if (!heard.has(this)) {
      heard.add(this);
      this.addEventListener('message', ({data: {answer, ahead}}) => {
        const preview = answer?.buffers.find(({name}) => name === 'preview');
        if (!preview) return;
        window.opened = crypto.subtle.digest('SHA-256', preview.bytes).then((sum) =>
          ({ahead, preview: [...new Uint8Array(sum)].map((byte) => byte.toString(16).padStart(2, '0')).join('')}));
      });
    }
    return postMessage.apply(this, all);
  };
});

let visit, fault = '';
onePage((opened) => { visit = opened; }, {first: async (context) => {
  await spoil(context, () => fault);
  await listen(context);
}});

async function opened(name, withFault) {
  const {page, complaints} = visit;
  await until(page, ready);
  fault = withFault;
  await endWorkers(page);
  await drop(page, {name, bytes: MASTER});
  await until(page, (s) => s.master.name === name);
  const seen = await page.evaluate(() => window.opened);
  assert.deepEqual(complaints, []);
  return seen;
}

const sum = createHash('sha256').update(BYTES).digest('hex');

test('a master read while it comes is the file\'s, pixel for pixel', async () => {
  const {ahead, preview} = await opened('noise.tif', COUNTING);
  assert.equal(preview, sum);
  assert.ok(ahead > BYTES.length / 4, `${ahead} of ${BYTES.length} bytes came ahead`);
});

test('where a browser\'s streams fail it is read without them', async () => {
  const {ahead, preview} = await opened('slow.tif', COUNTING + WITHOUT_STREAMS);
  assert.equal(preview, sum);
  assert.equal(ahead, 0);
});

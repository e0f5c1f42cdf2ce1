// A master for the tests, written byte by byte: a 16-bit RGB TIFF (TIFF 6.0) of flat patches above a
// fine ramp, with an embedded profile.
const COLUMNS = 12, ROWS = 8, PATCH = 40, RAMP = 40;

export const WIDTH = COLUMNS * PATCH;
export const HEIGHT = ROWS * PATCH + RAMP;

// Seeded, so that each run has the same colours (xorshift32, Marsaglia 2003).
function* noise(seed) {
  for (let x = seed; ;) {
    x ^= x << 13; x ^= x >>> 17; x ^= x << 5;
    yield (x >>> 0) / 2 ** 32;
  }
}

// The patches: their colours as 8-bit codes (written as code x 257) and their middles, 0..1.
export function patches(seed = 2026) {
  const random = noise(seed);
  const fixed = [[255, 255, 255], [0, 0, 0], [128, 128, 128], [64, 64, 64], [200, 200, 200], [16, 16, 16]];
  return Array.from({length: COLUMNS * ROWS}, (_, index) => ({
    rgb: fixed[index] ?? Array.from({length: 3}, () => Math.round(random.next().value * 255)),
    x: (index % COLUMNS) * PATCH,
    y: Math.floor(index / COLUMNS) * PATCH,
    size: PATCH,
  })).map((patch) => ({...patch, place: [(patch.x + PATCH / 2) / WIDTH, (patch.y + PATCH / 2) / HEIGHT]}));
}

function pixels() {
  const samples = new Uint16Array(WIDTH * HEIGHT * 3);
  const put = (x, y, rgb) => samples.set(rgb, (y * WIDTH + x) * 3);
  for (const {rgb, x, y, size} of patches()) {
    const wide = rgb.map((code) => code * 257);
    for (let row = 0; row < size; ++row) {
      for (let column = 0; column < size; ++column) put(x + column, y + row, wide);
    }
  }
  for (let y = ROWS * PATCH; y < HEIGHT; ++y) {
    for (let x = 0; x < WIDTH; ++x) put(x, y, [x * 136, 65535 - x * 136, 30000 + x]);
  }
  return Buffer.from(samples.buffer);
}

// copies: how often the picture stands below itself.
export function tiff(profile, copies = 1) {
  return tiffOf({width: WIDTH, height: HEIGHT * copies, data: pixels(), rowsPerStrip: 40, profile});
}

// A master of many tiles: cells of a few pixels, each in a colour of its own along the width, repeated
// down the height.
const CELL = 8, CELL_ROWS = 2;

export const WIDE_TALL = {
  width: 4608,
  height: 3584,
  colours: null,
  // The 8-bit codes at a pixel.
  colour(x, y) {
    const random = noise(77);
    const across = this.width / CELL;
    this.colours ??= Array.from({length: across * CELL_ROWS},
        () => Array.from({length: 3}, () => Math.round(random.next().value * 255)));
    return this.colours[Math.floor(y / CELL) % CELL_ROWS * across + Math.floor(x / CELL)];
  },
};

export function wideTall(profile) {
  const {width, height} = WIDE_TALL, rows = CELL * CELL_ROWS;
  const samples = new Uint16Array(width * rows * 3);
  for (let y = 0; y < rows; ++y) {
    for (let x = 0; x < width; ++x) samples.set(WIDE_TALL.colour(x, y).map((code) => code * 257), (y * width + x) * 3);
  }
  return tiffOf({width, height, data: Buffer.from(samples.buffer), rowsPerStrip: rows, profile});
}

// TIFF 6.0: little endian; tag 34675 holds the profile (ICC.1 annex B.4). Rows past the end of the data
// begin with its first ones again and share their strips, so that a small file means many pixels.
export function tiffOf({width, height, data, rowsPerStrip, profile}) {
  const SHORT = 3, LONG = 4, RATIONAL = 5, UNDEFINED = 7;
  const stripBytes = rowsPerStrip * width * 6;
  const strips = height / rowsPerStrip, different = data.length / stripBytes;
  const long = (...values) => Buffer.from(Uint32Array.from(values).buffer);
  const short = (...values) => Buffer.from(Uint16Array.from(values).buffer);
  const tags = [
    [256, LONG, 1, long(width)], [257, LONG, 1, long(height)], [258, SHORT, 3, short(16, 16, 16)],
    [259, SHORT, 1, short(1)], [262, SHORT, 1, short(2)],
    [273, LONG, strips, long(...Array.from({length: strips}, (_, i) => 8 + i % different * stripBytes))],
    [277, SHORT, 1, short(3)], [278, LONG, 1, long(rowsPerStrip)],
    [279, LONG, strips, long(...Array.from({length: strips}, () => stripBytes))],
    [282, RATIONAL, 1, long(240, 1)], [283, RATIONAL, 1, long(240, 1)], [284, SHORT, 1, short(1)],
    [296, SHORT, 1, short(2)],
  ];
  if (profile) tags.push([34675, UNDEFINED, profile.length, profile]);

  const start = 8 + data.length;  // of the directory; long values follow it
  const directory = Buffer.alloc(2 + tags.length * 12 + 4);
  const values = [];
  let next = start + directory.length;
  directory.writeUInt16LE(tags.length, 0);
  tags.forEach(([tag, type, count, value], index) => {
    const at = 2 + index * 12;
    directory.writeUInt16LE(tag, at);
    directory.writeUInt16LE(type, at + 2);
    directory.writeUInt32LE(count, at + 4);
    if (value.length <= 4) return value.copy(directory, at + 8);
    directory.writeUInt32LE(next, at + 8);
    values.push(value, Buffer.alloc(value.length % 2));
    next += value.length + value.length % 2;
  });
  const header = Buffer.alloc(8);
  header.write('II*\0', 'latin1');
  header.writeUInt32LE(start, 4);
  return Buffer.concat([header, data, directory, ...values]);
}

// A master with spots, written byte by byte: an 8-bit grey-blue PNG (ISO/IEC 15948) that is smooth but
// for a little noise and small dark discs in known places.
import {crc32, deflateSync} from 'node:zlib';

export const WIDTH = 1800, HEIGHT = 1200;
export const SPOTS = [[300, 220], [900, 180], [1500, 400], [420, 800], [1300, 950]].map(([x, y]) => ({x, y, radius: 7}));

// Table-driven where this Node has no crc32 of its own (ISO/IEC 15948, annex D).
export function checksum(bytes) {
  if (crc32) return crc32(bytes);
  let crc = ~0;
  for (const byte of bytes) {
    crc ^= byte;
    for (let bit = 0; bit < 8; ++bit) crc = (crc >>> 1) ^ (crc & 1 ? 0xEDB88320 : 0);
  }
  return ~crc >>> 0;
}

function chunk(type, data) {
  const body = Buffer.concat([Buffer.from(type, 'latin1'), data]);
  const whole = Buffer.alloc(body.length + 8);
  whole.writeUInt32BE(data.length, 0);
  body.copy(whole, 4);
  whole.writeUInt32BE(checksum(body), body.length + 4);
  return whole;
}

// A PNG of 8 bits, grey (1 channel) or RGB (3). rows: each with its filter's number before it.
export function png(width, height, channels, rows) {
  const header = Buffer.alloc(13);
  header.writeUInt32BE(width, 0);
  header.writeUInt32BE(height, 4);
  header.set([8, channels === 1 ? 0 : 2, 0, 0, 0], 8);
  return Buffer.concat([Buffer.from([0x89, 0x50, 0x4E, 0x47, 0x0D, 0x0A, 0x1A, 0x0A]), chunk('IHDR', header),
    chunk('IDAT', deflateSync(rows, {level: 1})), chunk('IEND', Buffer.alloc(0))]);
}

function lightness(x, y) {
  const near = SPOTS.find((spot) => Math.hypot(x - spot.x, y - spot.y) <= spot.radius);
  return 150 + 40 * y / HEIGHT - (near ? 50 : 0);
}

export function spottedPng() {
  const rows = Buffer.alloc(HEIGHT * (WIDTH * 3 + 1));
  let seed = 7;
  for (let y = 0, at = 0; y < HEIGHT; ++y) {
    rows[at++] = 0;  // filter: none
    for (let x = 0; x < WIDTH; ++x) {
      seed = (Math.imul(seed, 1664525) + 1013904223) >>> 0;  // Numerical Recipes' constants
      const level = lightness(x, y) + (seed >>> 24) / 128 - 1;
      rows[at++] = level - 6;
      rows[at++] = level;
      rows[at++] = level + 8;
    }
  }
  return png(WIDTH, HEIGHT, 3, rows);
}

// What a JPEG says of itself (JFIF 1.02; ICC.1:2022 annex B.4), and its samples as jpeg-js, an
// independent decoder in JavaScript, reads them.
import {readFileSync} from 'node:fs';
import {createRequire} from 'node:module';

export function segments(file) {
  const found = [];
  for (let at = 2; file[at] === 0xff && file[at + 1] !== 0xda;) {
    const length = file.readUInt16BE(at + 2);
    found.push({marker: file[at + 1], body: file.subarray(at + 4, at + 2 + length)});
    at += 2 + length;
  }
  return found;
}

export function density(file) {
  const jfif = segments(file).find(({marker, body}) => marker === 0xe0 && body.toString('latin1', 0, 4) === 'JFIF');
  return jfif && {unit: jfif.body[7], x: jfif.body.readUInt16BE(8), y: jfif.body.readUInt16BE(10)};
}

export function exif(file) {
  return segments(file).find(({marker, body}) => marker === 0xe1 && body.toString('latin1', 0, 4) === 'Exif')?.body;
}

export function profile(file) {
  const parts = segments(file)
    .filter(({marker, body}) => marker === 0xe2 && body.toString('latin1', 0, 11) === 'ICC_PROFILE')
    .sort((a, b) => a.body[12] - b.body[12]);
  return Buffer.concat(parts.map(({body}) => body.subarray(14)));
}

// The samples per component: the library's public call turns CMYK to RGB its own way, so its
// decoder is asked before that step. CMYK: 0 is no ink.
export function samples(file) {
  const path = createRequire(import.meta.url).resolve('jpeg-js/lib/decoder.js');
  const library = {exports: {}};
  new Function('module', readFileSync(path, 'utf8') + '\nmodule.exports = JpegImage;')(library);
  const JpegImage = library.exports;
  JpegImage.resetMaxMemoryUsage(1 << 30);
  const image = new JpegImage();
  image.opts = {tolerantDecoding: false, maxResolutionInMP: 200};
  image.parse(new Uint8Array(file));
  const {width, height} = image;
  return {width, height, channels: image.components.length, data: image.getData(width, height)};
}

// Mean of a square, without `margin` pixels at each side.
export function mean({width, channels, data}, {x, y, size}, margin = 8) {
  const sum = new Array(channels).fill(0);
  for (let row = y + margin; row < y + size - margin; ++row) {
    for (let column = x + margin; column < x + size - margin; ++column) {
      for (let c = 0; c < channels; ++c) sum[c] += data[(row * width + column) * channels + c];
    }
  }
  return sum.map((value) => value / (size - 2 * margin) ** 2);
}

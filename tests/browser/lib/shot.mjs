// What the screen shows, pixel by pixel.

// R, G, B, A of a part of the page as a person sees it; clip: {x, y, width, height} in CSS pixels.
export async function shot(page, clip) {
  const png = (await page.screenshot({clip})).toString('base64');
  const plain = await page.context().newPage();  // the page itself may be busy
  const found = await plain.evaluate(async (base64) => {
    const bytes = Uint8Array.from(atob(base64), (letter) => letter.charCodeAt(0));
    const image = await createImageBitmap(new Blob([bytes], {type: 'image/png'}));
    const canvas = new OffscreenCanvas(image.width, image.height);
    const context = canvas.getContext('2d');
    context.drawImage(image, 0, 0);
    const {width, height, data} = context.getImageData(0, 0, image.width, image.height);
    let letters = '';
    for (let at = 0; at < data.length; at += 32768) {
      letters += String.fromCharCode(...data.subarray(at, at + 32768));
    }
    return {width, height, letters: btoa(letters)};
  }, png);
  await plain.close();
  return {width: found.width, height: found.height, rgba: Buffer.from(found.letters, 'base64')};
}

// The picture's place in the middle of the page, without what lies over its edges.
export async function pictureShot(page, rects) {
  const [x, y, width, height] = rects.picture;
  return shot(page, {x: Math.round(x), y: Math.round(y), width: Math.floor(width), height: Math.floor(height)});
}

// The greatest difference between two of them, of 255.
export function apart(one, other) {
  if (one.rgba.length !== other.rgba.length) return Infinity;
  let most = 0;
  for (let at = 0; at < one.rgba.length; ++at) {
    const off = Math.abs(one.rgba[at] - other.rgba[at]);
    if (off > most) most = off;
  }
  return most;
}

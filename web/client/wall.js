// A print on a plain wall, in proportion: a measured line of a person's height stands beside it.
const PERSON = 1.7;   // [m]
const MIDDLE = 1.55;  // of the print above the floor [m]; common practice, no source
const LEAST = {width: 3.4, height: 2.5};  // of wall that is shown [m]
const AIR = 0.5;      // beside a large print [m]
const FLOOR = 0.18;   // below the wall [m]
const SIZE = {width: 1280, height: 960};  // of the canvas [pixels]
const COLOURS = {wall: '#d2d2d2', floor: '#a8a8a8', line: '#4a4a4a', shadow: 'rgb(0 0 0 / 0.35)'};

// The sheet stands as the picture does: sizes are often written the short side first.
function sheetOf(picture, {width_mm, height_mm}) {
  const turned = (picture.width - picture.height) * (width_mm - height_mm) < 0;
  return {width: (turned ? height_mm : width_mm) / 1000, height: (turned ? width_mm : height_mm) / 1000};
}

function drawPerson(context, x, floor, scale) {
  const tick = (height, half) => {
    context.moveTo(x - half, floor - height * scale);
    context.lineTo(x + half, floor - height * scale);
  };
  context.strokeStyle = context.fillStyle = COLOURS.line;
  context.lineWidth = 2;
  context.beginPath();
  context.moveTo(x, floor);
  context.lineTo(x, floor - PERSON * scale);
  for (let height = 0; height < PERSON; height += 0.5) tick(height, 8);
  tick(PERSON, 18);
  context.stroke();
  context.font = '26px system-ui, sans-serif';
  context.textAlign = 'center';
  context.fillText('1.7 m', x, floor - PERSON * scale - 14);
}

// picture: a canvas of the print's picture; size: {width_mm, height_mm}; white: R, G, B of the paper.
export function drawWall(canvas, picture, size, white) {
  const sheet = sheetOf(picture, size);
  const middle = Math.max(MIDDLE, sheet.height / 2 + 0.1);
  const wide = Math.max(LEAST.width, sheet.width + 2 * AIR + 0.8);
  const high = Math.max(LEAST.height, middle + sheet.height / 2 + 0.15) + FLOOR;
  const scale = Math.min(SIZE.width / wide, SIZE.height / high);  // [pixels to a metre]
  Object.assign(canvas, SIZE);
  const context = canvas.getContext('2d');
  const floor = SIZE.height - FLOOR * scale;
  context.fillStyle = COLOURS.wall;
  context.fillRect(0, 0, SIZE.width, floor);
  context.fillStyle = COLOURS.floor;
  context.fillRect(0, floor, SIZE.width, SIZE.height - floor);
  drawPerson(context, 0.4 * scale, floor, scale);

  const width = sheet.width * scale, height = sheet.height * scale;
  const left = (SIZE.width + 0.8 * scale) / 2 - width / 2, top = floor - middle * scale - height / 2;
  context.shadowColor = COLOURS.shadow;
  context.shadowBlur = 12;
  context.shadowOffsetY = 4;
  context.fillStyle = `rgb(${white.join(' ')})`;
  context.fillRect(left, top, width, height);
  context.shadowColor = 'transparent';
  const fit = Math.min(width / picture.width, height / picture.height);
  context.imageSmoothingQuality = 'high';
  context.drawImage(picture, left + (width - picture.width * fit) / 2, top + (height - picture.height * fit) / 2,
      picture.width * fit, picture.height * fit);
}

// A print on a plain wall, in proportion: a measured line of a person's height stands beside it.
const PERSON = 1.7;   // [m]
const MIDDLE = 1.55;  // of the print above the floor [m]; common practice, no source
const LEAST = {width: 3.4, height: 2.5};  // of wall that is shown [m]
const AIR = 0.5;      // beside a large print [m]
const FLOOR = 0.18;   // below the wall [m]
const SHAPE = 3 / 4;  // height to width
const LETTER = 13;    // [CSS px]
const COLOURS = {wall: '#d2d2d2', floor: '#a8a8a8', line: '#4a4a4a', shadow: 'rgb(0 0 0 / 0.35)'};

// The sheet stands as the picture does: sizes are often written the short side first.
function sheetOf(picture, {width_mm, height_mm}) {
  const turned = (picture.width - picture.height) * (width_mm - height_mm) < 0;
  return {width: (turned ? height_mm : width_mm) / 1000, height: (turned ? width_mm : height_mm) / 1000};
}

function drawPerson(context, x, floor, scale, unit) {
  const tick = (height, half) => {
    context.moveTo(x - half, floor - height * scale);
    context.lineTo(x + half, floor - height * scale);
  };
  context.strokeStyle = context.fillStyle = COLOURS.line;
  context.lineWidth = 1.5 * unit;
  context.beginPath();
  context.moveTo(x, floor);
  context.lineTo(x, floor - PERSON * scale);
  for (let height = 0; height < PERSON; height += 0.5) tick(height, 4 * unit);
  tick(PERSON, 9 * unit);
  context.stroke();
  context.font = `${LETTER * unit}px system-ui, sans-serif`;
  context.textAlign = 'center';
  context.fillText('1.7 m', x, floor - PERSON * scale - 7 * unit);
}

// picture: a canvas of the print's picture; size: {width_mm, height_mm}; white: R, G, B of the paper;
// width: of the wall on the page [CSS px].
export function drawWall(canvas, picture, size, white, width) {
  const unit = devicePixelRatio;
  canvas.width = Math.round(width * unit);
  canvas.height = Math.round(width * unit * SHAPE);
  const sheet = sheetOf(picture, size);
  const middle = Math.max(MIDDLE, sheet.height / 2 + 0.1);
  const wide = Math.max(LEAST.width, sheet.width + 2 * AIR + 0.8);
  const high = Math.max(LEAST.height, middle + sheet.height / 2 + 0.15) + FLOOR;
  const scale = Math.min(canvas.width / wide, canvas.height / high);  // [pixels to a metre]
  const context = canvas.getContext('2d');
  const floor = canvas.height - FLOOR * scale;
  context.fillStyle = COLOURS.wall;
  context.fillRect(0, 0, canvas.width, floor);
  context.fillStyle = COLOURS.floor;
  context.fillRect(0, floor, canvas.width, canvas.height - floor);
  drawPerson(context, 0.4 * scale, floor, scale, unit);

  const across = sheet.width * scale, down = sheet.height * scale;
  const left = (canvas.width + 0.8 * scale) / 2 - across / 2, top = floor - middle * scale - down / 2;
  context.shadowColor = COLOURS.shadow;
  context.shadowBlur = 6 * unit;
  context.shadowOffsetY = 2 * unit;
  context.fillStyle = `rgb(${white.join(' ')})`;
  context.fillRect(left, top, across, down);
  context.shadowColor = 'transparent';
  const fit = Math.min(across / picture.width, down / picture.height);
  context.imageSmoothingQuality = 'high';
  context.drawImage(picture, left + (across - picture.width * fit) / 2, top + (down - picture.height * fit) / 2,
      picture.width * fit, picture.height * fit);
}

// What the browser says of the screen, for the panel's check of it (engine/screen/check_json.h). It
// says nothing of a night tint or of the screen's brightness.
const GAMUTS = ['rec2020', 'p3', 'srgb'];  // Media Queries 5, the widest first
const QUERIES = [...GAMUTS.map((name) => `(color-gamut: ${name})`), '(dynamic-range: high)',
  '(forced-colors: active)', '(inverted-colors: inverted)', '(prefers-contrast: more)',
  '(prefers-contrast: less)', '(prefers-contrast: custom)'];

const matches = (query) => matchMedia(query).matches;

// A page zoomed by fingers is scaled after it is drawn; a broken ratio needs the browser's exact count.
function wholePixels() {
  const exact = 'devicePixelContentBoxSize' in (globalThis.ResizeObserverEntry?.prototype ?? {});
  return (visualViewport?.scale ?? 1) === 1 && (exact || Number.isInteger(devicePixelRatio));
}

function told(displayP3) {
  return JSON.stringify({
    gamut: GAMUTS.find((name) => matches(`(color-gamut: ${name})`)) ?? 'unknown',
    canvas: displayP3 ? 'p3' : 'srgb',
    high_dynamic: matches('(dynamic-range: high)'),
    forced_colours: matches('(forced-colors: active)'),
    inverted: matches('(inverted-colors: inverted)'),
    contrast: ['more', 'less', 'custom'].some((way) => matches(`(prefers-contrast: ${way})`)),
    pixel_ratio: devicePixelRatio,
    whole_pixels: wholePixels(),
    width: screen.width,
    height: screen.height,
  });
}

// Tells it now and whenever it changes.
export function watchScreen(displayP3, tell) {
  let last = '';
  const look = () => {
    const now = told(displayP3);
    if (now !== last) tell(now);
    last = now;
  };
  for (const query of QUERIES) matchMedia(query).addEventListener?.('change', look);
  addEventListener('resize', look);
  visualViewport?.addEventListener('resize', look);
  look();
}

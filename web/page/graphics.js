// The page's drawing context, and when the panel draws with it.

// Names that programs go by which draw with the processor, where a machine has no graphics card to use.
const BY_PROCESSOR = /swiftshader|llvmpipe|softpipe|basic render/i;

function nameOf(gl) {
  const name = gl.getParameter(gl.RENDERER);
  const unmasked = /^webkit/i.test(name) && gl.getExtension('WEBGL_debug_renderer_info');
  return unmasked ? gl.getParameter(unmasked.UNMASKED_RENDERER_WEBGL) : name;
}

// The context, whether it shows Display P3, and whether it is the processor that draws.
export function openGraphics(canvas) {
  const gl = canvas.getContext('webgl2', {alpha: false, antialias: false, depth: false, stencil: false});
  if (!gl) return null;
  const wide = matchMedia('(color-gamut: p3)').matches && 'drawingBufferColorSpace' in gl;
  if (wide) gl.drawingBufferColorSpace = 'display-p3';
  const displayP3 = wide && gl.drawingBufferColorSpace === 'display-p3';
  return {gl, displayP3, byProcessor: BY_PROCESSOR.test(nameOf(gl))};
}

// Draws when asked, at most once a screen refresh.
export class Painter {
  constructor(canvas, panel, afterwards) {
    Object.assign(this, {canvas, panel, afterwards, asked: 0, last: 0, anew: true});
    this.fit();
    const observer = new ResizeObserver(([entry]) => {
      const exact = entry.devicePixelContentBoxSize?.[0];
      this.fit(exact?.inlineSize, exact?.blockSize);
      this.draw();  // at once: a resized canvas is blank
    });
    try {
      observer.observe(canvas, {box: 'device-pixel-content-box'});
    } catch {
      observer.observe(canvas);
      addEventListener('resize', () => this.ask());
    }
    document.addEventListener('visibilitychange', () => {  // a page put aside may lose what it showed
      this.anew = true;
      this.ask();
    });
  }

  // The canvas gets one pixel to each of the screen's. The browser's own count is exact but is not
  // to be had everywhere, and is wrong where a screen is only imitated.
  fit(width, height) {
    const {canvas} = this;
    const pick = (exact, length) => (Math.abs(exact - length) < 1.5 ? exact : Math.round(length));
    canvas.width = pick(width, canvas.clientWidth * devicePixelRatio);
    canvas.height = pick(height, canvas.clientHeight * devicePixelRatio);
    this.anew = true;
  }

  ask() { this.asked ||= requestAnimationFrame(() => this.draw()); }

  draw() {
    cancelAnimationFrame(this.asked);
    this.asked = 0;
    const now = performance.now();
    const seconds = Math.min(0.1, (now - this.last) / 1000);
    this.last = now;
    const {clientWidth, clientHeight, width} = this.canvas;
    if (!clientWidth || !clientHeight) return;
    const again = this.panel.frame(clientWidth, clientHeight, width / clientWidth, seconds, this.anew);
    this.anew = false;
    this.afterwards();
    if (again) this.ask();
  }
}

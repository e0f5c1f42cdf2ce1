// Hands pointers, wheel, keys, text, drops and pastes to the panel.
import {sorted} from './folder.js';

const WHAT = {pointerdown: 0, pointermove: 1, pointerup: 2, pointercancel: 2, pointerleave: 3};
const KIND = {mouse: 0, touch: 1, pen: 2};
const PIXELS_PER_LINE = 100 / 3;  // a notch is about 100 pixels in one browser, 3 lines in another
const LINES_PER_PAGE = 20;
const FILLER = 'x';  // something for an on-screen keyboard to delete

const modifiers = (event) =>
  (event.shiftKey ? 1 : 0) | (event.ctrlKey ? 2 : 0) | (event.altKey ? 4 : 0) | (event.metaKey ? 8 : 0);

const isText = (event) => [...event.key].length === 1 && !event.ctrlKey && !event.metaKey;

const KEYBOARDS = ['', 'text', 'numeric', 'decimal'];  // as shell/host.h's Typing

const FRAMES_OF_A_TAP = 3;  // press, release, and what follows from it

// panel: the calls of bridge/page.cpp; painter: draws; bring(files, folders): from the person.
export function listen({canvas, typing, picker}, panel, painter, bring) {
  const frame = () => painter.ask();
  listenToPointers(canvas, typing, panel, frame);
  // A tablet raises its keyboard only from within the touch's own event, so the panel is shown the
  // tap at once and may ask for text.
  canvas.addEventListener('pointerup', ({pointerType}) => {
    if (pointerType === 'mouse') return;
    for (let count = 0; count < FRAMES_OF_A_TAP; ++count) painter.draw();
  });
  listenToKeys(canvas, typing, panel, frame);
  listenToFiles(picker, panel, frame, bring);
}

// Puts the keyboard's focus where the panel wants it: a text field of the page raises the on-screen
// keyboard and lets accents be composed.
export function followFocus({canvas, typing}, panel) {
  const wanted = panel.wantsText();
  if (wanted) typing.inputMode = KEYBOARDS[wanted];
  if (wanted && document.activeElement !== typing) {
    typing.value = FILLER;
    typing.focus({preventScroll: true});
  } else if (!wanted && document.activeElement === typing) {
    canvas.focus({preventScroll: true});
  }
}

function listenToPointers(canvas, typing, panel, frame) {
  let touch = null;
  const tell = (event) => {
    if (touch !== (event.pointerType === 'touch')) {
      touch = event.pointerType === 'touch';
      panel.setTouch(touch);
    }
    if (event.type === 'pointerdown') {
      if (document.activeElement !== typing) canvas.focus({preventScroll: true});
      try {
        canvas.setPointerCapture(event.pointerId);
      } catch {
        // The pointer was lifted already.
      }
    }
    panel.pointer(WHAT[event.type], event.pointerId, KIND[event.pointerType] ?? 0, event.clientX,
        event.clientY, event.button);
    frame();
  };
  for (const type of Object.keys(WHAT)) canvas.addEventListener(type, tell);
  canvas.addEventListener('mousedown', (event) => event.preventDefault());  // keeps the text field's focus
  canvas.addEventListener('contextmenu', (event) => event.preventDefault());
  canvas.addEventListener('wheel', (event) => {
    event.preventDefault();
    const lines = [1 / PIXELS_PER_LINE, 1, LINES_PER_PAGE][event.deltaMode];
    panel.wheel(event.deltaX * lines, event.deltaY * lines, event.ctrlKey);
    frame();
  }, {passive: false});
  // Safari's pinch on a trackpad would zoom the page.
  document.addEventListener('gesturestart', (event) => event.preventDefault());
}

function listenToKeys(canvas, typing, panel, frame) {
  const onKey = (event) => {
    if (event.target !== canvas && event.target !== typing && event.target !== document.body) return;
    if (event.isComposing || event.key === 'Unidentified' || event.key === 'Process') return;
    // Pasting comes as its own event, with what the browser lets us have.
    if ((event.ctrlKey || event.metaKey) && event.key.toLowerCase() === 'v') return;
    const taken = panel.key(event.type === 'keydown', event.key, event.code, modifiers(event));
    if (taken && !(event.target === typing && isText(event))) event.preventDefault();
    frame();
  };
  document.addEventListener('keydown', onKey);
  document.addEventListener('keyup', onKey);

  typing.addEventListener('input', (event) => {
    if (event.isComposing) return;
    if (event.inputType === 'deleteContentBackward') pressBackspace(panel);
    else if (typing.value.length > FILLER.length) panel.text(typing.value.slice(FILLER.length));
    typing.value = FILLER;
    frame();
  });
  typing.addEventListener('compositionend', (event) => {
    panel.text(event.data);
    typing.value = FILLER;
    frame();
  });
}

function pressBackspace(panel) {
  for (const down of [true, false]) panel.key(down, 'Backspace', 'Backspace', 0);
}

function listenToFiles(picker, panel, frame, bring) {
  picker.addEventListener('change', () => {
    bring([...picker.files]);
    picker.value = '';  // the same file may be picked again
  });
  const hover = (over) => {
    panel.dropping(over);
    frame();
  };
  addEventListener('dragover', (event) => {
    event.preventDefault();
    event.dataTransfer.dropEffect = 'copy';
    hover(true);
  });
  addEventListener('dragleave', (event) => { if (!event.relatedTarget) hover(false); });
  addEventListener('drop', (event) => {
    event.preventDefault();
    hover(false);
    const {files, folders} = sorted(event.dataTransfer);
    bring(files, folders);
  });
  addEventListener('paste', (event) => {
    event.preventDefault();
    const {files} = event.clipboardData;
    if (files.length) return bring([...files]);
    const text = event.clipboardData.getData('text/plain');
    if (text && panel.wantsText()) panel.text(text);
    frame();
  });
}

// The language of the page. The English text is the key; other languages come from the catalogue's part
// that web/language.mjs writes for each. said() fills {} as the engine's does (engine/base/language.h).

export const LANGUAGES = ['en', 'de'];
const KEPT = 'proofleaf.language';
const ENGLISH = {code: 'en', catalogue: ''};

let texts = {};

// Marks a text that is said() later, so that the catalogue's test finds it.
export const phrase = (english) => english;

// The text in the language spoken, with its {} filled: in turn, or by the number in them.
export function said(english, ...parts) {
  let turn = 0;
  return (texts[english] ?? english).replace(/{(\d*)}/g, (_, number) => parts[number ? number - 1 : turn++]);
}

function kept() {
  try {
    return localStorage.getItem(KEPT);
  } catch {
    return null;
  }
}

export function keepLanguage(code) {
  try {
    localStorage.setItem(KEPT, code);
  } catch {
    // Storage is refused: the choice lasts as long as the page.
  }
}

// What ?lang= asks for, else what was chosen here before, else the first the browser's settings name.
export function wantedLanguage() {
  const wishes = [new URLSearchParams(location.search).get('lang'), kept(), ...navigator.languages];
  return wishes.map((wish) => wish?.slice(0, 2).toLowerCase()).find((code) => LANGUAGES.includes(code)) ?? 'en';
}

// Speaks it from now on, here; answers {code, catalogue as JSON} for the module. read(code): brings the
// catalogue's JSON; where that fails, English is spoken.
export async function speak(code, read) {
  let words = ENGLISH;
  if (code !== 'en') {
    try {
      words = {code, catalogue: await read(code)};
      texts = JSON.parse(words.catalogue);
    } catch {
      words = ENGLISH;
    }
  }
  if (words === ENGLISH) texts = {};
  document.documentElement.lang = words === ENGLISH ? 'en-GB' : code;
  return words;
}

const collapsed = (text) => text.replace(/\s+/g, ' ').trim();

// Every text in the page's own markup: [how to set it, its English].
function markup() {
  const found = [];
  const walker = document.createTreeWalker(document, NodeFilter.SHOW_TEXT | NodeFilter.SHOW_ELEMENT);
  for (let node = walker.currentNode; node; node = walker.nextNode()) {
    if (node.parentElement?.closest('script, style, noscript')) continue;
    if (node.nodeType === Node.TEXT_NODE && collapsed(node.data)) {
      const text = node, [, before, after] = node.data.match(/^(\s*).*?(\s*)$/s);
      found.push([(words) => { text.data = before + words + after; }, collapsed(node.data)]);
    } else if (node.getAttribute?.('aria-label')) {
      const labelled = node;
      found.push([(words) => labelled.setAttribute('aria-label', words), node.getAttribute('aria-label')]);
    }
  }
  return found;
}

let own = null;

// Puts the page's own markup into the language spoken. First called before anything was written into it.
export function sayPage() {
  own ??= markup();
  for (const [set, english] of own) set(said(english));
}

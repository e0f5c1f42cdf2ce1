// Writes each language of the catalogue as a file of its own, {"English": "text"}: words-de.json for the
// tool, client-words-de.json with just those texts that a client's page has: node web/language.mjs
// APP-FOLDER. They are found by looking for each English text in the client's own files.
import {readFileSync, writeFileSync} from 'node:fs';
import path from 'node:path';
import {fileURLToPath} from 'node:url';

const app = process.argv[2];
const read = (...parts) => readFileSync(path.join(...parts), 'utf8');
const web = path.dirname(fileURLToPath(import.meta.url));
const groups = JSON.parse(read(web, 'language', 'catalogue.json'));
const texts = Object.assign({}, ...Object.values(groups));

// Scripts and markup as their texts are, and the module's bytes.
const scripts = ['client.js', 'wall.js', 'seal.js'].map((name) => read(app, name).replace(/' \+\s*'/g, '').replace(/\\'/g, '\''));
const client = [...scripts, read(web, 'client', 'client.html').replace(/\s+/g, ' '),
  read(app, 'proofleaf-client.wasm')].join('\n');

function write(name, language, wanted) {
  const part = Object.entries(texts).filter(([english]) => wanted(english));
  const json = Object.fromEntries(part.map(([english, words]) => [english, words[language]]));
  writeFileSync(path.join(app, `${name}-${language}.json`), JSON.stringify(json));
}

for (const language of new Set(Object.values(texts).flatMap(Object.keys))) {
  write('words', language, () => true);
  write('client-words', language, (english) => client.includes(english));
}

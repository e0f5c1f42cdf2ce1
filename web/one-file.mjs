// Writes the client's page as one file that opens from a disk: node web/one-file.mjs APP-FOLDER. Scripts
// and style stand in it by their hashes (Content Security Policy Level 3, section 2.3.1), so that nothing
// else runs there. The tool puts an offer's letters in place of OFFER.
import {createHash} from 'node:crypto';
import {readFileSync, readdirSync} from 'node:fs';
import path from 'node:path';
import {fileURLToPath} from 'node:url';

const app = process.argv[2];
const read = (name) => readFileSync(path.join(app, name), 'utf8');
const hash = (text) => `'sha256-${createHash('sha256').update(text).digest('base64')}'`;

// The modules joined to one: none of them has names that another one has.
const joined = ['words.js', 'seal.js', 'wall.js', 'client.js'].map(read).join('\n')
  .replace(/^import .*\n/gm, '').replace(/^export /gm, '');
// Each language's texts, {"de": {"English": "text"}}; no text may end the element that holds them.
const languages = readdirSync(app).flatMap((name) => name.match(/^client-words-(\w+)\.json$/)?.[1] ?? []);
const words = languages.map((language) => `"${language}":${read(`client-words-${language}.json`)}`);
const texts = `{${words.join()}}`.replace(/</g, '\\u003c');
const glue = read('proofleaf-client.js'), style = read('client.css');
if (/<\/script/i.test(glue + joined) || /<\/style/i.test(style)) throw new Error('A part would end its own element.');
const policy = `default-src 'none'; script-src ${hash(glue)} ${hash(joined)} 'wasm-unsafe-eval'; ` +
    `style-src ${hash(style)}; base-uri 'none'; form-action 'none'`;

const held = (id, text) => `<script type="application/octet-stream" id="${id}">${text}</script>`;
const parts = [
  [/content="default-src[^"]*"/, `content="${policy}"`],
  [/ *<link rel="icon".*\n/, ''],
  [/ *<link rel="stylesheet".*\n/, `<style>${style}</style>\n`],
  [/ *<script src="APP\/proofleaf-client.*\n/, held('letters', 'OFFER') + '\n' + held('texts', texts) + '\n' +
      held('module', readFileSync(path.join(app, 'proofleaf-client.wasm')).toString('base64')) + `\n<script>${glue}</script>\n`],
  [/ *<script src="APP\/client.*\n/, `<script type="module">${joined}</script>\n`],
];
let page = readFileSync(fileURLToPath(new URL('client/client.html', import.meta.url)), 'utf8');
for (const [place, part] of parts) {
  if (!place.test(page)) throw new Error(`The page has no ${place}.`);
  page = page.replace(place, () => part);
}
process.stdout.write(page);

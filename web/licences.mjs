// Writes the page of licences: node web/licences.mjs > licences.html. It holds what .ci/sources.list
// says becomes part of the page, with the licences as they come with each part.
import {readFileSync, readdirSync} from 'node:fs';
import {fileURLToPath} from 'node:url';

const ROOT = fileURLToPath(new URL('..', import.meta.url));
const LICENCE_FILE = /^(LICEN[CS]E(\.txt|\.md|\.MIT)?|COPYING|README\.ijg)$/;
const read = (path) => readFileSync(path, 'utf8').trim();

const parts = read(ROOT + '.ci/sources.list').split('\n').filter((line) => !line.startsWith('#'))
    .map((line) => line.split(/\s+/))
    .map(([kind, name, version, , licence, where, ...why]) => ({kind, name, version, licence, where, why: why.join(' ')}))
    .filter(({where}) => where === 'page');

// Licences that stand within source files instead of files of their own.
const WITHIN = {
  imgui: (folder) => {
    const header = read(folder + '/imstb_truetype.h');  // the other two of its kind say the same
    return ['imstb_*.h: ' + header.slice(header.lastIndexOf('This software is available under 2 licenses'))];
  },
  'nlohmann-json3': (folder) => {
    const holders = read(folder + '/single_include/nlohmann/json.hpp').match(/(?<=SPDX-FileCopyrightText: ).*/g);
    return ['Copyright ' + [...new Set(holders)].join('\nCopyright ')];
  },
  zlib: (folder) => [read(folder + '/contrib/minizip/MiniZip64_info.txt')],
};

function ofSource(name) {
  const folder = `${ROOT}.deps/src/${name}`;
  const own = readdirSync(folder).filter((file) => LICENCE_FILE.test(file)).sort();
  if (!own.length) throw new Error(`${name} has no licence file.`);
  return [...own.map((file) => read(`${folder}/${file}`)), ...(WITHIN[name]?.(folder) ?? [])];
}

// Debian keeps a package's licences in one file of paragraphs. Of Emscripten only its libraries
// (system/lib) come into the page; each paragraph names a licence that may stand apart.
function ofPackage(name) {
  const all = read(`/usr/share/doc/${name}/copyright`);
  if (name !== 'emscripten') return [all];
  const paragraphs = all.split(/\n\s*\n/);
  const field = (text, key) => text.match(new RegExp(`^${key}:([^\n]*(?:\n [^\n]*)*)`, 'm'))?.[1].trim() ?? '';
  const used = paragraphs.filter((text) => field(text, 'Files') === '*' || field(text, 'Files').includes('system/lib/'));
  const named = new Set(used.flatMap((text) => field(text, 'License').split('\n')[0].split(/ (?:or|and) |, /)));
  const texts = paragraphs.filter((text) => text.startsWith('License:') && named.has(field(text, 'License').split('\n')[0]));
  return [...used, ...texts];
}

const version = ({kind, name, version}) =>
  kind === 'source' ? version.replace(name + '_', '').replace(/\.orig\.tar\..*$/, '') : 'of Debian 12';
const escaped = (text) => text.replace(/[&<>]/g, (letter) => ({'&': '&amp;', '<': '&lt;', '>': '&gt;'})[letter]);

function section(part) {
  const texts = part.kind === 'source' ? ofSource(part.name) : ofPackage(part.name);
  return `<section>
<h2>${escaped(part.name)} ${escaped(version(part))}</h2>
<p>${escaped(part.licence.replace(',', ', '))}; ${escaped(part.why)}.</p>
${texts.map((text) => `<pre>${escaped(text)}</pre>`).join('\n')}
</section>`;
}

process.stdout.write(`<!DOCTYPE html>
<html lang="en-GB">
<head>
  <meta charset="utf-8">
  <meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'self'; img-src 'self'">
  <meta name="viewport" content="width=device-width, initial-scale=1">
  <meta name="color-scheme" content="dark">
  <title>Licences - Proofleaf</title>
  <link rel="icon" href="icon.svg">
  <link rel="stylesheet" href="licences.css">
</head>
<body>
<main>
<h1>Licences</h1>
<p>Proofleaf is under the MIT licence. It stands on the work of others, whose licences follow.</p>
<pre>${escaped(read(ROOT + 'LICENSE'))}</pre>
${parts.map(section).join('\n')}
</main>
</body>
</html>
`);

// A static server for this machine only: node web/serve.mjs [--port N] [--under /path/] [FOLDER].
// Any other static host does as well; the page needs no special headers.
import {createReadStream} from 'node:fs';
import {stat} from 'node:fs/promises';
import {createServer} from 'node:http';
import path from 'node:path';
import {fileURLToPath} from 'node:url';
import {parseArgs} from 'node:util';

const TYPES = {
  '.html': 'text/html; charset=utf-8',
  '.js': 'text/javascript; charset=utf-8',
  '.css': 'text/css; charset=utf-8',
  '.wasm': 'application/wasm',
  '.otf': 'font/otf',
  '.png': 'image/png',
  '.svg': 'image/svg+xml',
  '.icc': 'application/vnd.iccprofile',
  '.webmanifest': 'application/manifest+json',
};
const PORTS_TRIED = 50;

const {values, positionals} = parseArgs({
  options: {port: {type: 'string', default: '8080'}, under: {type: 'string', default: '/'}},
  allowPositionals: true,
});
const folder = path.resolve(positionals[0] ?? fileURLToPath(new URL('../build/site', import.meta.url)));

// The file an address means, or null where it would leave the folder.
function fileFor(url) {
  let name;
  try {
    name = decodeURIComponent(new URL(url, 'http://localhost').pathname);
  } catch {
    return null;
  }
  if (!name.startsWith(values.under) || name.includes('\0')) return null;
  const file = path.join(folder, name.slice(values.under.length));
  if (file !== folder && !file.startsWith(folder + path.sep)) return null;
  return name.endsWith('/') ? path.join(file, 'index.html') : file;
}

async function answer(request, response) {
  const refuse = (status) => response.writeHead(status, {'Content-Type': 'text/plain'}).end(`${status}\n`);
  if (request.method !== 'GET' && request.method !== 'HEAD') return refuse(405);
  const file = fileFor(request.url);
  const found = file && await stat(file).catch(() => null);
  if (!found?.isFile()) return refuse(404);
  const etag = `"${found.size.toString(16)}-${Math.round(found.mtimeMs).toString(16)}"`;
  const headers = {
    'Content-Type': TYPES[path.extname(file)] ?? 'application/octet-stream',
    // A folder named after its content never changes; index.html is asked for anew each time.
    'Cache-Control': /\/app-[0-9a-f]+\//.test(file) ? 'public, max-age=31536000, immutable' : 'no-cache',
    'X-Content-Type-Options': 'nosniff',
    ETag: etag,
  };
  if (request.headers['if-none-match'] === etag) return response.writeHead(304, headers).end();
  response.writeHead(200, {...headers, 'Content-Length': found.size});
  if (request.method === 'HEAD') return response.end();
  createReadStream(file).on('error', () => response.destroy()).pipe(response);
}

const first = Number(values.port);
const server = createServer((request, response) => {
  answer(request, response).catch(() => response.destroy());
});
let port = first;
server.on('error', (error) => {
  if (error.code !== 'EADDRINUSE' || port >= first + PORTS_TRIED) throw error;
  server.listen(++port, '127.0.0.1');
});
server.on('listening', () => {
  console.log(`Proofleaf is at http://127.0.0.1:${server.address().port}${values.under}`);
});
server.listen(port, '127.0.0.1');

// Makes the table and build/bench.json of the lines the bench programs printed: table.mjs OUT FILE...
import { readFileSync, writeFileSync } from 'node:fs';

const [out, ...files] = process.argv.slice(2);
const lines = files.flatMap((file) => readFileSync(file, 'utf8').split('\n').filter(Boolean));
const found = lines.map((line) => JSON.parse(line));
const peerOf = Object.fromEntries(found.filter((row) => row.peer).map((row) => [row.what, row.peer]));
const wasmGoal = 2.5;

function finished(row) {
  if (row.wasm_of) {
    return { what: `WASM in Node: ${row.wasm_of}`, ours: row.ours, peer: peerOf[row.wasm_of], goal: wasmGoal,
      note: row.same ? 'Mpx/s; the very bytes of the native kernel; peer is native'
        : 'OTHER BYTES THAN THE NATIVE KERNEL', broken: !row.same };
  }
  if (row.mean !== undefined) {
    return { what: row.what, ours: row.mean, max: row.max, peer: row.peer_mean, peer_max: row.peer_max,
      reached: row.mean <= 0.05 && row.max <= 0.5, accuracy: true,
      note: 'dE00 mean (max) against the float chain; promised 0.05 (0.5)' };
  }
  return row;
}

const rows = found.map(finished).map((row) => {
  if (row.accuracy) return row;
  const ratio = row.ours / row.peer;
  const good = row.at_most ? ratio <= row.goal : ratio >= row.goal;
  return { ...row, ratio, reached: row.goal > 0 ? !row.broken && good : null };
});
const cells = rows.map((row) => row.accuracy
  ? [row.what, `${row.ours} (${row.max})`, `${row.peer} (${row.peer_max})`, '', '', row.reached ? 'yes' : 'NO', row.note]
  : [row.what, row.ours.toFixed(1), row.peer.toFixed(1), `${row.ratio.toFixed(2)}x`,
    row.goal > 0 ? `${row.at_most ? '<= ' : ''}${row.goal}x` : '-', row.reached === null ? '-' : row.reached ? 'yes' : 'NO', row.note]);
const head = ['what', 'ours', 'peer', 'ratio', 'goal', 'reached', 'note'];
const widths = head.map((title, i) => Math.max(title.length, ...cells.map((line) => line[i].length)));
for (const line of [head, ...cells]) console.log(line.map((cell, i) => cell.padEnd(widths[i])).join('  ').trimEnd());
writeFileSync(out, JSON.stringify({ rows }, null, 1) + '\n');

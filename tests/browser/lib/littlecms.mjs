// Colours through transicc, LittleCMS's own command (Debian's liblcms2-utils).
import {execFileSync} from 'node:child_process';

// RGB in and out 0..255, CMYK 0..100, Lab as it is. intent: 0 perceptual, 1 relative, 3 absolute.
export function convert(colours, from, to, intent, compensate = false) {
  const input = colours.map((colour) => colour.join(' ')).join('\n') + '\n';
  const options = ['-n', '-c0', `-t${intent}`, '-i', from, '-o', to, ...(compensate ? ['-b'] : [])];
  const output = execFileSync('transicc', options, {input, stdio: ['pipe', 'pipe', 'ignore']});
  const rows = output.toString().trim().split('\n').filter((line) => line.trim())
    .map((line) => line.trim().split(/\s+/).map(Number));
  if (rows.length !== colours.length) throw new Error(`transicc answered ${rows.length} colours`);
  return rows;
}

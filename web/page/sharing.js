// The two steps of a client's offer that only the page can do (shell/offering.cpp asks for them).
import {seal} from './seal.js';
import {phrase, said} from './words.js';

const NO_FILE = phrase('The file for a client could not be made: a part of the page did not arrive.');

const bytesOf = async ({blob}) => new Uint8Array(await blob.arrayBuffer());

export const pageWork = {
  // {"op":"seal","passphrase"} with the file "packed" -> buffer "packed", locked.
  async seal({passphrase}, {packed}) {
    const bytes = await seal(await bytesOf(packed), passphrase);
    return {json: '{"kind":"sealed"}', buffers: [{name: 'packed', bytes}]};
  },

  // {"op":"wrap","name"} with the file "letters": an offer's, base64url and nothing else -> saved as
  // a page of its own.
  async wrap({name}, {letters}, host) {
    const text = await letters.blob.text();
    const response = await fetch(new URL('client-file.html', import.meta.url)).catch(() => ({ok: false}));
    if (!response.ok || /[^\w-]/.test(text)) throw new Error(said(NO_FILE));
    const page = (await response.text()).replace('>OFFER<', () => `>${text}<`);
    host.saveText(name, 'text/html', page);
    return {json: '{"kind":"wrapped"}', buffers: []};
  },
};

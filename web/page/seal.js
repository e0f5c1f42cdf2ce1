// A passphrase on an offer (engine/share/offer.h has the layout): the browser's own Web Crypto.
//
//   version (2) | salt (16) | nonce (12) | AES-256-GCM (NIST SP 800-38D) of the offer
//
// The key is PBKDF2 (RFC 8018) with HMAC-SHA-256 of the passphrase in Unicode's form NFC; 600,000
// rounds as OWASP's Password Storage Cheat Sheet asks for (value from memory).
import {phrase, said} from './words.js';

const VERSION = 2, SALT = 16, NONCE = 12, ROUNDS = 600000;

const NO_CRYPTO = phrase('This browser only locks and unlocks on pages it holds safe (https, or a file on ' +
    'this machine). This page is not one of them.');
const WRONG = phrase('This passphrase does not open it. Capital letters and spaces count.');

async function keyOf(passphrase, salt) {
  if (!globalThis.crypto?.subtle) throw new Error(said(NO_CRYPTO));
  const words = new TextEncoder().encode(passphrase.normalize('NFC'));
  const material = await crypto.subtle.importKey('raw', words, 'PBKDF2', false, ['deriveKey']);
  return crypto.subtle.deriveKey({name: 'PBKDF2', hash: 'SHA-256', salt, iterations: ROUNDS}, material,
      {name: 'AES-GCM', length: 256}, false, ['encrypt', 'decrypt']);
}

// Locked bytes of an offer's; throws an Error whose message a person understands, as unseal() does.
export async function seal(bytes, passphrase) {
  const salt = crypto.getRandomValues(new Uint8Array(SALT));
  const iv = crypto.getRandomValues(new Uint8Array(NONCE));
  const key = await keyOf(passphrase, salt);
  const locked = await crypto.subtle.encrypt({name: 'AES-GCM', iv}, key, bytes);
  return new Uint8Array(await new Blob([Uint8Array.of(VERSION), salt, iv, locked]).arrayBuffer());
}

export async function unseal(sealed, passphrase) {
  const salt = sealed.slice(1, 1 + SALT), iv = sealed.slice(1 + SALT, 1 + SALT + NONCE);
  const key = await keyOf(passphrase, salt);
  try {
    return new Uint8Array(await crypto.subtle.decrypt({name: 'AES-GCM', iv}, key, sealed.slice(1 + SALT + NONCE)));
  } catch {
    throw new Error(said(WRONG));
  }
}

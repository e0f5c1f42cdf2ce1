// Looks through a folder for papers' profiles, which are known by their content.

const MOST_FILES = 500;
const DEEPEST = 8;
const LARGEST = 32 << 20;  // [bytes]
const HEADER = 128;        // [bytes] of an ICC profile, ICC.1:2022 7.2
const SIGNATURE_AT = 36;   // 'acsp'

async function isProfile(file) {
  if (file.size < HEADER || file.size > LARGEST) return false;
  try {
    return await file.slice(SIGNATURE_AT, SIGNATURE_AT + 4).text() === 'acsp';
  } catch {
    return false;  // it went away, or may not be read
  }
}

// A reader answers a part of a folder at a time, and nothing once it is through.
async function* entriesIn(folder) {
  const reader = folder.createReader();
  for (;;) {
    const part = await new Promise((resolve) => reader.readEntries(resolve, () => resolve([])));
    if (!part.length) return;
    yield* part;
  }
}

async function* filesIn(folder, depth = 0) {
  for await (const entry of entriesIn(folder)) {
    if (entry.isDirectory && depth < DEEPEST) yield* filesIn(entry, depth + 1);
    else if (entry.isFile) {
      const file = await new Promise((resolve) => entry.file(resolve, () => resolve(null)));
      if (file) yield file;
    }
  }
}

async function profilesAmong(name, files) {
  const found = {name, profiles: [], cut: false};
  let count = 0;
  for await (const file of files) {
    if (++count > MOST_FILES) {
      found.cut = true;
      break;
    }
    if (await isProfile(file)) found.profiles.push(file);
  }
  return found;
}

// Both answer {name, profiles: [File], cut: whether files were left unseen}.
export const lookThrough = (entry) => profilesAmong(entry.name, filesIn(entry));
export const lookThroughPicked = (files) =>
  profilesAmong(files[0]?.webkitRelativePath.split('/')[0] ?? '', files);

// What a drop carries: plain files, and folders as entries. Must be called within the event.
export function sorted({items, files}) {
  const folders = [], plain = [];
  for (const item of items) {
    if (item.kind !== 'file') continue;
    const entry = item.webkitGetAsEntry?.();
    if (entry?.isDirectory) folders.push(entry);
    else plain.push(item.getAsFile());
  }
  return folders.length ? {files: plain.filter(Boolean), folders} : {files: [...files], folders};
}

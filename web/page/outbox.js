// Where deliveries go: into a folder of the person's, where the browser can write into one and one was
// chosen; else each is offered as a download.

const MOST_NAMES = 10000;

export function offer(blob, name) {
  const link = document.createElement('a');
  link.href = URL.createObjectURL(blob);
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 60000);
}

async function namesIn(folder) {
  const names = [];
  for await (const name of folder.keys()) {
    if (names.push(name) === MOST_NAMES) break;
  }
  return names;
}

// A file that is there is never written to. Answers what became of it.
async function writeInto(folder, blob, name) {
  if (await folder.getFileHandle(name).then(() => true, () => false)) return 'exists';
  const file = await folder.getFileHandle(name, {create: true});
  try {
    const stream = await file.createWritable();
    await stream.write(blob);
    await stream.close();
    if ((await file.getFile()).size === blob.size) return 'saved';
  } catch {
    // The disk is full, or the folder went away.
  }
  await folder.removeEntry(name).catch(() => {});
  return 'refused';
}

export class Outbox {
  // tell: {deliveryFolder(name, names as JSON, refused), saved(name, outcome)}
  constructor(tell) {
    this.tell = tell;
    this.folder = null;
  }

  get folders() { return 'showDirectoryPicker' in window; }

  async choose() {
    try {
      const folder = await window.showDirectoryPicker({id: 'print-files', mode: 'readwrite'});
      const names = await namesIn(folder);
      this.folder = folder;
      this.tell.deliveryFolder(folder.name || 'chosen', JSON.stringify(names), false);
    } catch (error) {
      if (error?.name === 'AbortError') return;  // put away without choosing
      this.leave();
      this.tell.deliveryFolder('', '[]', true);
    }
  }

  leave() { this.folder = null; }

  async save(blob, name) {
    if (!this.folder) return offer(blob, name);
    this.tell.saved(name, await writeInto(this.folder, blob, name).catch(() => 'refused'));
  }
}

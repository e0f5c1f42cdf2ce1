// A file's bytes that come while those before them are worked on. A worker that reads at once, as the
// module does, waits for the browser each time; a stream is filled meanwhile, on another core.
class Ahead {
  // file: its number; from: the place in it to begin at [bytes].
  constructor(file, blob, from) {
    this.file = file;
    this.stream = blob.slice(from).stream().getReader();
    this.from = from;  // where `part` lies in the file
    this.part = new Uint8Array(0);
    this.over = false;
  }

  get end() { return this.from + this.part.length; }

  leadsTo(place) { return !this.over && place >= this.from && place <= this.end; }

  // Resolves once the byte at this place is there, or none will come: the file's end, or it went away.
  async come(place) {
    try {
      while (place >= this.end && !this.over) {
        const {done, value} = await this.stream.read();
        this.over = done;
        if (value) this.turnTo(value);
      }
    } catch {
      this.over = true;  // reading at once finds the same, and has words for it
    }
  }

  turnTo(part) {
    this.from = this.end;
    if (this.part.length) discard(this.part);  // worker.js
    this.part = part;
  }

  // Copies what is there from `offset` on; answers how many bytes, or 0.
  take(offset, into) {
    if (offset < this.from || offset >= this.end) return 0;
    const there = this.part.subarray(offset - this.from, offset - this.from + into.length);
    into.set(there);
    return there.length;
  }

  stop() { this.stream.cancel().catch(() => {}); }
}

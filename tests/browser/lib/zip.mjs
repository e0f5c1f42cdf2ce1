// A zip file, written byte by byte (PKWARE APPNOTE 6.3): stored entries with their checksums.
import {checksum} from './spots.mjs';

export function zip(files) {
  const parts = [], directory = [];
  let offset = 0;
  for (const {name, bytes} of files) {
    const title = Buffer.from(name);
    const common = Buffer.alloc(26);  // from "version needed" to "extra length"
    common.writeUInt16LE(20, 0);
    common.writeUInt32LE(checksum(bytes), 10);
    common.writeUInt32LE(bytes.length, 14);
    common.writeUInt32LE(bytes.length, 18);
    common.writeUInt16LE(title.length, 22);
    const rest = Buffer.alloc(14);
    rest.writeUInt32LE(offset, 10);
    directory.push(Buffer.from([0x50, 0x4B, 1, 2, 20, 0]), common, rest, title);
    const local = Buffer.concat([Buffer.from([0x50, 0x4B, 3, 4]), common, title, bytes]);
    parts.push(local);
    offset += local.length;
  }
  const list = Buffer.concat(directory);
  const end = Buffer.alloc(22);
  end.set([0x50, 0x4B, 5, 6]);
  end.writeUInt16LE(files.length, 8);
  end.writeUInt16LE(files.length, 10);
  end.writeUInt32LE(list.length, 12);
  end.writeUInt32LE(offset, 16);
  return Buffer.concat([...parts, list, end]);
}

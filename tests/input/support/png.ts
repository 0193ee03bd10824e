/** A PNG whose header claims a size; there are no pixels behind it. */
export function pngThatClaims(width: number, height: number): Buffer {
  const header = Buffer.alloc(13);
  header.writeUInt32BE(width, 0);
  header.writeUInt32BE(height, 4);
  header.set([8, 2, 0, 0, 0], 8);
  const signature = Buffer.from('89504e470d0a1a0a', 'hex');
  return Buffer.concat([signature, pngChunk('IHDR', header), pngChunk('IDAT', Buffer.from('789c', 'hex'))]);
}

function pngChunk(type: string, content: Buffer): Buffer {
  const chunk = Buffer.alloc(12 + content.length);
  chunk.writeUInt32BE(content.length, 0);
  chunk.write(type, 4, 'latin1');
  content.copy(chunk, 8);
  chunk.writeUInt32BE(crc32(chunk.subarray(4, 8 + content.length)), 8 + content.length);
  return chunk;
}

/** PNG specification, annex D. */
function crc32(bytes: Buffer): number {
  let crc = 0xffffffff;
  for (const byte of bytes) {
    crc ^= byte;
    for (let bit = 0; bit < 8; bit++) crc = (crc >>> 1) ^ (crc & 1 ? 0xedb88320 : 0);
  }
  return (crc ^ 0xffffffff) >>> 0;
}

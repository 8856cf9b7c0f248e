/** Characters in one write: few calls to the system, little memory. */
const CHUNK = 65_536;

/** Joins small pieces of text to chunks worth writing; bytes go as they come. */
export function* inChunks(pieces: Iterable<string | Uint8Array>): Generator<string | Uint8Array> {
  let chunk = '';
  for (const piece of pieces) {
    if (typeof piece === 'string') chunk += piece;
    if (chunk !== '' && (chunk.length >= CHUNK || typeof piece !== 'string')) {
      yield chunk;
      chunk = '';
    }
    if (typeof piece !== 'string') yield piece;
  }
  if (chunk !== '') yield chunk;
}

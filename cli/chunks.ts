/** Characters in one write: few calls to the system, little memory. */
const CHUNK = 65_536;

/** Joins small pieces of text to chunks worth writing. */
export function* inChunks(pieces: Iterable<string>): Generator<string> {
  let chunk = '';
  for (const piece of pieces) {
    chunk += piece;
    if (chunk.length < CHUNK) continue;
    yield chunk;
    chunk = '';
  }
  if (chunk !== '') yield chunk;
}

/** Typed columns as text: base64 of little-endian arrays, the same bytes on every machine. */

type Column = Uint8Array | Float32Array;

const LITTLE_ENDIAN = new Uint8Array(new Uint16Array([1]).buffer)[0] === 1;

/** Bytes of a column, four for each number of a Float32Array, lowest byte first. */
function littleEndianBytes(column: Column): Buffer {
  const bytes = Buffer.from(column.buffer, column.byteOffset, column.byteLength);
  return LITTLE_ENDIAN || column.BYTES_PER_ELEMENT === 1 ? bytes : Buffer.from(bytes).swap32();
}

export function encodeColumn(column: Column): string {
  return littleEndianBytes(column).toString('base64');
}

export function decodeBytes(text: string): Uint8Array {
  return new Uint8Array(Buffer.from(text, 'base64'));
}

/** NaN where the event never came. */
export function decodeNumbers(text: string): Float32Array {
  const bytes = Buffer.from(text, 'base64');
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  return Float32Array.from({ length: Math.floor(bytes.length / 4) }, (_, index) => view.getFloat32(4 * index, true));
}

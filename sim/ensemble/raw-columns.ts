/** Typed columns are written as text: base64 of little-endian arrays, the same bytes on every machine. */

type Column = Uint8Array | Uint32Array | Float32Array;

const LITTLE_ENDIAN = new Uint8Array(new Uint16Array([1]).buffer)[0] === 1;

/** Bytes of a column, four for each number of 32 bits, lowest byte first. */
export function littleEndianBytes(column: Column): Buffer {
  const bytes = Buffer.from(column.buffer, column.byteOffset, column.byteLength);
  return LITTLE_ENDIAN || column.BYTES_PER_ELEMENT === 1 ? bytes : Buffer.from(bytes).swap32();
}

export function encodeColumn(column: Column): string {
  return littleEndianBytes(column).toString('base64');
}

type Encoded<T> = { readonly [K in keyof T]: T[K] extends Column ? string : T[K] };

/**
 * The same entries with columns as texts, each made when it is read: all texts at once would take more memory than the
 * columns themselves.
 */
export function encodedOnReading<T extends object>(entries: T): Encoded<T> {
  const encoded = {};
  for (const [name, value] of Object.entries(entries)) {
    const isColumn = value instanceof Uint8Array || value instanceof Float32Array;
    Object.defineProperty(encoded, name, { enumerable: true, get: () => (isColumn ? encodeColumn(value) : value) });
  }
  return encoded as Encoded<T>;
}

export function decodeBytes(text: string): Uint8Array {
  return new Uint8Array(Buffer.from(text, 'base64'));
}

/** NaN where the event never came. */
export function decodeNumbers(text: string): Float32Array {
  return numbersFrom(Buffer.from(text, 'base64'));
}

/** Numbers of 32 bits from their bytes, lowest byte first; a copy. */
export function numbersFrom(bytes: Uint8Array): Float32Array {
  const whole = bytes.length - (bytes.length % 4);
  if (LITTLE_ENDIAN) return new Float32Array(Uint8Array.from(bytes.subarray(0, whole)).buffer);
  const view = new DataView(bytes.buffer, bytes.byteOffset, whole);
  return Float32Array.from({ length: Math.floor(bytes.length / 4) }, (_, index) => view.getFloat32(4 * index, true));
}

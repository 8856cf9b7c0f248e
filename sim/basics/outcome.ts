/** Expected trouble with somebody's data is data: a value, or sentences that say what is wrong and what to write instead. */
export type Evidence<T> = { readonly status: 'ok'; readonly value: T } | Refused;

export interface Refused {
  readonly status: 'refused';
  readonly messages: readonly string[];
}

export function found<T>(value: T): Evidence<T> {
  return { status: 'ok', value };
}

export function refuse(...messages: readonly string[]): Refused {
  return { status: 'refused', messages };
}

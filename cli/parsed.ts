/** Expected trouble is data: a value, or plain sentences that say what to write instead. */
export type Parsed<T> = { readonly status: 'ok'; readonly value: T } | Refusal;

export interface Refusal {
  readonly status: 'refused';
  readonly messages: readonly string[];
}

export function ok<T>(value: T): Parsed<T> {
  return { status: 'ok', value };
}

export function refused(...messages: readonly string[]): Refusal {
  return { status: 'refused', messages };
}

type Values<P> = { readonly [K in keyof P]: P[K] extends Parsed<infer T> ? T : never };

/** All values together, or the messages of all that were refused, so that one run shows every mistake. */
export function together<P extends Readonly<Record<string, Parsed<unknown>>>>(parts: P): Parsed<Values<P>> {
  const messages = Object.values(parts).flatMap((part) => (part.status === 'refused' ? part.messages : []));
  if (messages.length > 0) return refused(...messages);
  const values = Object.entries(parts).map(([name, part]) => [name, part.status === 'ok' ? part.value : undefined]);
  return ok(Object.fromEntries(values) as Values<P>);
}

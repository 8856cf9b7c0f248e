/** What an option or a file comes to: a value, or plain sentences that say what to write instead. The shape is that of `sim`. */
import { type Evidence, found, refuse } from '../../sim/basics/outcome.js';

export type Parsed<T> = Evidence<T>;
export type { Refused as Refusal } from '../../sim/basics/outcome.js';

export { found as ok, refuse as refused };

type Values<P> = { readonly [K in keyof P]: P[K] extends Parsed<infer T> ? T : never };

/** All values together, or the messages of all that were refused, so that one run shows every mistake. */
export function together<P extends Readonly<Record<string, Parsed<unknown>>>>(parts: P): Parsed<Values<P>> {
  const messages = Object.values(parts).flatMap((part) => (part.status === 'refused' ? part.messages : []));
  if (messages.length > 0) return refuse(...messages);
  const values = Object.entries(parts).map(([name, part]) => [name, part.status === 'ok' ? part.value : undefined]);
  return found(Object.fromEntries(values) as Values<P>);
}

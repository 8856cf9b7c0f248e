/**
 * What comes of a question that may be refused. Expected trouble with somebody's data or words is data: an answer, or
 * sentences that say what is wrong and what to write instead.
 */
export type Answer<T> = Ok<T> | Refused;

export interface Ok<T> {
  readonly status: 'ok';
  readonly value: T;
}

export interface Refused {
  readonly status: 'refused';
  /** Whole sentences, at least one. */
  readonly messages: readonly string[];
}

export function ok<T>(value: T): Ok<T> {
  return { status: 'ok', value };
}

export function refused(...messages: readonly string[]): Refused {
  return { status: 'refused', messages };
}

/** The same answer; what refuses it says first what it is about, such as "--rows: " or a file. */
export function prefixed<T>(prefix: string, answer: Answer<T>): Answer<T> {
  return answer.status === 'ok' ? answer : refused(...answer.messages.map((message) => prefix + message));
}

type Values<P> = { readonly [K in keyof P]: P[K] extends Answer<infer T> ? T : never };

/** The values of all answers by name, or the messages of all that were refused, so that one run shows every mistake. */
export function together<P extends Readonly<Record<string, Answer<unknown>>>>(answers: P): Answer<Values<P>> {
  const messages = Object.values(answers).flatMap((answer) => (answer.status === 'refused' ? answer.messages : []));
  if (messages.length > 0) return refused(...messages);
  const values = Object.entries(answers).map(([name, answer]) => [name, answer.status === 'ok' && answer.value]);
  return ok(Object.fromEntries(values) as Values<P>);
}

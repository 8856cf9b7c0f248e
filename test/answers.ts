/** What tests take out of answers. */

import type { Refused } from '../sim/basics/answer.js';
import type { StudyAnswer } from '../sim/ensemble/study-answer.js';

/** The value of an answer; where there is none, the test ends with what is there instead. */
export function answered<T>(answer: StudyAnswer<T>): T {
  if (answer.status === 'ok') return answer.value;
  throw new Error(answer.status === 'refused' ? answer.messages.join('\n') : answer.status);
}

/** The sentences of an answer that must be refused. */
export function refusalOf(answer: StudyAnswer<unknown>): Refused['messages'] {
  if (answer.status === 'refused') return answer.messages;
  throw new Error(`not refused: ${answer.status}`);
}

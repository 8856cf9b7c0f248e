/** The caution that stands under every printed answer. */
import { CAUTION } from '../../sim/basics/caution.js';
import { wrapped } from './layout.js';

export const CAUTION_LINES: readonly string[] = ['', ...wrapped(CAUTION.replaceAll('\u2019', "'"))];

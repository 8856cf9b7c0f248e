/**
 * Paths into a scenario ("can.mass"), as types made from the definition: a path that the definition does not have does
 * not compile.
 */
import type { SCENARIO } from './definition.js';

/** Paths to all entries of a kind among the entries of a section, sections inside it included. */
type PathsTo<Kind, Entries, Before extends string = ''> = {
  [Key in keyof Entries & string]:
    | (Entries[Key] extends Kind ? `${Before}${Key}` : never)
    | (Entries[Key] extends { readonly shape: 'section'; readonly entries: infer Inner }
        ? PathsTo<Kind, Inner, `${Before}${Key}.`>
        : never);
}[keyof Entries & string];

type PathTo<Kind> = PathsTo<Kind, (typeof SCENARIO)['entries']>;

/** An input: a quantity or a chance. */
export type InputPath = PathTo<{ readonly shape: 'quantity' | 'chance' }>;
/** An input that is decided and never uncertain: a choice of the team, a limit, a rule. */
export type DecidedPath = PathTo<{ readonly shape: 'quantity'; readonly fixed: true }>;
/** A choice, a text, a table or a list. */
export type SettingPath = PathTo<{ readonly shape: 'choice' | 'text' | 'table' | 'list' }>;
/** Numbers of luck, which no file can set. */
export type LuckPath = PathTo<{ readonly shape: 'luck' }>;
/** Any entry that holds a value itself. */
export type LeafPathName = InputPath | SettingPath | LuckPath;
/** A section that a scenario may leave out. */
export type OptionalSectionPath = PathTo<{ readonly shape: 'section'; readonly optional: true }>;

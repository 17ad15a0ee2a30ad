/** The fields in the lists for the venue: lines of the input list, monitor mixes, cable runs, what the venue provides. */
import type { Channel } from '../../../lists/inputList.ts';
import type { SetLists } from '../../../plan/commands/lists.ts';
import {
  type Cable,
  cableSchema,
  type Input,
  inputSchema,
  type Mix,
  mixSchema,
  setupSchema,
} from '../../../plan/schema.ts';
import type { Choice, FieldTable } from '../fields/rows.ts';
import { changed } from './listEdits.ts';

/** A line of a list. */
export interface LineHere<T> {
  readonly setupId: string;
  /** The list as it stands at the moment of a change. */
  readonly list: () => readonly T[];
  /** From 0. */
  readonly at: number;
}

const setLists = ({ setupId }: { readonly setupId: string }, set: SetLists['set']): SetLists => ({
  type: 'setLists',
  setup: setupId,
  set,
});

/** The list with one field of one line changed; null takes it away. */
const changedIn = <T extends { readonly id: string }>(
  here: LineHere<T>,
  id: string,
  key: string,
  value: unknown,
): T[] => changed(here.list(), id, { [key]: value ?? undefined } as Partial<T>);

export interface ChannelHere extends LineHere<Input> {
  readonly channel: Channel;
  readonly pieces: readonly Choice[];
  /** Ids of the datalists. */
  readonly words: Readonly<Record<'device' | 'stand', string>>;
}

export const INPUT = {
  schema: inputSchema,
  record: ({ channel }) => channel,
  write: (here, [key], value) => setLists(here, { inputs: changedIn(here, here.channel.id, key, value) }),
  sections: {
    line: [
      { as: 'words', path: 'source', label: 'Source', mayBeEmpty: true },
      { as: 'choice', path: 'piece', label: 'Takes', choices: ({ pieces }) => pieces },
      {
        as: 'choice',
        path: 'by',
        label: 'By',
        choices: () => [
          { id: 'microphone', label: 'Microphone' },
          { id: 'di', label: 'DI' },
          { id: 'line', label: 'Line' },
        ],
      },
      { as: 'words', path: 'device', label: 'Microphone or DI', suggestions: ({ words }) => words.device },
      { as: 'words', path: 'stand', label: 'Stand', suggestions: ({ words }) => words.stand },
      { as: 'tick', path: 'phantom', label: 'Phantom power', head: '48 V' },
      { as: 'words', path: 'note', label: 'Note' },
    ],
  },
} satisfies FieldTable<ChannelHere>;

export interface MixHere extends LineHere<Mix> {
  readonly mix: Mix;
}

export const MIX = {
  schema: mixSchema,
  record: ({ mix }) => mix,
  write: (here, [key], value) => setLists(here, { mixes: changedIn(here, here.mix.id, key, value) }),
  sections: {
    line: [
      { as: 'words', path: 'name', label: 'For', mayBeEmpty: true },
      {
        as: 'choice',
        path: 'by',
        label: 'By',
        choices: () => [
          { id: 'wedge', label: 'Wedge' },
          { id: 'inEar', label: 'In ear' },
        ],
      },
      { as: 'words', path: 'wants', label: 'Wants to hear' },
    ],
  },
} satisfies FieldTable<MixHere>;

export interface CableHere extends LineHere<Cable> {
  readonly cable: Cable;
}

export const setCable = (here: CableHere, change: Partial<Cable>): SetLists =>
  setLists(here, { cables: changed(here.list(), here.cable.id, change) });

export const CABLE = {
  schema: cableSchema,
  record: ({ cable }) => cable,
  write: (here, [key], value) => setCable(here, { [key]: value }),
  sections: { run: [{ as: 'words', path: 'note', label: 'Note' }] },
} satisfies FieldTable<CableHere>;

/** A line is words and nothing else: its place in the list is all it is known by. */
export interface VenueHere extends LineHere<string> {
  readonly line: string;
}

export const VENUE_LINE = {
  schema: setupSchema,
  record: () => ({}),
  write: (here, _, value) => setLists(here, { venueProvides: here.list().toSpliced(here.at, 1, value as string) }),
  sections: {
    line: [
      {
        as: 'words',
        path: 'venueProvides',
        label: 'The venue provides',
        mayBeEmpty: false,
        value: ({ line }) => line,
      },
    ],
  },
} satisfies FieldTable<VenueHere>;

/** Every command, and the rule of each. A new command is one interface, one rule, and one line of laws in the tests. */
import { type DocumentCommand, documentRules } from './document.ts';
import { type DrummerCommand, drummerRules } from './drummers.ts';
import { type SetLists, setLists } from './lists.ts';
import { type MirrorSetup, mirrorSetup } from './mirror.ts';
import { type PieceCommand, pieceRules } from './pieces.ts';
import { type RackPartCommand, rackPartRules } from './rackParts.ts';
import { type RackShapeCommand, rackShapeRules } from './rackShape.ts';
import { type RiserCommand, riserRules } from './risers.ts';
import type { RulesOf } from './rule.ts';
import { type SetupCommand, setupRules } from './setups.ts';
import { type StageCommand, stageRules } from './stages.ts';

/** A command that changes one thing. */
export type SingleCommand =
  | PieceCommand
  | RackPartCommand
  | RackShapeCommand
  | SetupCommand
  | MirrorSetup
  | SetLists
  | RiserCommand
  | StageCommand
  | DrummerCommand
  | DocumentCommand;

/** Several in turn, all or none, undone as one. */
export interface Many {
  readonly type: 'many';
  readonly commands: readonly SingleCommand[];
}

export type Command = SingleCommand | Many;

export const RULES: Readonly<RulesOf<SingleCommand>> = {
  ...pieceRules,
  ...rackPartRules,
  ...rackShapeRules,
  ...setupRules,
  mirrorSetup,
  setLists,
  ...riserRules,
  ...stageRules,
  ...drummerRules,
  ...documentRules,
};

/** The shapes that cross to the core and back. The page knows no stage, field or figure by name. */

export type Units = "mm" | "inch";

export interface Pair {
  readonly mm: string;
  readonly inch: string;
}

export interface Piece {
  readonly name: string;
  readonly shape: string;
  readonly size: string;
  readonly measured: string;
  readonly give: string;
  readonly count: string;
}

export const PIECE_KEYS = ["name", "shape", "size", "measured", "give", "count"] as const;
export type PieceKey = (typeof PIECE_KEYS)[number];

/** A piece as the core tells it, where a count may be a number, as the page holds it: all texts. */
export function readPiece(raw: Readonly<Record<string, unknown>>): Piece {
  return Object.fromEntries(PIECE_KEYS.map((key) => [key, String(raw[key] ?? "")])) as unknown as Piece;
}

export interface Fault {
  readonly message: string;
  readonly text: string;
  /** Counted in characters as Python counts them (code points), not in UTF-16 units. */
  readonly start: number;
  readonly end: number;
  readonly way_out: string;
  readonly offers?: readonly string[];
}

export interface Choice {
  readonly value: string;
  readonly label: string;
}

export interface Field {
  readonly id: string;
  readonly label: string;
  readonly kind: string;
  readonly value?: string;
  readonly default?: string;
  readonly unit?: string;
  readonly choices?: readonly Choice[];
  readonly help?: string;
  readonly read?: string;
  readonly wrong?: Fault | null;
  readonly rows?: readonly (readonly Field[])[];
  /** Fields of one group stand folded under its name. */
  readonly group?: string;
  /** Whose answer it is: the job's; the shop's, which stays from job to job; or the part's in hand, measured while it is made. */
  readonly belongs?: string;
}

export interface Working {
  readonly formula: string;
  readonly numbers?: Pair;
  readonly note?: string;
}

export interface Cell extends Pair {}

export interface Row {
  readonly cells: readonly Cell[];
  readonly best?: boolean;
}

export interface Table {
  readonly columns: readonly string[];
  readonly rows: readonly Row[];
}

export interface Figure {
  readonly id: string;
  readonly label: string;
  readonly value?: unknown;
  readonly shown?: Pair;
  readonly plus_minus_shown?: Pair;
  readonly working?: readonly Working[];
  readonly source?: string;
  readonly lead?: boolean;
  readonly table?: Table | null;
  readonly drawing?: string;
  /** Keys of a table's rows that are worked out on request only, one key a row. */
  readonly later?: readonly string[];
}

export interface Caution {
  readonly level: string;
  readonly text: string;
  readonly reason?: string;
  /** The hazard's name, by which a step points at it. */
  readonly id?: string;
}

/** One thing to do at the machine, with what to look at and what to enter while doing it. */
export interface Step {
  readonly id: string;
  readonly phase: string;
  readonly text: Pair;
  /** Hazards of this step: ids of cautions. */
  readonly cautions?: readonly string[];
  /** Entries to be filled in at this moment. */
  readonly asks?: readonly string[];
  /** Figures to have in sight. */
  readonly shows?: readonly string[];
  readonly drawing?: string;
  /** Entries as they are for the next cut: with this step what was seen of the last is remembered and put away. */
  readonly renews?: Readonly<Record<string, string>>;
}

/** What the first screen shows: ids of figures, and a few words that the core has made short. */
export interface Glance {
  readonly title: Pair;
  /** How a set-up of it is called until the person calls it otherwise. */
  readonly name?: string;
  readonly lead: string;
  readonly label: Pair;
  readonly words: readonly Pair[];
  readonly stack: string;
  readonly rows: readonly { readonly figure: string; readonly label: Pair; readonly text: Pair }[];
  /** One line, where there is something to do. */
  readonly danger: string;
  /** The step that sets the number, where it is not the setting itself. */
  readonly step?: string;
  /** The entry to be filled in or mended before there is a number. */
  readonly wants: string;
}

export interface Stage {
  readonly id: string;
  readonly title: string;
  readonly line?: string;
  readonly fields?: readonly Field[];
  readonly figures?: readonly Figure[];
  readonly steps?: readonly Step[];
  readonly cautions?: readonly Caution[];
  readonly drawing?: string;
}

export interface Problem {
  readonly id: string;
  readonly message: string;
  readonly way_out?: string;
}

/** What the core answers when it is asked for some of a table's later rows. */
export interface LaterRows {
  readonly rows: readonly Row[];
  readonly problems: readonly Problem[];
}

/** What the core answers. */
export interface Sheet {
  readonly format: number;
  readonly units: Units;
  readonly stages: readonly Stage[];
  readonly problems: readonly Problem[];
  readonly entries: Readonly<Record<string, string>>;
  /** Defaults that stand for empty entries and would be others in the other system, units spelled out. */
  readonly defaults: Readonly<Record<string, string>>;
  readonly drawer: readonly Piece[];
  /** What was seen of the cut, with every unit spelled out. */
  readonly observations?: readonly Readonly<Record<string, string>>[];
  /** The steps of all stages in the order of doing. */
  readonly route?: readonly Step[];
  /** What holds for the whole job. */
  readonly cautions?: readonly Caution[];
  readonly glance?: Glance | null;
  /** What this cut was set to and showed, for the core to learn from later. */
  readonly record?: unknown;
}

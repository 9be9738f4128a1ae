/** A job that was on the page, as the text after "#". */
export interface LastJob {
  /** Names the job through all its changes: what is typed changes its place in the list and adds none. */
  readonly id: string;
  readonly hash: string;
  /** Its answer in one line, as it stood then; empty where none had come. */
  readonly title: string;
  /** When it was last changed [ms]. */
  readonly at: number;
}

/** What every command on jobs takes. */
import type { RecordsOptions } from '../terminal/open-records.ts';

export interface JobsOptions extends RecordsOptions {
  /** Folder of the list. */
  readonly jobs: string;
}

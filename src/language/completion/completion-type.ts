/** A completion. */
export interface Completion {
  readonly label: string;
  readonly kind: 'cell' | 'key' | 'name' | 'word' | 'unit' | 'value';
  /** Replaces the file's text from `start` to `end`; a snippet if `isSnippet`. */
  readonly start: number;
  readonly end: number;
  readonly text: string;
  readonly isSnippet: boolean;
  /** One line. */
  readonly detail?: string;
  /** Markdown. */
  readonly documentation?: string;
}

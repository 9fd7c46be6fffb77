/** What the doctor says about one thing. */
export interface Finding {
  readonly about: string;
  /** `well`; `note`: works, but something is worth knowing or doing; `ill`: part of the program cannot work. */
  readonly state: 'well' | 'note' | 'ill';
  /** What was found, in a few words. */
  readonly found: string;
  /** What to do about it. */
  readonly remedy?: string;
}

export const well = (about: string, found: string): Finding => ({ about, state: 'well', found });
export const note = (about: string, found: string, remedy?: string): Finding => ({
  about,
  state: 'note',
  found,
  ...(remedy === undefined ? {} : { remedy }),
});
export const ill = (about: string, found: string, remedy: string): Finding => ({ about, state: 'ill', found, remedy });

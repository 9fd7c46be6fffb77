/** A place where bars stop following each other every `beatsPerBar` beats. */
export interface BarJump {
  /** The beat on which the bar after the odd one starts. */
  readonly beat: number;
  /** How much speaks for it, in nats: its log-odds. */
  readonly gain: number;
}

/** The likeliest first beats of bars. */
export interface BarPath {
  /** Indices of the beats on which bars start, ascending. */
  readonly starts: readonly number[];
  readonly jumps: readonly BarJump[];
}

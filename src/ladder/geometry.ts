import type { BarNumber, Change, Fraction, IrregularityKind, Layer, Seconds, SectionFunction } from '../units/index.js';

/** A rectangle; `x` and `y` are its upper left corner, y grows downwards, in the unit of the drawing. */
export interface Box {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

/** One bar of the track as a cell of its rung. Cells of a rung meet edge to edge; every bar is drawn exactly once. */
export interface BarCell extends Box {
  readonly bar: BarNumber;
  readonly start: Seconds;
  /** Start of what follows. */
  readonly end: Seconds;
  readonly beats: number;
  /** Fewer or more beats than the metre says, except where the track stops inside its last bar: its beats are marked. */
  readonly oddBeats: boolean;
  /** x of every beat of an odd bar after the first; empty otherwise. */
  readonly beatTicks: readonly number[];
  /** Place in its four-bar group, from 1; 1 carries the heavier line. */
  readonly groupBar: number;
  /** Beyond the length that the track's pattern gives this phrase. */
  readonly surplus: boolean;
  /** Counted through: no beat is heard here. */
  readonly beatless: boolean;
  /** A partial bar before the first one; it hangs out to the left of the edge. */
  readonly hanging: boolean;
}

/** How a layer shows in a run of bars: heard, heard faintly or now and then. Where it is absent nothing is drawn. */
export type Presence = 'present' | 'partly';

/** A layer over a run of bars that it shows in alike. */
export interface Strip extends Box {
  readonly layer: Layer;
  readonly presence: Presence;
  readonly firstBar: BarNumber;
  readonly lastBar: BarNumber;
}

/** The letter of a layer beside its lane; absent layers have none. */
export interface LaneLetter {
  readonly layer: Layer;
  readonly letter: string;
  readonly x: number;
  /** Baseline. */
  readonly y: number;
}

/** A phrase short of its usual length: the bars that are not there, as an open box. */
export interface OpenCell extends Box {
  /** Place in the phrase that it would have had, from 1. */
  readonly phraseBar: number;
}

/** An irregularity marked under the cells: a point (x1 = x2) at a bar line or a range. */
export interface RungMark {
  readonly kind: IrregularityKind;
  readonly bar: BarNumber;
  readonly x1: number;
  readonly x2: number;
  readonly y: number;
}

/** A piece of text; `y` is the baseline. */
export interface TextLine {
  readonly text: string;
  readonly x: number;
  readonly y: number;
  readonly size: number;
  readonly bold: boolean;
  readonly anchor: 'start' | 'middle' | 'end';
  /** What it is for: plain ink, less important, or an irregularity. */
  readonly role: 'ink' | 'muted' | 'accent';
  /** Follows the text before it on the same line; `x` is where it starts by the measure of the layout. */
  readonly joins?: boolean;
}

/** Layers that enter or leave together. */
export interface RungChange {
  readonly bar: BarNumber;
  /** Beat of the bar, from 1. */
  readonly beat: number;
  readonly change: Change;
  readonly layers: readonly Layer[];
  readonly doubtful: boolean;
}

/** One phrase, or one row of a phrase too long for one row. */
export interface Rung {
  readonly phrase: number;
  /** Row of the phrase, from 1, and how many rows it has. */
  readonly part: number;
  readonly parts: number;
  readonly function: SectionFunction | null;
  readonly sectionStart: boolean;
  /** A drop lands on the first beat of this rung. */
  readonly dropLands: boolean;
  readonly firstBar: BarNumber;
  readonly lastBar: BarNumber;
  readonly start: Seconds;
  /** The rung with everything that belongs to it. */
  readonly block: Box;
  /** The row of cells proper, from the left edge to the end of its last bar. */
  readonly row: Box;
  readonly cells: readonly BarCell[];
  readonly strips: readonly Strip[];
  readonly letters: readonly LaneLetter[];
  readonly open: readonly OpenCell[];
  /** x where the phrase ends against its pattern (too late or too early), or null. */
  readonly brokenEnd: number | null;
  readonly marks: readonly RungMark[];
  readonly changes: readonly RungChange[];
  /** Where the phrase starts is not sure. */
  readonly startDoubtful: boolean;
  readonly functionDoubtful: boolean;
  readonly texts: readonly TextLine[];
  /** x at which the longest line of remarks ends. */
  readonly textRight: number;
  /** The count over the bars: each bar's number in its group, where `LadderMetrics.count` asks for it. */
  readonly counts: readonly TextLine[];
}

/** What fits on one sheet. */
export interface LadderPage {
  readonly rungs: readonly Rung[];
  /** Height used. */
  readonly height: number;
  /** The ruled edge at the usual phrase length. */
  readonly ruledEdge: {
    readonly x: number;
    readonly segments: readonly { readonly y1: number; readonly y2: number }[];
  };
  /** Bar numbers of the phrase over the first rung. */
  readonly ruler: readonly TextLine[];
}

/** The whole drawing, ready to be drawn by any pen. */
export interface LadderGeometry {
  readonly width: number;
  readonly pages: readonly LadderPage[];
  /** x of the left edge, on which every phrase starts. */
  readonly leftEdge: number;
  /** Width of a bar of the usual number of beats. */
  readonly barWidth: number;
  readonly phraseBars: number;
  readonly beatsPerBar: number;
  /** Top of the drawing to bottom: voice, harmony, percussion, bass, kick; the floor lies at the bottom. */
  readonly lanes: readonly Layer[];
  /** Layers that could not be judged anywhere in the track. */
  readonly unjudged: readonly Layer[];
  readonly metrics: LadderMetrics;
}

/** Measures of the drawing, all in its own unit. */
export interface LadderMetrics {
  /** Height of a layer's lane. */
  readonly lane: number;
  /** Size of the small type: letters, times, captions. */
  readonly text: number;
  /** Size of the section's function. */
  readonly label: number;
  /** Distance of two baselines of small type. */
  readonly leading: number;
  /** Between two rungs; before a new section half as much more. */
  readonly gap: number;
  readonly labelWidth: number;
  readonly hairline: number;
  readonly heavy: number;
  /** Size of the count over the bars; 0 or nothing leaves it out. */
  readonly count?: number;
}

/** How wide a text is at a size, in the unit of the drawing. */
export type MeasureText = (text: string, size: number, bold: boolean) => number;

export interface LadderOptions {
  readonly width: number;
  /** Height of the first page; without it everything goes on one page as tall as needed. */
  readonly height?: number;
  /** Height of the pages after the first; default `height`. */
  readonly nextHeight?: number;
  readonly metrics?: LadderMetrics;
  readonly measure?: MeasureText;
  /** Decimals of the times beside the rungs; default 1. */
  readonly decimals?: number;
  /** From 0 to 1: presences from here count as heard, from half of it as heard partly. Default 0.5. */
  readonly presenceFrom?: Fraction;
}

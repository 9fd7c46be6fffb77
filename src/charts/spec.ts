/** Any value that JSON can carry. @public */
export type Json = string | number | boolean | null | readonly Json[] | { readonly [key: string]: Json };

/** A part of a chart: plain vega-lite JSON. @public */
export type SpecPart = { readonly [key: string]: Json };

/** A whole chart as vega-lite JSON, with its data inside: it can be stored, sent and drawn anywhere. @public */
export interface ChartSpec {
  readonly [key: string]: Json;
  readonly $schema: string;
  readonly description: string;
}

/** The version of the vega-lite grammar that the charts keep to: the one that notebook front ends draw. */
export const VEGA_LITE_SCHEMA = 'https://vega.github.io/schema/vega-lite/v5.json';

/** Whether a value is a chart made here or any other vega-lite specification. @public */
export function isChartSpec(value: unknown): value is ChartSpec {
  if (value === null || typeof value !== 'object' || !('$schema' in value)) return false;
  return typeof value.$schema === 'string' && value.$schema.includes('/vega-lite/');
}

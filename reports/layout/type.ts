/** Smallest type on paper, in points. */
export const SMALLEST_TYPE = 7;

/** Sizes of type on the smallest card, in points. */
export const TYPE = {
  title: 15,
  titleLeast: 11,
  figure: 18,
  figureLeast: 11,
  value: 9,
  heading: 8.5,
  body: 7.5,
  small: SMALLEST_TYPE,
} as const;

/** Distance of baselines as a share of the size. */
export const LEADING = 1.2;

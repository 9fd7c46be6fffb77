// AssemblyScript: logarithms and the like for the compiled loops, none of which the instance shows.

/** The engine's own: the last digits are those of plain code. */
@external('Math', 'exp')
export declare function exp(x: f64): f64;
@external('Math', 'log')
export declare function log(x: f64): f64;
@external('Math', 'cos')
export declare function cos(x: f64): f64;
@external('Math', 'sin')
export declare function sin(x: f64): f64;
@external('Math', 'pow')
export declare function pow(x: f64, y: f64): f64;

/** log10 of 2, in two parts of which the first has few digits: any exponent times it is exact. */
const TWO: f64 = 3.01029995663611771306e-1;
const REST: f64 = 3.69423907715893078616e-13;
/** 1 / ln 10 and 1 / ln 2. */
const PER_TEN: f64 = 4.34294481903251816668e-1;
const PER_TWO: f64 = 1.44269504088896340736;

/**
 * Logarithm to the base 10 of a normal number above 0. Asking the engine costs two objects a call; digit by digit it is what fdlibm gives
 * (Sun Microsystems, e_log10.c, whose constants these are): exponent and fraction apart.
 */
export function log10(x: f64): f64 {
  const bits = reinterpret<i64>(x);
  const exponent = <i32>(bits >> 52) - 1023;
  // Below 1 the fraction lies between ½ and 1, so that nothing is lost near 1.
  const below = exponent < 0 ? 1 : 0;
  const fraction = reinterpret<f64>((bits & 0x000fffffffffffff) | (<i64>(1023 - below) << 52));
  const y = <f64>(exponent + below);
  return y * REST + PER_TEN * log(fraction) + y * TWO;
}

/** Logarithm to the base 2. */
export function log2(x: f64): f64 {
  return log(x) * PER_TWO;
}

/** Length of a vector, as the engine's hypot gives it: nothing overflows, as both parts are taken over the larger one. */
export function hypot(x: f64, y: f64): f64 {
  const most = max(Math.abs(x), Math.abs(y));
  if (most === 0) return 0;
  const a = (x / most) * (x / most);
  const b = y / most;
  return Math.sqrt(a + b * b) * most;
}

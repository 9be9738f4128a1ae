/** Mulberry32: numbers from 0 up to 1, the same ones for the same seed. */
export function chance(seed: number): () => number {
  let state = seed;
  return () => {
    state = (state + 0x6d2b79f5) | 0;
    let one = Math.imul(state ^ (state >>> 15), 1 | state);
    one = (one + Math.imul(one ^ (one >>> 7), 61 | one)) ^ one;
    return ((one ^ (one >>> 14)) >>> 0) / 4294967296;
  };
}

// Names of matches without overlap: great ones first, each in the first lane that has room.
const SIGN = 8, EDGE = 14; // pixels a sign of 12 px type takes, and beside a name

export const width = (words) => Math.ceil(words.length * SIGN + EDGE);

// Put things with x and wide (pixels) in lanes; returns how many lanes there are.
export const laned = (things, total) => {
  const lanes = [];
  for (const thing of things) {
    const x = Math.max(0, Math.min(thing.x, total - thing.wide));
    let lane = lanes.findIndex((end) => end <= x);
    if (lane < 0) lane = lanes.push(0) - 1;
    lanes[lane] = x + thing.wide;
    thing.left = x;
    thing.lane = lane;
  }
  return lanes.length;
};

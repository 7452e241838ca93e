// How the openings follow on each other, counted as the stages of a plan are: whole ticks.
//
// A fall is {heights, step}: clear heights of a bay, lowest first, and the step of its marks.
// A group is {falls, rooms}: the different falls of bays that share lines, and the room over the
// tallest thing of each of their openings that holds any.

function sum(values) {
  return values.reduce((total, value) => total + value, 0);
}

function rangeOf(values) {
  return values.length ? Math.max(...values) - Math.min(...values) : 0;
}

/** Differences of all pairs. */
function pairsScore(values) {
  return sum(values.flatMap((one, at) => values.slice(at + 1).map((other) => Math.abs(one - other))));
}

/** How much lower each opening is than the one before it, from the end where the tallest is wished. */
function stepsOf(heights, upward) {
  const sign = upward ? -1 : 1;
  return heights.slice(1).map((height, at) => sign * (heights[at] - height));
}

/** Largest less smallest step; how far the steps are from the one that is wished, where one is. */
function steadyScore(heights, rhythm) {
  const steps = stepsOf(heights, rhythm.upward);
  if (rhythm.step === null) return rangeOf(steps);
  return sum(steps.map((step) => Math.abs(step - rhythm.step)));
}

/** Differences of openings that mirror each other, beyond one step of the marks. */
function symmetricScore({ heights, step }) {
  const half = heights.slice(0, Math.floor(heights.length / 2));
  return sum(half.map((height, k) => Math.max(0, Math.abs(height - heights[heights.length - 1 - k]) - step)));
}

/** The value of the option's stage of rhythm, summed over its groups. */
function rhythmScore(rhythm, groups) {
  const falls = groups.flatMap((group) => group.falls);
  if (rhythm.stage === "to-fit") return sum(groups.map((group) => pairsScore(group.rooms)));
  if (rhythm.stage === "symmetric") return sum(falls.map(symmetricScore));
  if (rhythm.stage === "even") return sum(falls.map((fall) => pairsScore(fall.heights)));
  return sum(falls.map((fall) => steadyScore(fall.heights, rhythm)));
}

/** How many pairs a score of all pairs is the sum of. */
function pairsCount(rhythm, groups) {
  const of = (values) => (values.length * (values.length - 1)) / 2;
  if (rhythm.stage === "to-fit") return sum(groups.map((group) => of(group.rooms)));
  return sum(groups.flatMap((group) => group.falls.map((fall) => of(fall.heights))));
}

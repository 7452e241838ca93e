// The rhythm scores, by the definitions of solver/layout/rhythm_scores.py, in exact fractions of ticks:
// pairs [numerator, denominator] of whole numbers that JavaScript counts exactly (BigInt).

function fraction(over, under) {
  return under < 0n ? [-over, -under] : [over, under];
}

function added(a, b) {
  return [a[0] * b[1] + b[0] * a[1], a[1] * b[1]];
}

function isLess(a, b) {
  return a[0] * b[1] < b[0] * a[1];
}

function distance(a, b) {
  return a > b ? a - b : b - a;
}

function whole(values) {
  return values.map((value) => BigInt(value));
}

function evenScore(heights) {
  const count = BigInt(heights.length);
  const sum = whole(heights).reduce((total, h) => total + h, 0n);
  return [whole(heights).reduce((total, h) => total + distance(h * count, sum), 0n), count];
}

function symmetricScore(heights) {
  const values = whole(heights);
  let total = 0n;
  for (let low = 0; low < Math.floor(values.length / 2); low += 1) {
    total += distance(values[low], values[values.length - 1 - low]);
  }
  return [total, 1n];
}

/** Sum of the distances from a fall of that slope, which starts at a median. */
function fallScore(values, [over, under]) {
  const starts = values.map((h, i) => h * under + over * BigInt(i));
  starts.sort((a, b) => (a < b ? -1 : a > b ? 1 : 0));
  const start = starts[Math.floor(starts.length / 2)];
  return [starts.reduce((total, s) => total + distance(s, start), 0n), under];
}

function graduatedScore(heights, least, most) {
  const values = whole(heights);
  const low = [BigInt(least), 1n];
  const high = [BigInt(most), 1n];
  const slopes = [low, high];
  for (let i = 0; i < values.length; i += 1) {
    for (let j = i + 1; j < values.length; j += 1) {
      const slope = fraction(values[i] - values[j], BigInt(j - i));
      if (isLess(low, slope) && isLess(slope, high)) slopes.push(slope);
    }
  }
  return slopes
    .map((slope) => fallScore(values, slope))
    .reduce((best, score) => (isLess(score, best) ? score : best));
}

function toFitScore(rooms) {
  return rooms.length ? evenScore(rooms) : [0n, 1n];
}

/** Score of one bay: its clear heights, and the room over each opening's tallest thing. */
function bayScore(rhythm, heights, rooms) {
  if (rhythm.kind === "even") return evenScore(heights);
  if (rhythm.kind === "symmetric") return symmetricScore(heights);
  if (rhythm.kind === "graduated") return graduatedScore(heights, rhythm.least, rhythm.most);
  return toFitScore(rooms);
}

/** Scores summed over bays, to the nearest whole tick. */
function rhythmScore(rhythm, bays) {
  const [over, under] = bays
    .map((bay) => bayScore(rhythm, bay.heights, bay.rooms))
    .reduce(added, [0n, 1n]);
  return Number((2n * over + under) / (2n * under));
}

// An option as it stands with its shelves where the client has put them. Pure: no document.

/** What each opening is like with the bay's shelves at these marks, lowest first. */
function openingsAt(bay, marks) {
  return bay.openings.map((opening, k) => {
    const floor = k === 0 ? bay.floor : marks[k - 1] + bay.thick[k - 1];
    const height = (k < marks.length ? marks[k] : bay.top) - floor;
    const tallest = opening.things.reduce(
      (best, thing) => (best === null || thing.top > best.top ? thing : best),
      null,
    );
    return { floor, height, tallest, room: tallest === null ? null : height - tallest.top };
  });
}

/** The least clear height that what stands in an opening asks for. */
function neededBy(opening) {
  const tops = opening.things.map((thing) => thing.top + opening.asked + opening.below);
  return Math.max(opening.least, ...tops);
}

/** How a thing stands under a clear height: null, or what is wrong and by how much. */
function misfit(opening, thing, height) {
  const room = height - opening.below - thing.top;
  if (room < 0) return { kind: "out", by: -room };
  return room < opening.asked ? { kind: "tight", by: opening.asked - room } : null;
}

/** Marks of every bay as planned. */
function plannedMarks(option) {
  return option.bays.map((bay) => bay.marks.slice());
}

/** How far the shelves of a line may go [tick], down (0 or less) and up, in whole steps.
 *
 * Where they may pass what stands there, only the least and most clear height count. A shelf
 * that is already beyond its limit may go back, never further. */
function lineRange(option, marks, line, mayPass) {
  if (line.fixed) return { down: 0, up: 0 };
  let down = -Infinity;
  let up = Infinity;
  for (const [b, at] of line.shelves) {
    const bay = option.bays[b];
    const openings = openingsAt(bay, marks[b]);
    const least = (k) => (mayPass ? bay.openings[k].least : neededBy(bay.openings[k]));
    const most = (k) => (bay.openings[k].most === null ? Infinity : bay.openings[k].most);
    const [low, high] = [openings[at].height, openings[at + 1].height];
    down = Math.max(down, least(at) - low, high - most(at + 1), bay.first - marks[b][at]);
    up = Math.min(up, high - least(at + 1), most(at) - low);
  }
  const step = option.bays[line.shelves[0][0]].step;
  return {
    down: Math.min(0, Math.ceil(down / step) * step),
    up: Math.max(0, Math.floor(up / step) * step),
  };
}

/** Marks with the shelves of a line moved; others stay. */
function movedLine(marks, line, by) {
  const moved = marks.map((bay) => bay.slice());
  for (const [bay, at] of line.shelves) moved[bay][at] += by;
  return moved;
}

/** Bays that share lines, each different row of heights of those with all lines once. */
function groupsOf(option, bays) {
  return option.groups.map((members) => {
    const falls = new Map();
    for (const b of members.filter((one) => option.bays[one].lined)) {
      const heights = bays[b].map((opening) => opening.height);
      if (!falls.has(String(heights))) falls.set(String(heights), { heights, step: option.bays[b].step });
    }
    return { falls: [...falls.values()], rooms: roomsOf(members.map((b) => bays[b])) };
  });
}

function roomsOf(bays) {
  return bays.flat().map((opening) => opening.room).filter((room) => room !== null);
}

/** What the option looks like in figures, as the plan counts them. */
function figuresAt(option, marks) {
  const bays = option.bays.map((bay, b) => openingsAt(bay, marks[b]));
  const rooms = roomsOf(bays);
  const groups = groupsOf(option, bays);
  const wrong = bays.flatMap((openings, b) =>
    openings.flatMap((o, k) => {
      const opening = option.bays[b].openings[k];
      return opening.things.map((thing) => misfit(opening, thing, o.height)).filter(Boolean);
    }),
  );
  return {
    rhythm: rhythmScore(option.rhythm, groups),
    pairs: pairsCount(option.rhythm, groups),
    least: rooms.length ? Math.min(...rooms) : null,
    most: rooms.length ? Math.max(...rooms) : null,
    spread: rangeOf(rooms),
    tight: wrong.filter((one) => one.kind === "tight").length,
    out: wrong.filter((one) => one.kind === "out").length,
  };
}

/** The option of the command line that holds one shelf. */
function holdOption(bay, at, mark, unit) {
  // a name that ends like a bay's number would be read as one
  const needsBay = bay.bays > 1 || /\/\d+\s*$/.test(bay.case);
  const place = needsBay ? `${bay.case}/${bay.number}` : bay.case;
  return `--hold ${quoted(`${place}:shelf${at + 1}=${exactLength(mark, unit)}`)}`;
}

/** A word as a shell reads it back: bare, in double quotes where every shell knows them. */
function quoted(word) {
  if (/^[A-Za-z0-9_.,:/=+-]+$/.test(word)) return word;
  if (!/["$`\\!%]/.test(word)) return `"${word}"`;
  return `'${word.replaceAll("'", "'\\''")}'`;
}

/** All options of the command line that plan the marks again. */
function holdOptions(option, marks, unit) {
  const from = option.first ? [] : [`--option ${quoted(option.name)}`];
  const holds = option.bays.flatMap((bay, b) =>
    marks[b].map((mark, at) => holdOption(bay, at, mark, unit)),
  );
  return [...from, ...holds].join(" ");
}

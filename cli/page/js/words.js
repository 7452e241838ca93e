// What is said of a shelf and of an opening, in plain words.

function listed(words) {
  const [last, ...before] = [...words].reverse();
  return before.length ? `${before.reverse().join(", ")} and ${last}` : last;
}

/** Bays by their cases: "bays 1 and 2", "wide, bay 1 and narrow". */
function baysText(option, bays) {
  const numbers = new Map();
  for (const bay of bays) numbers.set(bay.case, [...(numbers.get(bay.case) ?? []), bay]);
  const single = new Set(option.bays.map((bay) => bay.case)).size === 1;
  const said = [...numbers].map(([name, some]) => {
    if (some[0].bays === 1) return name;
    const which = `bay${some.length > 1 ? "s" : ""} ${listed(some.map((bay) => bay.number))}`;
    return single ? which : `${name}, ${which}`;
  });
  return listed(said);
}

/** Name of a line of shelves: its number, and its bays where there are several. */
function lineName(option, line) {
  const bays = new Map();
  for (const [b, at] of line.shelves) bays.set(at, [...(bays.get(at) ?? []), option.bays[b]]);
  return [...bays]
    .map(([at, some]) => {
      if (option.bays.length === 1) return `Shelf ${at + 1}`;
      const all = some.length === option.bays.length;
      return `Shelf ${at + 1} of ${all ? "every bay" : baysText(option, some)}`;
    })
    .join(", ");
}

/** The mark of a line: that of its first shelf. */
function lineMark(marks, line) {
  const [b, at] = line.shelves[0];
  return marks[b][at];
}

/** How much is left above the tallest thing of an opening, or what is wrong there. */
function roomText(opening, now, unit) {
  if (now.tallest === null) return { text: "empty", wrong: false };
  const found = misfit(opening, now.tallest, now.height);
  const name = now.tallest.name;
  if (found === null) return { text: `${withUnit(now.room, unit)} above ${name}`, wrong: false };
  const by = withUnit(found.by, unit);
  const text =
    found.kind === "out" ? `${name} is ${by} too tall` : `${name} has ${by} too little above it`;
  return { text, wrong: true };
}

/** What the openings below and above a line are like: the tightest of all its bays. */
function besideLine(option, marks, line, unit) {
  const said = (up) => {
    const all = line.shelves.map(([b, at]) => {
      const now = openingsAt(option.bays[b], marks[b])[at + up];
      const opening = option.bays[b].openings[at + up];
      return { now, opening, spare: now.height - neededBy(opening) };
    });
    const least = all.reduce((a, b) => (b.spare < a.spare ? b : a));
    const room = roomText(least.opening, least.now, unit);
    return { text: `${withUnit(least.now.height, unit)} clear, ${room.text}`, wrong: room.wrong };
  };
  return { below: said(0), above: said(1) };
}

/** All that a screen reader is told of a shelf. */
function valueText(option, marks, line, unit) {
  const { below, above } = besideLine(option, marks, line, unit);
  const mark = withUnit(lineMark(marks, line), unit);
  const still = line.fixed ? ", fixed already" : "";
  return `${mark}${still}. Below it: ${below.text}. Above it: ${above.text}.`;
}

/** How far a shelf is from where it was planned. */
function movedText(by, unit) {
  return by === 0 ? "" : `${withUnit(Math.abs(by), unit)} ${by > 0 ? "higher" : "lower"}`;
}

/** What the stage of rhythm is called on the page, and how its figure is told. */
function rhythmWords(rhythm, unit) {
  const length = (ticks) => (ticks === 0 ? "none" : withUnit(ticks, unit));
  const mean = ({ rhythm: score, pairs }) =>
    score === 0 ? "alike" : `differ by ${withUnit(Math.round(score / pairs), unit)} on average`;
  if (rhythm.stage === "even") return ["Openings", mean];
  if (rhythm.stage === "to-fit") return ["Air over the tallest things", mean];
  if (rhythm.stage === "symmetric") return ["Off symmetry by", (now) => length(now.rhythm)];
  if (rhythm.step !== null) return ["Off the steps asked for by", (now) => length(now.rhythm)];
  return ["Steps differ by", (now) => length(now.rhythm)];
}

/** Least and most room over the tallest thing of an opening: "1-1/4 in to 2-3/4 in of air". */
function airText({ least, most }, unit) {
  if (least === null) return "–";
  const low = least < 0 ? `${withUnit(-least, unit)} missing` : withUnit(least, unit);
  return least === most ? `${low} of air` : `${low} to ${withUnit(most, unit)} of air`;
}

// What is said of a shelf and of an opening, in plain words.

/** Name of a line of shelves: its number, and the bays where there are several. */
function lineName(option, line) {
  const names = new Map();
  for (const [b, at] of line.shelves) {
    const label = option.bays[b].label;
    names.set(at, [...(names.get(at) ?? []), label].filter(Boolean));
  }
  return [...names]
    .map(([at, labels]) => `Shelf ${at + 1}${labels.length ? ` of ${labels.join(" and ")}` : ""}`)
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

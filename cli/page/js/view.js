// One option on the bench: its marks now, what they mean, and how they came about.

/** Whether two sets of marks are the same. */
function isSame(one, other) {
  return JSON.stringify(one) === JSON.stringify(other);
}

class Bench {
  constructor(facts, number, told) {
    this.facts = facts;
    this.option = facts.options[number];
    this.unit = facts.unit;
    this.marks = plannedMarks(this.option);
    this.before = [];
    this.mayPass = false;
    this.told = told;
    this.line = null;
    this.thing = null;
    this.picture = new Picture(this.option, number, this.unit);
    this.grips = new Grips(this.picture, this);
    this.picture.draw.addEventListener("click", (event) => {
      const found = this.picture.thingAt(event.target);
      if (found) this.pick(found);
    });
    this.show();
  }

  range(line) {
    return lineRange(this.option, this.marks, line, this.mayPass);
  }

  /** Remember the marks as they are, to go back to them. */
  keep() {
    this.before.push(this.marks);
  }

  move(line, by) {
    this.put(line, movedLine(this.marks, line, by));
  }

  /** Move a line by so many of its steps, as far as it goes. */
  step(line, steps) {
    const range = this.range(line);
    const by = steps * this.option.bays[line.shelves[0][0]].step;
    if (by < range.down || by > range.up) return;
    this.keep();
    this.move(line, by);
  }

  put(line, marks) {
    this.marks = marks;
    this.line = line;
    this.thing = null;
    this.show();
  }

  undo() {
    const last = this.before.pop();
    if (last !== undefined) this.put(this.line, last);
  }

  /** Forget what was remembered last where nothing has come of it. */
  settle() {
    if (isSame(this.before[this.before.length - 1], this.marks)) this.before.pop();
    this.told(this);
  }

  back() {
    this.keep();
    this.put(this.line, plannedMarks(this.option));
  }

  /** A thing that was pointed at is told of, until a shelf is. */
  pick(thing) {
    this.thing = thing;
    this.told(this);
  }

  tell(line) {
    this.line = line;
    this.thing = null;
    this.told(this);
  }

  pass(mayPass) {
    this.mayPass = mayPass;
    this.show();
  }

  isMoved() {
    return !isSame(this.marks, plannedMarks(this.option));
  }

  /** Whether anything that is shown no longer fits. */
  isWrong() {
    const now = figuresAt(this.option, this.marks);
    return now.tight + now.out > 0;
  }

  /** Bring to size what depends on how large the drawing is on the screen. */
  fit() {
    this.picture.fit();
    this.grips.fit();
    this.picture.show(this.marks);
  }

  show() {
    this.picture.show(this.marks);
    this.grips.show(this.marks);
    this.told(this);
  }
}

/** What is said of a thing that was pointed at. */
function thingLines(bench) {
  const [b, k, n] = bench.thing;
  const opening = bench.option.bays[b].openings[k];
  const thing = opening.things[n];
  const { height } = openingsAt(bench.option.bays[b], bench.marks[b])[k];
  const head = made("b");
  head.append(bdi(thing.name));
  const found = misfit(opening, thing, height);
  const by = found && withUnit(found.by, bench.unit);
  const text = found
    ? `${by} ${found.kind === "out" ? "too tall" : "too little above it"}`
    : `${withUnit(height - thing.top, bench.unit)} up to the shelf above`;
  return [head, made("span", found ? "wrong" : "", text)];
}

/** The lines about the thing or the shelf that was touched last. */
function stripLines(bench) {
  const { option, marks, line, unit } = bench;
  if (bench.thing !== null) return thingLines(bench);
  if (line === null) {
    return [made("span", "", "Each shelf goes as far as what stands there allows. Point at a thing to see what it is.")];
  }
  const { below, above } = besideLine(option, marks, line, unit);
  const [b, at] = line.shelves[0];
  const moved = movedText(marks[b][at] - option.bays[b].marks[at], unit);
  const head = made("b");
  head.append(bdi(lineName(option, line)), `: ${withUnit(lineMark(marks, line), unit)}`);
  if (moved) head.append(`, ${moved}`);
  if (line.fixed) head.append(", fixed already");
  const said = (word, one) => {
    const element = made("span", one.wrong ? "wrong" : "", `${word}: `);
    element.append(bdi(one.text));
    return element;
  };
  return [head, said("above", above), said("below", below)];
}

/** Which shelves are elsewhere than planned, in one sentence. */
function movedSentence(bench) {
  const { option, marks, unit } = bench;
  const moved = option.lines.flatMap((line) => {
    const [b, at] = line.shelves[0];
    const by = movedText(marks[b][at] - option.bays[b].marks[at], unit);
    return by ? [`${lineName(option, line)} ${by}`] : [];
  });
  return `Moved from the plan: ${moved.join("; ")}.`;
}

/** What the figures were as planned and are now. */
function nowRows(bench) {
  const { option, unit } = bench;
  const was = figuresAt(option, plannedMarks(option));
  const now = figuresAt(option, bench.marks);
  const [name, words] = rhythmWords(option.rhythm, unit);
  const both = (text) => text(now) + (text(was) === text(now) ? "" : ` (planned ${text(was)})`);
  const count = (number, text) => `${number} ${number === 1 ? "thing" : "things"} ${text}`;
  const wrong = [
    ...(now.out ? [count(now.out, "too tall")] : []),
    ...(now.tight ? [count(now.tight, "with too little headroom")] : []),
  ];
  const left = option.left.length ? [["Left out", option.left.join(", "), true]] : [];
  return [
    ...left,
    [name, both(words), false],
    ["Places parted", option.parted === 0 ? "none" : String(option.parted), false],
    ["Air", both((figures) => airText(figures, unit)), false],
    ["Fit", wrong.length ? wrong.join(", ") : "all that is shown fits", wrong.length > 0],
  ];
}

/** A table of a bay's openings, the top one first. */
function openingTable(bench, b) {
  const bay = bench.option.bays[b];
  const table = made("table");
  const head = table.createTHead().insertRow();
  for (const text of ["No.", "Mark", "Clear", "Headroom"]) {
    const cell = made("th", "", text);
    cell.scope = "col";
    head.append(cell);
  }
  const body = table.createTBody();
  const openings = openingsAt(bay, bench.marks[b]);
  for (let k = openings.length - 1; k >= 0; k -= 1) {
    const now = openings[k];
    const room = roomText(bay.openings[k], now, bench.unit);
    const row = body.insertRow();
    const name = made("th", "", String(k));
    name.scope = "row";
    const mark = k === 0 ? "–" : formatLength(bench.marks[b][k - 1], bench.unit);
    const last = made("td", room.wrong ? "wrong" : "");
    last.append(bdi(room.text));
    row.append(name, made("td", "", mark), made("td", "", formatLength(now.height, bench.unit)), last);
  }
  return table;
}

/** Fill the list of openings; of several bays each folds away by itself, and stays as it was. */
function showOpenings(bench, place) {
  const bays = bench.option.bays;
  if (place.dataset.of !== bench.option.name) {
    place.dataset.of = bench.option.name;
    place.replaceChildren(
      ...bays.map((bay, b) => {
        if (bays.length === 1) return made("div");
        const fold = made("details");
        fold.open = b === 0;
        const title = made("summary");
        title.append(bdi(bay.label));
        fold.append(title, made("div"));
        return fold;
      }),
    );
  }
  bays.forEach((_, b) => {
    const part = place.children[b];
    (bays.length === 1 ? part : part.lastChild).replaceChildren(openingTable(bench, b));
  });
}

// Shelves as sliders: dragged by pointer or finger, stepped by the keyboard.

/** Steps of Page Up and Page Down: about an inch, a few at least. */
function largeStep(step) {
  return step * Math.max(4, Math.round(TICKS_PER_INCH / step));
}

/** How far a key moves a shelf [tick]; null for a key that does not. */
function keyMove(key, step, range) {
  const large = largeStep(step);
  const moves = {
    ArrowUp: step,
    ArrowRight: step,
    ArrowDown: -step,
    ArrowLeft: -step,
    PageUp: large,
    PageDown: -large,
    Home: range.down,
    End: range.up,
  };
  return key in moves ? Math.min(range.up, Math.max(range.down, moves[key])) : null;
}

/** The grips of one option. `bench` has marks, range(line), move(line, by), settle(). */
class Grips {
  constructor(picture, bench) {
    this.picture = picture;
    this.bench = bench;
    this.all = picture.option.lines.map((line) => line.shelves.map((shelf, i) => this.#grip(line, shelf, i)));
  }

  #grip(line, [b], i) {
    const grip = made("div", i === 0 ? "grip" : "grip other");
    const place = this.picture.option.places[b];
    grip.style.left = this.picture.x(place.x);
    grip.style.width = this.picture.x(place.width);
    grip.classList.toggle("still", line.fixed);
    if (i === 0) this.#slider(grip, line);
    this.#draggable(grip, line);
    this.picture.over.append(grip);
    return grip;
  }

  #slider(grip, line) {
    grip.tabIndex = 0;
    grip.setAttribute("role", "slider");
    grip.setAttribute("aria-orientation", "vertical");
    grip.setAttribute("aria-label", lineName(this.picture.option, line));
    if (line.fixed) grip.setAttribute("aria-readonly", "true");
    grip.addEventListener("focus", () => this.bench.tell(line));
    grip.addEventListener("keydown", (event) => {
      if (event.altKey || event.ctrlKey || event.metaKey) return;
      const step = this.picture.option.bays[line.shelves[0][0]].step;
      const by = keyMove(event.key, step, this.bench.range(line));
      if (by === null) return;
      event.preventDefault();
      if (by === 0) return;
      this.bench.keep();
      this.bench.move(line, by);
    });
  }

  #draggable(grip, line) {
    let start = null;
    grip.addEventListener("pointerdown", (event) => {
      if (event.button !== 0 || line.fixed) return;
      event.preventDefault();
      grip.setPointerCapture(event.pointerId);
      const first = this.all[this.picture.option.lines.indexOf(line)][0];
      first.focus({ preventScroll: true });
      this.bench.keep();
      start = { y: event.clientY, marks: this.bench.marks, range: this.bench.range(line) };
      grip.classList.add("held");
    });
    grip.addEventListener("pointermove", (event) => {
      if (start === null) return;
      const option = this.picture.option;
      const ticksPerPx = option.size[1] / this.picture.draw.getBoundingClientRect().height;
      const step = option.bays[line.shelves[0][0]].step;
      const wanted = Math.round(((start.y - event.clientY) * ticksPerPx) / step) * step;
      const by = Math.min(start.range.up, Math.max(start.range.down, wanted));
      this.bench.put(line, movedLine(start.marks, line, by));
    });
    const end = (event) => {
      if (start === null) return;
      if (event.type === "pointercancel") this.bench.put(line, start.marks);
      start = null;
      grip.classList.remove("held");
      this.bench.settle();
    };
    grip.addEventListener("pointerup", end);
    grip.addEventListener("pointercancel", end);
  }

  /** No grip reaches into the next one, however small the drawing is. */
  fit() {
    const { option, draw } = this.picture;
    const perTick = draw.clientHeight / option.size[1];
    option.lines.forEach((line, i) => {
      line.shelves.forEach(([b, at], n) => {
        const marks = this.bench.marks[b];
        const apart = [marks[at + 1] - marks[at], marks[at] - marks[at - 1]].filter(Number.isFinite);
        const room = Math.min(28, ...apart.map((ticks) => ticks * perTick - 1));
        this.all[i][n].style.height = `${Math.max(12, room)}px`;
      });
    });
  }

  /** Put the grips where the shelves are, and say it to a screen reader. */
  show(marks) {
    const { option, unit } = this.picture;
    option.lines.forEach((line, i) => {
      const range = this.bench.range(line);
      const mark = lineMark(marks, line);
      line.shelves.forEach(([b, at], n) => {
        const bay = option.bays[b];
        const y = option.places[b].base - marks[b][at] - bay.thick[at] / 2;
        this.all[i][n].style.top = this.picture.y(y);
      });
      const number = (ticks) => ticks / (unit === "in" ? TICKS_PER_INCH : TICKS_PER_MM);
      const slider = this.all[i][0];
      slider.setAttribute("aria-valuemin", number(mark + range.down));
      slider.setAttribute("aria-valuemax", number(mark + range.up));
      slider.setAttribute("aria-valuenow", number(mark));
      slider.setAttribute("aria-valuetext", valueText(option, marks, line, unit));
    });
  }
}

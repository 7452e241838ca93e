// Puts the shelves, what stands on them and the labels where they are now.

/** Height of two lines of lettering beside the drawing [px]. */
const TWO_LINES = 32;

const SVG = "http://www.w3.org/2000/svg";

function made(name, className, text) {
  const element = document.createElement(name);
  if (className) element.className = className;
  if (text !== undefined) element.textContent = text;
  return element;
}

/** A name that may run either way, kept to itself. */
function bdi(text) {
  return made("bdi", "", text);
}

/** The picture of one option: its drawing, and the labels over it. */
class Picture {
  constructor(option, number, unit) {
    this.option = option;
    this.unit = unit;
    this.frame = document.querySelector(`.elevation[data-option="${number}"]`);
    this.draw = this.frame.querySelector(".draw");
    this.over = this.frame.querySelector(".over");
    this.pxPerTick = Infinity;
    this.single = option.bays.length === 1;
    this.frame.classList.toggle("wide", !this.single || option.size[0] > 0.8 * option.size[1]);
    this.openings = option.bays.map((bay, b) =>
      bay.openings.map((_, k) => this.#opening(document.getElementById(`p${number}b${b}o${k}`), b)),
    );
    this.shelves = option.bays.map((bay, b) =>
      bay.marks.map((_, at) => document.getElementById(`p${number}b${b}s${at}`)),
    );
    this.marks = option.lines.map((line) => this.#label(`label mark${this.#outside(line)}`));
    this.eye = this.#label("eye-line");
    this.eye.append(made("span"));
  }

  #opening(group, bay) {
    const dim = document.createElementNS(SVG, "path");
    this.draw.querySelector(".dims").append(dim);
    const kind = this.single && !this.frame.classList.contains("wide") ? "clear" : "inside room";
    const things = [];
    for (const one of group.querySelectorAll(".one")) things[one.dataset.n] = one;
    return { group, dim, things, label: this.#label(`label ${kind}`), bay };
  }

  #label(className) {
    const label = made("div", className);
    label.setAttribute("aria-hidden", "true");
    this.over.append(label);
    return label;
  }

  /** Marks stand left of the drawing where the line reaches the first bay. */
  #outside(line) {
    return line.shelves[0][0] === 0 ? "" : " inside";
  }

  x(ticks) {
    return `${(100 * ticks) / this.option.size[0]}%`;
  }

  y(ticks) {
    return `${(100 * ticks) / this.option.size[1]}%`;
  }

  show(marks) {
    this.option.bays.forEach((bay, b) => {
      const place = this.option.places[b];
      const mm = (ticks) => ticks / TICKS_PER_MM;
      marks[b].forEach((mark, at) => {
        const move = `translate(${mm(place.x)} ${mm(place.base - mark)})`;
        this.shelves[b][at].setAttribute("transform", move);
      });
      openingsAt(bay, marks[b]).forEach((now, k) => {
        const view = this.openings[b][k];
        const move = `translate(${mm(place.x)} ${mm(place.base - now.floor)})`;
        view.group.setAttribute("transform", move);
        this.#mark(bay.openings[k], now, view);
        this.#dimension(bay.openings[k], now, view, place);
      });
    });
    this.option.lines.forEach((line, i) => this.#markLabel(line, this.marks[i], marks));
  }

  #mark(opening, now, view) {
    opening.things.forEach((thing, n) => {
      const found = misfit(opening, thing, now.height);
      view.things[n].classList.toggle("out", found !== null && found.kind === "out");
      view.things[n].classList.toggle("tight", found !== null && found.kind === "tight");
    });
  }

  /** The headroom of an opening as a line from its tallest thing up, with its label. */
  #dimension(opening, now, view, place) {
    const mm = (ticks) => (ticks / TICKS_PER_MM).toFixed(2);
    const ceiling = place.base - now.floor - now.height;
    const { label, dim } = view;
    const short = now.tallest === null ? "" : formatLength(now.room, this.unit);
    const found = now.tallest === null ? null : misfit(opening, now.tallest, now.height);
    const by = found && formatLength(found.by, this.unit);
    const small = found ? `${by} too ${found.kind === "out" ? "tall" : "little"}` : short && `${short} above`;
    dim.classList.toggle("wrong", found !== null);
    label.classList.toggle("wrong", found !== null);
    if (now.tallest === null) {
      dim.setAttribute("d", "");
    } else {
      const x = this.#above(view, now, place);
      const top = place.base - now.floor - now.tallest.top;
      const tick = 12;
      dim.setAttribute(
        "d",
        `M${mm(x)} ${mm(top)}V${mm(ceiling)}m-${tick} 0h${2 * tick}M${mm(x)} ${mm(top)}m-${tick} 0h${2 * tick}`,
      );
    }
    if (label.classList.contains("clear")) {
      const clear = `${formatLength(now.height, this.unit)} clear`;
      label.replaceChildren(clear, made("small", found ? "wrong" : "", small));
      label.style.top = this.y(ceiling + now.height / 2);
      label.classList.toggle("slim", now.height * this.pxPerTick < TWO_LINES && found === null);
    } else {
      label.textContent = short.replace(/^-/, "−");
      label.style.left = this.x(place.x + place.width);
      label.style.top = this.y(ceiling);
    }
  }

  /** Where the middle of the tallest thing is, across [tick]. */
  #above(view, now, place) {
    const n = this.option.bays[view.bay].openings[this.openings[view.bay].indexOf(view)].things
      .indexOf(now.tallest);
    const rect = view.things[n].querySelector("rect");
    const middle = Number(rect.getAttribute("x")) + Number(rect.getAttribute("width")) / 2;
    return place.x + middle * TICKS_PER_MM;
  }

  #markLabel(line, label, marks) {
    const [b, at] = line.shelves[0];
    const place = this.option.places[b];
    const bay = this.option.bays[b];
    label.textContent = formatLength(marks[b][at], this.unit);
    label.classList.toggle("moved", marks[b][at] !== bay.marks[at]);
    label.style.top = this.y(place.base - marks[b][at] - bay.thick[at] / 2);
    if (b > 0) label.style.left = this.x(place.x);
  }

  /** Bay, opening and number of the thing that an element is part of; null where it is none. */
  thingAt(element) {
    const one = element.closest(".one");
    if (one === null) return null;
    const place = /b(\d+)o(\d+)$/.exec(one.parentNode.id);
    return [Number(place[1]), Number(place[2]), Number(one.dataset.n)];
  }

  /** The line at eye level [tick above the floor]. */
  showEye(height, words) {
    const down = Math.max(0, this.option.ground - height);
    this.eye.style.top = this.y(down);
    this.eye.firstChild.textContent = this.option.ground < height ? `${words}, above this` : words;
  }

  /** Letters keep their size on the screen; where a thing is too small for one it has none. */
  fit() {
    const wide = this.draw.clientWidth;
    if (!wide) return;
    this.pxPerTick = wide / this.option.size[0];
    const perPx = this.option.size[0] / TICKS_PER_MM / wide;
    this.draw.style.setProperty("--per-px", String(perPx));
    for (const one of this.draw.querySelectorAll(".one")) {
      const rect = one.querySelector("rect");
      const side = (name) => Number(rect.getAttribute(name)) / perPx;
      const seen = one.classList.contains("rear") ? side("height") / 2 : side("height");
      const letters = one.querySelector("text").textContent.length;
      one.classList.toggle("tiny", side("width") < 3 + 8 * letters || seen < 13);
    }
    for (const run of this.draw.querySelectorAll(".run")) {
      const numbers = run.dataset.of.split(" ");
      const things = numbers.map((n) => run.parentNode.querySelector(`[data-n="${n}"]`));
      const wide = things.reduce((sum, one) => sum + one.getBoundingClientRect().width, 0);
      run.classList.toggle("off", !things[0].classList.contains("tiny") || wide < 3 + 8 * run.textContent.length);
    }
  }
}

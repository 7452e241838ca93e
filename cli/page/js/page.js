// The page as a whole: which option is on the bench, what is shown, copying and printing.

const byId = (id) => document.getElementById(id);
const facts = JSON.parse(byId("facts").textContent);
const root = document.documentElement;
const EYES_BELOW_CROWN = 4.5 * TICKS_PER_INCH;
// Eyes are 4.4 to 4.8 in below the crown (5th percentile woman, 95th percentile man:
// stature and eye height of MIL-STD-1472G, as tabled in NUREG-0700 rev. 3).

let benches = [];
let chosen = 0;

function told(bench) {
  if (bench !== benches[chosen]) return;
  byId("strip").replaceChildren(...stripLines(bench));
  byId("now").replaceChildren(
    ...nowRows(bench).flatMap(([word, text, wrong]) => [
      made("dt", "", word),
      made("dd", wrong ? "wrong" : "", text),
    ]),
  );
  showOpenings(bench, byId("openings"));
  byId("holds").value = holdOptions(bench.option, bench.marks, bench.unit);
  byId("copied").textContent = "";
  byId("copy-warning").hidden = !bench.isWrong();
  showPicked(bench);
  byId("undo").disabled = bench.before.length === 0;
  byId("back").disabled = !bench.isMoved();
  byId("moved").hidden = !bench.isMoved();
  byId("moved").textContent = movedSentence(bench);
}

/** The line that the buttons move. */
function picked() {
  return benches[chosen].option.lines[Number(byId("which").value)];
}

function showPicked(bench) {
  const lines = bench.option.lines;
  if (bench.line !== null) byId("which").value = String(lines.indexOf(bench.line));
  const range = lines.length ? bench.range(picked()) : { down: 0, up: 0 };
  byId("lower").disabled = range.down === 0;
  byId("higher").disabled = range.up === 0;
}

function fillPicked(bench) {
  byId("which").replaceChildren(
    ...bench.option.lines.map((line, i) => {
      const choice = made("option", "", lineName(bench.option, line).replace(/^Shelf /, ""));
      choice.value = String(i);
      return choice;
    }),
  );
}

/** Whether all options are drawn beside each other. */
function isAll() {
  return byId("show-all")?.checked ?? false;
}

function choose(number) {
  chosen = number;
  document.querySelector(`#option-${number}`).checked = true;
  document.querySelector(".stage").classList.toggle("all", isAll());
  for (const frame of document.querySelectorAll(".elevation")) {
    const own = Number(frame.dataset.option) === number;
    frame.hidden = !own && !isAll();
    frame.classList.toggle("chosen", own);
  }
  const card = document.querySelector(`.card[data-option="${number}"]`);
  byId("chosen-name").replaceChildren(bdi(benches[number].option.name));
  const price = card.querySelector(".price")?.cloneNode(true);
  byId("chosen-price").replaceChildren(...(price ? price.childNodes : []));
  for (const row of document.querySelectorAll(".figures tr")) {
    [...row.children].forEach((cell, i) => cell.classList.toggle("chosen", i === number + 1));
  }
  fillPicked(benches[number]);
  for (const bench of benches) bench.fit();
  told(benches[number]);
}

async function copy() {
  const field = byId("holds");
  let done = false;
  try {
    await navigator.clipboard.writeText(field.value);
    done = true;
  } catch {
    field.select();
    done = document.execCommand("copy");
  }
  byId("copied").textContent = done ? "Copied." : "Select the words above and copy them.";
}

/** The client's height as typed [tick]; null where it is not given. */
function tall() {
  const number = (id) => {
    const text = byId(id)?.value ?? "";
    return text === "" ? null : Number(text);
  };
  if (facts.unit === "mm") {
    const cm = number("tall-cm");
    return cm === null ? null : cm * 10 * TICKS_PER_MM;
  }
  const feet = number("tall-feet");
  return feet === null ? null : (feet * 12 + (number("tall-inches") ?? 0)) * TICKS_PER_INCH;
}

function showEye() {
  const height = tall();
  const eyes = height === null ? facts.eye : height - EYES_BELOW_CROWN;
  const step = facts.unit === "in" ? TICKS_PER_INCH / 2 : 10 * TICKS_PER_MM;
  const near = height === null ? eyes : Math.round(eyes / step) * step;
  const words = `${height === null ? "eye level" : "your eyes"}, ${withUnit(near, facts.unit)} up`;
  for (const bench of benches) bench.picture.showEye(near, words);
}

function listen() {
  for (const radio of document.querySelectorAll('input[name="option"]')) {
    radio.addEventListener("change", () => choose(Number(radio.value)));
  }
  byId("which").addEventListener("change", () => benches[chosen].tell(picked()));
  byId("lower").addEventListener("click", () => benches[chosen].step(picked(), -1));
  byId("higher").addEventListener("click", () => benches[chosen].step(picked(), 1));
  byId("undo").addEventListener("click", () => benches[chosen].undo());
  byId("back").addEventListener("click", () => benches[chosen].back());
  byId("copy").addEventListener("click", copy);
  byId("print").addEventListener("click", () => window.print());
  byId("may-pass").addEventListener("change", (event) => {
    for (const bench of benches) bench.pass(event.target.checked);
  });
  for (const word of ["things", "dims", "eye"]) {
    byId(`show-${word}`).addEventListener("change", (event) => {
      root.classList.toggle(`no-${word}`, !event.target.checked);
    });
  }
  for (const id of ["tall-feet", "tall-inches", "tall-cm"]) {
    byId(id)?.addEventListener("input", showEye);
  }
  byId("show-all")?.addEventListener("change", () => choose(chosen));
  for (const frame of document.querySelectorAll(".elevation")) {
    const number = Number(frame.dataset.option);
    for (const kind of ["pointerdown", "focusin"]) {
      frame.addEventListener(kind, () => number !== chosen && choose(number), { capture: true });
    }
  }
  window.addEventListener("resize", () => benches.forEach((bench) => bench.fit()));
}

function themes() {
  for (const radio of document.querySelectorAll('input[name="theme"]')) {
    radio.addEventListener("change", () => {
      if (radio.value === "auto") delete root.dataset.theme;
      else root.dataset.theme = radio.value;
    });
  }
}

root.classList.add("runs");
themes();
if (facts.options.length) {
  benches = facts.options.map((_, number) => new Bench(facts, number, told));
  listen();
  showEye();
  choose(Number(document.querySelector('input[name="option"]:checked')?.value ?? 0));
}

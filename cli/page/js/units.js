// Lengths in whole ticks of 1/320 mm, printed as solver/units.py prints them.
const TICKS_PER_MM = 320;
const TICKS_PER_INCH = 8128;

/** The whole number nearest to a / b; halves go to the even one. */
function roundEven(a, b) {
  const low = Math.floor(a / b);
  const twice = 2 * (a - low * b);
  if (twice === b) return low % 2 === 0 ? low : low + 1;
  return twice > b ? low + 1 : low;
}

function moreOrLess(rest) {
  return rest > 0 ? "+" : rest < 0 ? "−" : "";
}

function greatestCommon(a, b) {
  return b === 0 ? a : greatestCommon(b, a % b);
}

function inchText(ticks) {
  const step = TICKS_PER_INCH / 32;
  const count = roundEven(ticks, step);
  const whole = Math.floor(count / 32);
  const part = count % 32;
  const common = greatestCommon(32, part);
  const fraction = `${part / common}/${32 / common}`;
  const shown = part === 0 ? `${whole}` : whole === 0 ? fraction : `${whole}-${fraction}`;
  return shown + moreOrLess(ticks - count * step);
}

function mmText(ticks) {
  const tenth = TICKS_PER_MM / 10;
  const count = roundEven(ticks, tenth);
  const whole = Math.floor(count / 10);
  const shown = count % 10 === 0 ? `${whole}` : `${whole}.${count % 10}`;
  return shown + moreOrLess(ticks - count * tenth);
}

/** A length for people: fractions to 1/32 in, or tenths of a millimetre. */
function formatLength(ticks, unit) {
  if (ticks < 0) {
    const turned = { "+": "−", "−": "+" };
    return "-" + formatLength(-ticks, unit).replace(/[+−]/g, (sign) => turned[sign]);
  }
  return unit === "in" ? inchText(ticks) : mmText(ticks);
}

function withUnit(ticks, unit) {
  return `${formatLength(ticks, unit)} ${unit}`;
}

/** A length that reads back as exactly these ticks. */
function exactLength(ticks, unit) {
  const shown = formatLength(ticks, unit);
  return /[+−]$/.test(shown) ? `${ticks / TICKS_PER_MM}mm` : shown;
}

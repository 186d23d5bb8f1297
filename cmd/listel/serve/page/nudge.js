// nudge.js: one fraction more or less in a size as it is typed: "3/4" becomes "13/16". It keeps the way the size is written.
//
//   nudge(text, ticks, {units, fraction, mm})   the new text, null where the text is no plain length (then type it)
//
// units is what a bare number means; mm is the length now, for an empty text.

const unit = { in: 25.4, mm: 1, cm: 10, ft: 304.8 };

export function nudge(text, ticks, { units, fraction, mm }) {
  const m = text.trim().match(/^(-?)\s*(?:(\d+(?:\.\d+)?|\.\d+)(?:[\s-]+(\d+)\/(\d+))?|(\d+)\/(\d+))\s*(in|"|mm|cm|p)?$/);
  if (text.trim() !== "" && !m) return null;
  if (text.trim() === "") return Number.isFinite(mm) ? write(mm / unit[units], ticks, units, fraction, "") : null;
  const value = (m[1] ? -1 : 1) * (Number(m[2] ?? 0) + Number(m[3] ?? m[5] ?? 0) / Number(m[4] ?? m[6] ?? 1));
  if (!Number.isFinite(value)) return null;
  const written = m[7] ?? "";
  if (written === "p") return mixed(value + ticks / 4, 4) + "p";
  const in_ = written === '"' ? "in" : written || units;
  return write(value, ticks, in_, fraction, written);
}

function write(value, ticks, units, fraction, suffix) {
  if (units === "in" || units === "ft") {
    const n = Math.round(value * fraction);
    const on = Math.abs(value * fraction - n) < 1e-6;
    const next = on ? n + ticks : ticks > 0 ? Math.ceil(value * fraction) + ticks - 1 : Math.floor(value * fraction) + ticks + 1;
    return mixed(next / fraction, fraction) + suffix;
  }
  const step = units === "cm" ? 0.05 : 0.5;
  const next = (Math.round(value / step) + ticks) * step;
  return String(Math.round(next * 1000) / 1000) + suffix;
}

/** A number as a whole and a reduced fraction of n-ths: 1 3/4. */
function mixed(value, n) {
  const sign = value < 0 ? "-" : "";
  let top = Math.round(Math.abs(value) * n);
  let whole = Math.floor(top / n);
  top -= whole * n;
  while (top > 0 && top % 2 === 0 && n % 2 === 0) {
    top /= 2;
    n /= 2;
  }
  if (top === 0) return sign + whole;
  return sign + (whole ? `${whole} ` : "") + `${top}/${n}`;
}

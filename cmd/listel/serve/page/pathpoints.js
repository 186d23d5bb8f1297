// pathpoints.js: points along an SVG path of lines and arcs of less than half a turn, as the server writes them (absolute M, L, A, Z).
//
//   pathPoints(d, step)   [[x, y], ...], no farther apart than step on the curves and lines (roughly); the browser's own way is much slower
//   boxOf(points)         the smallest box that holds them, [x, y, w, h]

export function pathPoints(d, step) {
  const out = [];
  let at = null;
  let start = null;
  for (const [, command, list] of d.matchAll(/([MLAZ])([^MLAZ]*)/g)) {
    const n = (list.match(/-?[\d.]+(?:e-?\d+)?/g) ?? []).map(Number);
    if (command === "M") {
      at = start = n;
      out.push(at);
      continue;
    }
    const to = command === "Z" ? start : n.slice(-2);
    if (command === "A") out.push(...arcPoints(at, n, step));
    else out.push(...linePoints(at, to, step));
    at = to;
  }
  return out;
}

/** The smallest box that holds points, [x, y, w, h]. */
export function boxOf(points) {
  const xs = points.map((p) => p[0]);
  const ys = points.map((p) => p[1]);
  const [x, y] = [Math.min(...xs), Math.min(...ys)];
  return [x, y, Math.max(...xs) - x, Math.max(...ys) - y];
}

function linePoints(a, b, step) {
  const n = Math.max(1, Math.ceil(Math.hypot(b[0] - a[0], b[1] - a[1]) / step));
  return Array.from({ length: n }, (_, i) => [a[0] + ((b[0] - a[0]) * (i + 1)) / n, a[1] + ((b[1] - a[1]) * (i + 1)) / n]);
}

// arcPoints turns the arc so that its ellipse is the unit circle, where the center stands off the middle of the chord, and walks it there
// (W3C, SVG 2, appendix B.2.4, for small arcs).
function arcPoints(a, [rx, ry, turn, , sweep, bx, by], step) {
  const cos = Math.cos((turn * Math.PI) / 180);
  const sin = Math.sin((turn * Math.PI) / 180);
  const unit = ([x, y]) => [(cos * x + sin * y) / rx, (cos * y - sin * x) / ry];
  const back = ([x, y]) => [cos * x * rx - sin * y * ry, sin * x * rx + cos * y * ry];
  const p = unit(a);
  const q = unit([bx, by]);
  const half = [(q[0] - p[0]) / 2, (q[1] - p[1]) / 2];
  const h2 = half[0] ** 2 + half[1] ** 2;
  const off = Math.sqrt(Math.max(0, 1 - h2) / (h2 || 1)) * (sweep ? 1 : -1);
  const center = [(p[0] + q[0]) / 2 - half[1] * off, (p[1] + q[1]) / 2 + half[0] * off];
  const from = Math.atan2(p[1] - center[1], p[0] - center[0]);
  let by_ = Math.atan2(q[1] - center[1], q[0] - center[0]) - from;
  if (sweep && by_ < 0) by_ += 2 * Math.PI;
  if (!sweep && by_ > 0) by_ -= 2 * Math.PI;
  const n = Math.max(2, Math.ceil((Math.abs(by_) * Math.max(rx, ry)) / step));
  return Array.from({ length: n }, (_, i) => {
    const t = from + (by_ * (i + 1)) / n;
    return back([center[0] + Math.cos(t), center[1] + Math.sin(t)]);
  });
}

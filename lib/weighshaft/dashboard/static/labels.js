// Where labels go: beside what they name, inside the picture, and not over one another.

const LABEL_SIZE = 12.5;
const measured = new Map();
let measurer = null;

function textWidth(text, size = LABEL_SIZE) {
  const key = `${size}|${text}`;
  if (!measured.has(key)) {
    if (measured.size > 4000) measured.clear();
    measurer = measurer || document.createElement("canvas").getContext("2d");
    measurer.font = `${size}px system-ui, "Segoe UI", Roboto, "DejaVu Sans", sans-serif`;
    measured.set(key, measurer.measureText(text).width + 2);
  }
  return measured.get(key);
}

function boxAt(x, y, width, height, anchor) {
  const left = anchor === "start" ? x : anchor === "end" ? x - width : x - width / 2;
  return { left, right: left + width, top: y - height * 0.8, bottom: y + height * 0.25 };
}

const NARROW = 560;
const GAP = 4; // between two labels on a line

function overlap(a, b) {
  const wide = Math.min(a.right, b.right) - Math.max(a.left, b.left) + GAP;
  const high = Math.min(a.bottom, b.bottom) - Math.max(a.top, b.top);
  return wide > 0 && high > 0 ? wide * high : 0;
}

function outside(box, width, height) {
  return (
    Math.max(0, -box.left) + Math.max(0, box.right - width) +
    Math.max(0, -box.top) + Math.max(0, box.bottom - height)
  );
}

// What is drawn, as points a few units apart in a grid, so that labels can keep off the lines.
function makeInk() {
  const CELL = 24;
  const cells = new Map();
  let count = 0;
  const key = (x, y) => Math.floor(x / CELL) * 4096 + Math.floor(y / CELL);
  return {
    line(x0, y0, x1, y1, weight = 1) {
      const far = Math.hypot(x1 - x0, y1 - y0);
      if (!(far < 4000) || count > 6000) return;
      const steps = Math.max(1, Math.round(far / 6));
      for (let i = 0; i <= steps; i += 1) {
        const x = x0 + ((x1 - x0) * i) / steps;
        const y = y0 + ((y1 - y0) * i) / steps;
        const at = key(x, y);
        if (!cells.has(at)) cells.set(at, []);
        cells.get(at).push([x, y, weight]);
        count += 1;
      }
    },
    under(box) {
      let sum = 0;
      for (let cx = Math.floor(box.left / CELL); cx <= Math.floor(box.right / CELL); cx += 1) {
        for (let cy = Math.floor(box.top / CELL); cy <= Math.floor(box.bottom / CELL); cy += 1) {
          for (const [x, y, weight] of cells.get(cx * 4096 + cy) || []) {
            if (x > box.left && x < box.right && y > box.top && y < box.bottom) sum += weight;
          }
        }
      }
      return sum;
    },
  };
}

// Places each {text, x, y, anchor} as near to where it is wanted as the others allow.
function placeLabels(labels, width, height, taken = [], ink = null) {
  const boxes = [...taken];
  return labels.flatMap((label) => {
    const wide = textWidth(label.text);
    const high = LABEL_SIZE * 1.2;
    let best = null;
    for (const [dx, dy] of shifts(high, wide)) {
      const box = boxAt(label.x + dx, label.y + dy, wide, high, label.anchor);
      const cost =
        Math.hypot(dx, dy) + 40 * outside(box, width, height) +
        boxes.reduce((sum, other) => sum + 4 * overlap(box, other), 0) +
        (ink ? 3 * Math.min(ink.under(box), 12) : 0);
      if (!best || cost < best.cost - 1e-6) best = { cost, dx, dy, box };
      if (cost === 0) break;
    }
    let { dx } = best;
    if (best.box.left < 0) dx -= best.box.left;
    if (best.box.right > width) dx -= best.box.right - width;
    let { dy } = best;
    if (best.box.top < 0) dy -= best.box.top;
    if (best.box.bottom > height) dy -= best.box.bottom - height;
    const box = boxAt(label.x + dx, label.y + dy, wide, high, label.anchor);
    const covered = boxes.reduce((sum, other) => sum + overlap(box, other), 0);
    // a narrow picture has not room for every word; the sentence about it has them
    if (width < NARROW && covered > 0.2 * wide * high) return [];
    boxes.push(box);
    return [{ ...label, x: label.x + dx, y: label.y + dy, moved: Math.hypot(dx, dy), box }];
  });
}

function shifts(high, wide) {
  const made = [[0, 0]];
  for (const down of [1, -1, 2, -2, 3, -3, 4, -4, 5, -5]) made.push([0, down * high * 1.02]);
  for (const along of [0.25, -0.25, 0.5, -0.5, 1, -1]) {
    made.push([along * wide, 0], [along * wide, high], [along * wide, -high], [along * wide, 2 * high], [along * wide, -2 * high]);
  }
  return made;
}

// A chart: axes, bands, curves that carry their names, and the present crank in red.

function drawChart(chart, points, width, height) {
  const xs = chart.curves.flatMap((curve) => limitsOf(points, curve.x));
  const ys = chart.curves.flatMap((curve) => limitsOf(points, curve.y));
  for (const band of chart.bands) (band.axis === "x" ? xs : ys).push(band.low, band.high);
  let rangeX = widened(xs, chart.equal ? 0.06 : 0);
  const turning = !chart.equal && Math.abs(rangeX[0]) < 1e-6 && rangeX[1] > 350 && rangeX[1] < 361;
  if (turning) rangeX = [0, 360];
  let rangeY = widened(ys, 0.06);
  const tickWords = ticksOf(rangeY, Math.max(3, height / 45)).map(figure);
  const left = Math.max(...tickWords.map((word) => textWidth(word, 12)), 18) + 12;
  const frame = { left, right: width - 18, top: 26, bottom: height - 38 };
  if (chart.equal) [rangeX, rangeY] = equalised(rangeX, rangeY, frame);
  const px = (x) => frame.left + ((x - rangeX[0]) / (rangeX[1] - rangeX[0])) * (frame.right - frame.left);
  const py = (y) => frame.bottom - ((y - rangeY[0]) / (rangeY[1] - rangeY[0])) * (frame.bottom - frame.top);

  const titleId = newId("title");
  const descId = newId("desc");
  const root = svgEl("svg", { class: "ws-chart", viewBox: `0 0 ${width} ${height}`, width, height, role: "img", "aria-labelledby": `${titleId} ${descId}` },
    svgEl("title", { id: titleId }), svgEl("desc", { id: descId }));
  root.querySelector("title").textContent = chart.title;
  root.querySelector("desc").textContent = chart.says;
  const words = (text, x, y, anchor = "middle", kind = "ws-label") => {
    const node = svgEl("text", { x: ROUND(x), y: ROUND(y), "text-anchor": anchor, class: kind });
    node.textContent = text;
    root.append(node);
    return node;
  };
  const line = (x1, y1, x2, y2, kind) => root.append(svgEl("line", { x1: ROUND(x1), y1: ROUND(y1), x2: ROUND(x2), y2: ROUND(y2), class: kind }));

  const taken = [];
  const rulers = rangeY[0] < 0 && rangeY[1] > 0 ? [py(0)] : [];
  for (const band of chart.bands) drawBand(band);
  function drawBand(band) {
    const along = band.axis === "x";
    const [a, b] = along ? [px(band.low), px(band.high)] : [py(band.high), py(band.low)];
    const thin = Math.abs(b - a) < 1.5;
    if (!along) rulers.push(a, b);
    if (thin && along) line(a, frame.top, a, frame.bottom, "pen-centre");
    else if (thin) line(frame.left, a, frame.right, a, "pen-centre");
    else {
      root.append(svgEl("rect", along
        ? { x: ROUND(Math.min(a, b)), width: ROUND(Math.abs(b - a)), y: frame.top, height: frame.bottom - frame.top, class: "ws-band" }
        : { x: frame.left, width: frame.right - frame.left, y: ROUND(Math.min(a, b)), height: ROUND(Math.abs(b - a)), class: "ws-band" }));
    }
    if (!band.label) return;
    const size = textWidth(band.label);
    const x = along ? Math.min(Math.max((a + b) / 2, frame.left + size / 2), frame.right - size / 2) : frame.right - 4;
    const y = along ? frame.top + 12 : thin || b - a < 16 ? a - 4 : a + 13;
    words(band.label, x, y, along ? "middle" : "end");
    taken.push(boxAt(x, y, size, LABEL_SIZE * 1.2, along ? "middle" : "end"));
  }

  const crossX = Math.max(3, (frame.right - frame.left) / 70);
  for (const x of turning ? [0, 90, 180, 270, 360] : ticksOf(rangeX, crossX)) {
    line(px(x), frame.bottom, px(x), frame.bottom + 4, "ws-axis");
    words(turning ? `${x}°` : figure(x), px(x), frame.bottom + 16, "middle", "ws-tick");
  }
  for (const y of ticksOf(rangeY, Math.max(3, (frame.bottom - frame.top) / 45))) {
    line(frame.left, py(y), frame.right, py(y), "ws-grid");
    line(frame.left - 4, py(y), frame.left, py(y), "ws-axis");
    words(figure(y), frame.left - 7, py(y) + 4, "end", "ws-tick");
  }
  line(frame.left, frame.top - 4, frame.left, frame.bottom, "ws-axis");
  line(frame.left, frame.bottom, frame.right, frame.bottom, "ws-axis");
  if (rangeY[0] < 0 && rangeY[1] > 0) line(frame.left, py(0), frame.right, py(0), "ws-zero");
  const room = textWidth(chart.x) > frame.right - 4; // too long for its line: it begins at the edge and is set closer
  const nameX = words(chart.x, room ? 2 : frame.right, height - 5, room ? "start" : "end", "ws-axis-name");
  if (room && textWidth(chart.x) > width - 4) nameX.setAttribute("textLength", width - 4);
  words(chart.y, 2, 12, "start", "ws-axis-name");

  const traces = chart.curves.map((curve) => {
    const trace = [];
    for (let i = 0; i < curve.x[1]; i += 1) {
      trace.push([px(points[curve.x[0] + i]), py(points[curve.y[0] + i])]);
    }
    let path = "";
    let pen = "M";
    for (const [x, y] of trace) {
      if (x !== x || y !== y) pen = "M";
      else {
        path += `${pen}${ROUND(x)} ${ROUND(y)}`;
        pen = "L";
      }
    }
    root.append(svgEl("path", { d: path, class: `ws-curve pen-${curve.pen}` }));
    return trace;
  });
  for (const { lines, x, y, pen } of nameCurves(chart.curves, traces, frame, taken, rulers)) {
    lines.forEach((text, i) => words(text, x, y + (i - lines.length + 1) * LINE, "middle", `ws-label text-${pen}`));
  }

  const marks = chart.follows.filter((index) => traces[index]?.length).map((index) => {
    const dot = svgEl("circle", { r: 4, class: "ws-now" });
    const upright = turning ? svgEl("line", { y1: frame.top, y2: frame.bottom, class: "ws-now-line" }) : null;
    if (upright) root.append(upright);
    root.append(dot);
    return { trace: traces[index], dot, upright };
  });

  function turn(theta) {
    for (const { trace, dot, upright } of marks) {
      // a closed turn may or may not repeat its first point at 360 degrees
      const [first, last] = [trace[0], trace[trace.length - 1]];
      const repeats = turning ? Math.abs(last[0] - frame.right) < 0.5 : Math.hypot(last[0] - first[0], last[1] - first[1]) < 0.5;
      const steps = repeats ? trace.length - 1 : trace.length;
      const place = (((theta % 360) + 360) % 360) * (steps / 360);
      const a = trace[Math.floor(place) % trace.length];
      const b = trace[(Math.floor(place) + 1) % trace.length];
      const share = place - Math.floor(place);
      const x = a[0] + share * (Math.abs(b[0] - a[0]) > 0.5 * (frame.right - frame.left) ? 0 : b[0] - a[0]);
      const y = a[1] + share * (b[1] - a[1]);
      const seen = x === x && y === y;
      show(dot, seen);
      dot.style.display = seen ? "" : "none";
      if (!seen) continue;
      dot.setAttribute("cx", ROUND(x));
      dot.setAttribute("cy", ROUND(y));
      if (upright) {
        upright.setAttribute("x1", ROUND(x));
        upright.setAttribute("x2", ROUND(x));
      }
    }
  }
  return { root, parts: [], turn, angleAt: null, moves: marks.length > 0 };
}

function limitsOf(points, [first, count]) {
  let low = Infinity;
  let high = -Infinity;
  for (let i = first; i < first + count; i += 1) {
    if (points[i] < low) low = points[i];
    if (points[i] > high) high = points[i];
  }
  return low <= high ? [low, high] : [];
}

function widened(values, share) {
  const finite = values.filter(Number.isFinite);
  if (!finite.length) return [0, 1];
  let low = Math.min(...finite);
  let high = Math.max(...finite);
  if (high - low < 1e-9) [low, high] = [low - 1, high + 1];
  const more = share * (high - low);
  return [low === 0 ? 0 : low - more, high + more];
}

function equalised([x0, x1], [y0, y1], frame) {
  const perX = (x1 - x0) / (frame.right - frame.left);
  const perY = (y1 - y0) / (frame.bottom - frame.top);
  const per = Math.max(perX, perY);
  const halfX = (per * (frame.right - frame.left)) / 2;
  const halfY = (per * (frame.bottom - frame.top)) / 2;
  return [
    [(x0 + x1) / 2 - halfX, (x0 + x1) / 2 + halfX],
    [(y0 + y1) / 2 - halfY, (y0 + y1) / 2 + halfY],
  ];
}

function ticksOf([low, high], about) {
  const rough = (high - low) / about;
  const power = 10 ** Math.floor(Math.log10(rough));
  const step = [1, 2, 5, 10].map((n) => n * power).find((n) => n >= rough);
  const ticks = [];
  for (let at = Math.ceil(low / step - 1e-9); at * step <= high + 1e-9 * step; at += 1) ticks.push(at * step);
  return ticks;
}

function figure(value) {
  return String(Number(value.toPrecision(6))).replace("-", "−");
}

const LINE = LABEL_SIZE * 1.2;

function inLines(text, widest) {
  const lines = [""];
  for (const word of text.split(" ")) {
    const last = lines[lines.length - 1];
    if (last && textWidth(`${last} ${word}`) > widest) lines.push(word);
    else lines[lines.length - 1] = last ? `${last} ${word}` : word;
  }
  return lines;
}

// Points every few units along a curve, whether it is drawn by two points or by hundreds.
function paced(trace) {
  const made = [];
  for (let i = 0; i < trace.length; i += 1) {
    const [x, y] = trace[i];
    const last = made[made.length - 1];
    if (x !== x || y !== y) continue;
    if (!last || i === 0) made.push([x, y]);
    else {
      const far = Math.hypot(x - last[0], y - last[1]);
      for (let at = 5; at <= far && made.length < 600; at += 5) {
        made.push([last[0] + ((x - last[0]) * at) / far, last[1] + ((y - last[1]) * at) / far]);
      }
    }
  }
  return made;
}

// A name goes where its own curve passes close by and least of everything else is covered.
function nameCurves(curves, traces, frame, taken, rulers) {
  const dots = traces.map(paced);
  const boxes = [...taken];
  const named = [];
  curves.forEach((curve, index) => {
    if (!curve.label || !dots[index].length) return;
    const lines = inLines(curve.label, (frame.right - frame.left) * 0.55);
    const wide = Math.max(...lines.map((text) => textWidth(text)));
    const more = (lines.length - 1) * LINE;
    let best = null;
    const every = Math.max(1, Math.floor(dots[index].length / 30));
    for (let i = 0; i < dots[index].length; i += every) {
      const [x, y] = dots[index][i];
      for (const [dx, dy] of [[0, -7], [0, 16 + more], [wide / 2 + 7, 4 + more / 2], [-wide / 2 - 7, 4 + more / 2]]) {
        const box = boxAt(x + dx, y + dy, wide, LINE, "middle");
        box.top -= more;
        const out = Math.max(0, frame.left + 2 - box.left) + Math.max(0, box.right - frame.right) +
          Math.max(0, frame.top - 8 - box.top) + Math.max(0, box.bottom - frame.bottom + 2);
        let cost = 30 * out + boxes.reduce((sum, other) => sum + overlap(box, other), 0);
        // where curves lie on the axis together a name would tell nothing
        if (y > frame.bottom - 2) cost += 90;
        for (const y of rulers) if (y > box.top && y < box.bottom) cost += 60;
        for (let j = 0; j < dots.length; j += 1) {
          for (const [u, v] of dots[j]) {
            if (u > box.left - 2 && u < box.right + 2 && v > box.top && v < box.bottom) cost += 12;
            else if (j !== index && u > box.left - 8 && u < box.right + 8 && v > box.top - 8 && v < box.bottom + 8) cost += 1.5;
          }
        }
        if (!best || cost < best.cost) best = { cost, x: x + dx, y: y + dy, box };
      }
    }
    boxes.push(best.box);
    named.push({ lines, x: best.x, y: best.y, pen: curve.pen });
  });
  return named;
}

// A drawing to scale, from primitives in model millimetres to lines on the sheet.

const ROUND = (value) => Math.round(value * 100) / 100;

function drawScene(scene, points, width, tallest) {
  const [left, bottom, right, top] = scene.extent;
  const spanX = Math.max(right - left, 1e-6);
  const spanY = Math.max(top - bottom, 1e-6);
  const pads = { left: 12, right: 12, top: 12, bottom: 34 };
  let fit = null;
  for (let pass = 0; pass < 3; pass += 1) {
    fit = fitted(spanX, spanY, left, top, width, tallest, pads);
    if (!growPads(pads, scene, fit, width, tallest)) break;
  }
  const { scale, height, px, py } = fit;
  const hatch = newId("hatch");
  const titleId = newId("title");
  const descId = newId("desc");
  const root = svgEl(
    "svg",
    { class: "ws-scene", viewBox: `0 0 ${width} ${height}`, width, height, role: "img",
      "aria-labelledby": `${titleId} ${descId}` },
    svgEl("title", { id: titleId }),
    svgEl("desc", { id: descId }),
    hatching(hatch),
  );
  root.querySelector("title").textContent = scene.title;
  root.querySelector("desc").textContent = scene.says;
  const at = (point) => [px(point[0]), py(point[1])];
  const parts = [];
  const note = (node, part) => {
    if (part) {
      node.dataset.part = part;
      parts.push(node);
    }
    return node;
  };

  for (const one of scene.still) {
    const node = still(one, points, at, scale);
    if (node) root.append(note(hatched(node, one, hatch), one.part));
  }
  const frames = scene.angles[1];
  const start = frames ? points[scene.angles[0]] : 0;
  const movers = scene.moving.map((one) => {
    const node = svgEl(one.shape === "circle" ? "circle" : "path", {
      class: `pen-${one.pen} fill-${one.fill}`,
      r: one.shape === "circle" ? Math.max(one.r * scale, 1) : null,
    });
    hatched(node, one, hatch);
    root.append(note(node, one.part));
    return { one, node };
  });

  const ink = makeInk();
  for (const one of scene.still) inkOf(ink, one, points, at, scale);
  for (let quarter = 0; quarter < 4 && frames; quarter += 1) {
    for (const one of scene.moving) inkOfFrame(ink, one, points, Math.floor((quarter * frames) / 4), at);
  }
  const dimensions = scene.still.filter((one) => one.t === "dimension").map((one) => dimension(one, at));
  for (const one of dimensions) root.append(one.node);
  const wanted = scene.still
    .filter((one) => one.t === "label")
    .map((one) => ({ ...one, x: px(one.at[0]), y: py(one.at[1]) + LABEL_SIZE * 0.3 }));
  const bar = scene.to_scale ? scaleBar(scale, width, height, scene) : null;
  const taken = [...dimensions.map((one) => one.box), bar?.box].filter(Boolean);
  for (const label of placeLabels(wanted, width, height, taken, ink)) root.append(...labelled(label, at));
  if (bar) root.append(bar.node);

  function turn(theta) {
    if (!frames) return;
    const place = ((((theta - start) % 360) + 360) % 360) * (frames / 360);
    const first = Math.floor(place) % frames;
    const next = (first + 1) % frames;
    const share = place - Math.floor(place);
    for (const { one, node } of movers) {
      const a = one.p[0] + first * one.n * 2;
      const b = one.p[0] + next * one.n * 2;
      if (one.shape === "circle") {
        node.setAttribute("cx", ROUND(px(points[a] + share * (points[b] - points[a]))));
        node.setAttribute("cy", ROUND(py(points[a + 1] + share * (points[b + 1] - points[a + 1]))));
        continue;
      }
      let path = "";
      let pen = "M";
      for (let i = 0; i < 2 * one.n; i += 2) {
        const x = points[a + i] + share * (points[b + i] - points[a + i]);
        const y = points[a + i + 1] + share * (points[b + i + 1] - points[a + i + 1]);
        if (x !== x || y !== y) {
          pen = "M";
          continue;
        }
        path += `${pen}${ROUND(px(x))} ${ROUND(py(y))}`;
        pen = "L";
      }
      node.setAttribute("d", one.shape === "outline" && path ? `${path}Z` : path);
    }
  }

  // the angle of the crank, clockwise from ahead, that a place on the drawing means
  function angleAt(event) {
    const box = root.getBoundingClientRect();
    const x = ((event.clientX - box.left) * width) / box.width - px(0);
    const y = ((event.clientY - box.top) * height) / box.height - py(0);
    return (Math.atan2(y, x) * 180) / Math.PI;
  }
  return { root, parts, turn, angleAt, moves: frames > 0 };
}

function fitted(spanX, spanY, left, top, width, tallest, pads) {
  const wide = Math.max(width - pads.left - pads.right, 40);
  const high = Math.max(tallest - pads.top - pads.bottom, 40);
  const scale = Math.min(wide / spanX, high / spanY);
  const height = Math.round(Math.max(spanY * scale + pads.top + pads.bottom, 90));
  const slackX = (wide - spanX * scale) / 2;
  const slackY = (height - pads.top - pads.bottom - spanY * scale) / 2;
  return {
    scale,
    height,
    px: (x) => pads.left + slackX + (x - left) * scale,
    py: (y) => pads.top + slackY + (top - y) * scale,
  };
}

// Text has a size of its own on the sheet; the drawing makes room for it at the edges.
function growPads(pads, scene, fit, width, tallest) {
  let grown = false;
  // a drawing that its height limits leaves more room for words at its sides
  const [left, bottom, right, top] = scene.extent;
  const tightest = (tallest - pads.top - pads.bottom) / Math.max(top - bottom, 1e-6);
  const sides = Math.max(0.42 * width, width - (right - left) * tightest);
  const most = { left: Math.max(0.3 * width, sides / 2), right: Math.max(0.3 * width, sides / 2), top: 70, bottom: 90 };
  const ask = (side, wanted) => {
    const allowed = Math.min(wanted, most[side]);
    if (allowed > pads[side] + 1) {
      pads[side] = allowed;
      grown = true;
    }
  };
  const at = (point) => [fit.px(point[0]), fit.py(point[1])];
  for (const one of scene.still) {
    let box = null;
    if (one.t === "label") box = boxAt(...at(one.at), textWidth(one.text), LABEL_SIZE * 1.2, one.anchor);
    else if (one.t === "dimension") box = dimension(one, at).box;
    if (!box) continue;
    ask("left", pads.left + 4 - box.left);
    ask("right", pads.right + box.right - width + 4);
    ask("top", pads.top + 4 - box.top);
    ask("bottom", pads.bottom + box.bottom - fit.height + 30);
  }
  const both = pads.left + pads.right;
  if (both > sides) {
    // the drawing matters more than its labels; those that stick out are moved in
    pads.left *= sides / both;
    pads.right *= sides / both;
  }
  return grown;
}

function inkOf(ink, one, points, at, scale) {
  if (one.t === "path") {
    const [first, count] = one.p;
    const end = one.closed ? count : count - 2;
    for (let i = 0; i < end; i += 2) {
      const j = (i + 2) % count;
      ink.line(...at([points[first + i], points[first + i + 1]]), ...at([points[first + j], points[first + j + 1]]));
    }
  } else if (one.t === "circle" || one.t === "arc") {
    const [cx, cy] = at(one.c);
    const r = one.r * scale;
    const steps = Math.min(48, Math.max(8, Math.round(r / 3)));
    const [from, to] = one.t === "arc" ? [one.from, one.to < one.from ? one.to + 360 : one.to] : [0, 360];
    let last = null;
    for (let i = 0; i <= steps; i += 1) {
      const angle = ((from + ((to - from) * i) / steps) * Math.PI) / 180;
      const now = [cx + r * Math.cos(angle), cy - r * Math.sin(angle)];
      if (last) ink.line(...last, ...now);
      last = now;
    }
  }
}

function inkOfFrame(ink, one, points, frame, at) {
  const first = one.p[0] + frame * one.n * 2;
  for (let i = 0; i + 2 < 2 * one.n; i += 2) {
    ink.line(...at([points[first + i], points[first + i + 1]]), ...at([points[first + i + 2], points[first + i + 3]]), 0.6);
  }
}

function hatching(id) {
  return svgEl(
    "defs",
    {},
    svgEl(
      "pattern",
      { id, width: 6, height: 6, patternUnits: "userSpaceOnUse", patternTransform: "rotate(45)" },
      svgEl("line", { x1: 0, y1: 0, x2: 0, y2: 6, class: "ws-hatch" }),
    ),
  );
}

function still(one, points, at, scale) {
  const style = { class: `pen-${one.pen} fill-${one.fill || "none"}` };
  if (one.t === "path") {
    const path = pathOf(points, one.p, at, one.closed);
    return path ? svgEl("path", { d: path, ...style }) : null;
  }
  if (one.t === "circle") {
    const [cx, cy] = at(one.c);
    return svgEl("circle", { cx: ROUND(cx), cy: ROUND(cy), r: ROUND(one.r * scale), ...style });
  }
  if (one.t === "arc") {
    const turn = (((one.to - one.from) % 360) + 360) % 360 || 360;
    if (turn > 359.99) {
      const [cx, cy] = at(one.c);
      return svgEl("circle", { cx: ROUND(cx), cy: ROUND(cy), r: ROUND(one.r * scale), ...style });
    }
    const end = (degrees) => {
      const radians = (degrees * Math.PI) / 180;
      return at([one.c[0] + one.r * Math.cos(radians), one.c[1] + one.r * Math.sin(radians)]).map(ROUND).join(" ");
    };
    const r = ROUND(one.r * scale);
    return svgEl("path", { d: `M${end(one.from)}A${r} ${r} 0 ${turn > 180 ? 1 : 0} 0 ${end(one.from + turn)}`, ...style });
  }
  return null;
}

function hatched(node, one, hatch) {
  if (one.fill === "section") node.style.fill = `url(#${hatch})`;
  return node;
}

function pathOf(points, [first, count], at, closed) {
  let path = "";
  let pen = "M";
  for (let i = first; i < first + count; i += 2) {
    const [x, y] = at([points[i], points[i + 1]]);
    if (x !== x || y !== y) {
      pen = "M";
      continue;
    }
    path += `${pen}${ROUND(x)} ${ROUND(y)}`;
    pen = "L";
  }
  return path && closed ? `${path}Z` : path;
}

function labelled(label, at) {
  const nodes = [];
  const text = svgEl("text", { x: ROUND(label.x), y: ROUND(label.y), "text-anchor": label.anchor, class: `ws-label text-${label.pen}` });
  text.textContent = label.text;
  const target = label.leader ? at(label.leader) : label.moved > LABEL_SIZE * 1.6 ? at(label.at) : null;
  const { box } = label;
  const covered = target && target[0] > box.left && target[0] < box.right && target[1] > box.top && target[1] < box.bottom;
  if (target && !covered) {
    const x = Math.min(Math.max(target[0], box.left), box.right);
    const y = target[1] < box.top ? box.top : target[1] > box.bottom ? box.bottom : (box.top + box.bottom) / 2;
    const from = y > box.top && y < box.bottom ? [target[0] < box.left ? box.left - 2 : box.right + 2, y] : [x, y];
    if (Math.hypot(target[0] - from[0], target[1] - from[1]) > 5) {
      nodes.push(
        svgEl("line", { x1: ROUND(from[0]), y1: ROUND(from[1]), x2: ROUND(target[0]), y2: ROUND(target[1]), class: "ws-leader" }),
        svgEl("circle", { cx: ROUND(target[0]), cy: ROUND(target[1]), r: 1.6, class: "ws-leader-end" }),
      );
    }
  }
  nodes.push(text);
  return nodes;
}

// A dimension line: extension lines, arrowheads, the figure above the line, read from below
// or from the right as drawings are.
function dimension(one, at) {
  const way = [one.b[0] - one.a[0], one.b[1] - one.a[1]];
  const size = Math.hypot(...way) || 1;
  const off = [(-way[1] / size) * one.offset, (way[0] / size) * one.offset];
  const a = at([one.a[0] + off[0], one.a[1] + off[1]]);
  const b = at([one.b[0] + off[0], one.b[1] + off[1]]);
  const node = svgEl("g", { class: "ws-dimension" });
  const line = (p, q) => node.append(svgEl("line", { x1: ROUND(p[0]), y1: ROUND(p[1]), x2: ROUND(q[0]), y2: ROUND(q[1]) }));
  for (const [from, to] of [[at(one.a), a], [at(one.b), b]]) {
    const far = Math.hypot(to[0] - from[0], to[1] - from[1]);
    if (far < 3) continue;
    const unit = [(to[0] - from[0]) / far, (to[1] - from[1]) / far];
    line([from[0] + 2 * unit[0], from[1] + 2 * unit[1]], [to[0] + 4 * unit[0], to[1] + 4 * unit[1]]);
  }
  const long = Math.hypot(b[0] - a[0], b[1] - a[1]) || 1;
  const unit = [(b[0] - a[0]) / long, (b[1] - a[1]) / long];
  const inside = long > 26;
  const reach = inside ? 0 : 14;
  line([a[0] - reach * unit[0], a[1] - reach * unit[1]], [b[0] + reach * unit[0], b[1] + reach * unit[1]]);
  for (const [tip, sign] of [[a, 1], [b, -1]]) node.append(arrow(tip, unit, inside ? sign : -sign));
  let degrees = (Math.atan2(unit[1], unit[0]) * 180) / Math.PI;
  if (degrees > 90.5 || degrees <= -90.5) degrees += 180;
  if (degrees > 89.5 && degrees <= 270) degrees -= 180;
  const turned = (degrees * Math.PI) / 180;
  const up = [Math.sin(turned), -Math.cos(turned)];
  let middle = [(a[0] + b[0]) / 2 + 4 * up[0], (a[1] + b[1]) / 2 + 4 * up[1]];
  const wide = textWidth(one.text);
  if (wide > long - 4) {
    // a short dimension has its figure upright: above a level line, beside an upright one
    const upright = Math.abs(unit[1]) > 0.7;
    const out = [a[0] - at(one.a)[0], a[1] - at(one.a)[1]];
    const side = out[0] < 0 ? -1 : 1;
    middle = [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2];
    if (upright) middle = [middle[0] + side * (wide / 2 + 6), middle[1] + 4];
    else middle = [middle[0], middle[1] + (out[1] > 0 ? 15 : -8)];
    degrees = 0;
  }
  const text = svgEl("text", {
    x: ROUND(middle[0]), y: ROUND(middle[1]), "text-anchor": "middle", class: "ws-label",
    transform: Math.abs(degrees) > 0.5 ? `rotate(${ROUND(degrees)} ${ROUND(middle[0])} ${ROUND(middle[1])})` : null,
  });
  text.textContent = one.text;
  node.append(text);
  const slope = (degrees * Math.PI) / 180;
  const tall = Math.abs(Math.sin(slope)) * wide + LABEL_SIZE;
  const broad = Math.abs(Math.cos(slope)) * wide + LABEL_SIZE * 0.4;
  const box = one.text
    ? { left: middle[0] - broad / 2, right: middle[0] + broad / 2, top: middle[1] - tall / 2 - 4, bottom: middle[1] + tall / 2 - 4 }
    : null;
  return { node, box };
}

function arrow(tip, unit, sign) {
  const back = [tip[0] + sign * 9 * unit[0], tip[1] + sign * 9 * unit[1]];
  const side = [-unit[1] * 1.7, unit[0] * 1.7];
  const points = [tip, [back[0] + side[0], back[1] + side[1]], [back[0] - side[0], back[1] - side[1]]];
  return svgEl("polygon", { points: points.map((p) => p.map(ROUND).join(",")).join(" "), class: "ws-arrow" });
}

// The scale is stated twice: as a ratio on an ordinary screen, and as a bar that stays true
// however the sheet is printed or enlarged.
function scaleBar(scale, width, height, { unit, sizes }) {
  const one = unit === "in" ? 25.4 : 1;
  const wanted = Math.min(110, width / 4) / scale / one;
  const power = 10 ** Math.floor(Math.log10(wanted));
  const shown = [5, 2, 1].map((n) => n * power).find((n) => n <= wanted) ?? power;
  const long = shown * one;
  const node = svgEl("g", { class: "ws-bar" });
  const y = height - 9;
  const x = 6;
  for (let i = 0; i < 2; i += 1) {
    node.append(svgEl("rect", { x: ROUND(x + (i * long * scale) / 2), y: y - 3, width: ROUND((long * scale) / 2), height: 3, class: i ? "ws-bar-light" : "ws-bar-dark" }));
  }
  const perMm = (scale * 25.4) / 96;
  const ratio = perMm >= 1 ? `${Number(perMm.toPrecision(2))} : 1` : `1 : ${Number((1 / perMm).toPrecision(2))}`;
  const text = svgEl("text", { x: ROUND(x + long * scale + 6), y, class: "ws-label" });
  const start = `${Number(shown.toPrecision(3))} ${unit}`;
  const all = [`; drawn about ${ratio}`, sizes ? `; sizes in ${unit === "in" ? "inches" : "mm"}` : ""];
  // a narrow drawing has room for the bar's own length alone
  const room = (width - x - long * scale - 10) / 6.5;
  while (all.length && start.length + all.join("").length > room) all.pop();
  text.textContent = start + all.join("");
  node.append(text);
  const wide = long * scale + 10 + textWidth(text.textContent);
  return { node, box: { left: x, right: x + wide, top: y - 14, bottom: y + 4 } };
}

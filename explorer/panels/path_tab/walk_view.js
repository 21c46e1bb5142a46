const SVG = "http://www.w3.org/2000/svg";
const FONT = '12px "DejaVu Sans", Verdana, sans-serif';
const LINE = 15, SHAPE = 0.42, PAD = 7, MARGIN = 10, HEADING = 16, GAP = 28, NARROW = 84, ROOMY = 116, WIDE = 190, PILL = 84;
const pen = document.createElement("canvas").getContext("2d");

function make(tag, attributes, parent, words) {
  const element = document.createElementNS(SVG, tag);
  for (const name in attributes) element.setAttribute(name, attributes[name]);
  if (words !== undefined) element.textContent = words;
  parent?.append(element);
  return element;
}

function long(words, bold) {
  pen.font = (bold ? "bold " : "") + FONT;
  return pen.measureText(words).width;
}

function clipped(words, room, bold) {
  if (long(words, bold) <= room) return words;
  while (words && long(words + "…", bold) > room) words = words.slice(0, -1);
  return words + "…";
}

function wrapped(words, room, most, bold) {
  const lines = [];
  for (const word of words.split(" ")) {
    const longer = lines.length ? lines[lines.length - 1] + " " + word : word;
    if (lines.length && long(longer, bold) <= room) lines[lines.length - 1] = longer;
    else lines.push(word);
  }
  const kept = lines.slice(0, most);
  if (lines.length > most) kept[most - 1] += " " + lines.slice(most).join(" ");
  return kept.map((line) => clipped(line, room, bold));
}

const isPill = (node) => node.kind === "pairing";
const pillWidth = (lines) => Math.max(24, ...lines.map((line) => long(line) + 16));

// The layers of the drawing: each place across that nodes have, and one for a column that has none.
function layersOf(nodes, columns, pills) {
  const xs = [...new Set(nodes.map((node) => node.x))].sort((a, b) => a - b);
  const layers = xs.map((x) => {
    const here = nodes.filter((node) => node.x === x);
    const narrow = here.every(isPill);
    return { x, narrow, w: narrow ? Math.max(...here.map((node) => pillWidth(pills.get(node.id)))) : 0 };
  });
  let before = -Infinity;
  const seasons = columns.map((column) => {
    const edge = column.x1 ?? column.x, inside = layers.filter(({ x }) => x > before && x <= edge);
    const heading = [column.label, column.name].filter(Boolean);
    if (!inside.length) {
      const w = Math.max(...heading.map((words) => long(words, true)));
      inside.push({ x: ((column.x0 ?? column.x) + edge) / 2, narrow: true, w });
      layers.push(inside[0]);
    }
    before = edge;
    return { heading, inside };
  });
  return { layers: layers.sort((a, b) => a.x - b.x), seasons };
}

// Stretches the given places to the room there is: text keeps its size, boxes and gaps give way.
function across(nodes, columns, width) {
  const pills = new Map(nodes.filter(isPill).map((node) => [node.id, wrapped(node.label, PILL - 16, 4)]));
  const { layers, seasons } = layersOf(nodes, columns, pills);
  const wide = layers.filter((layer) => !layer.narrow), between = layers.length - 1;
  const spare = width - 2 * MARGIN - layers.reduce((sum, layer) => sum + (layer.narrow ? layer.w : 0), 0);
  let box = Math.min(WIDE, (spare - between * GAP) / wide.length);
  let gap = between ? Math.min(3 * GAP, (spare - box * wide.length) / between) : 0;
  if (box < NARROW) [box, gap] = [ROOMY, GAP];
  let left = MARGIN;
  for (const layer of layers) {
    if (!layer.narrow) layer.w = box;
    layer.at = left + layer.w / 2;
    left += layer.w + gap;
  }
  const toX = (x) => {
    const after = layers.findIndex((layer) => layer.x >= x);
    if (after <= 0) return layers.at(after).at;
    const [one, two] = [layers[after - 1], layers[after]];
    return one.at + (two.at - one.at) * (x - one.x) / (two.x - one.x);
  };
  for (const season of seasons) {
    season.left = Math.min(...season.inside.map((layer) => layer.at - layer.w / 2));
    season.right = Math.max(...season.inside.map((layer) => layer.at + layer.w / 2));
  }
  return { box, pills, seasons, toX, width: left - gap + MARGIN };
}

function place(nodes, edges, columns, width) {
  const laid = across(nodes, columns, width);
  const at = new Map();
  for (const node of nodes) {
    const room = laid.box - 2 * PAD;
    const title = laid.pills.get(node.id) ?? wrapped(node.label, room, 2, true);
    const lines = isPill(node) ? [] : (node.lines ?? []).flatMap((line) => wrapped(line, room, 4));
    const w = isPill(node) ? pillWidth(title) : laid.box;
    const picture = node.picture ? room * SHAPE + PAD : 0;
    const h = (title.length + lines.length) * LINE + (isPill(node) ? 9 : 2 * PAD) + picture;
    at.set(node.id, { title, lines, w, h, picture, x: laid.toX(node.x), given: [node.x, node.y] });
  }
  const bends = edges.flatMap((edge) => (edge.pts ?? []).slice(1, -1));
  const items = [...at.values(), ...bends.map(([x, y]) => ({ given: [x, y], h: 4 }))];
  let down = 0.02;
  for (const a of items) for (const b of items) {
    const apart = b.given[1] - a.given[1];
    if (a.given[0] === b.given[0] && apart > 1e-6) down = Math.max(down, ((a.h + b.h) / 2 + 12) / apart);
  }
  const top = Math.min(...items.map((one) => one.given[1] * down - one.h / 2));
  const start = 2 * MARGIN + HEADING * Math.max(0, ...laid.seasons.map((season) => season.heading.length));
  const toY = (y) => y * down - top + start;
  for (const one of at.values()) one.y = toY(one.given[1]);
  return { ...laid, at, toY, height: Math.max(...items.map((one) => toY(one.given[1]) + one.h / 2)) + MARGIN };
}

function route(a, b, bends) {
  if (b.x - b.w / 2 < a.x + a.w / 2 + 4) {
    const way = Math.sign(b.y - a.y) || 1, [y0, y1] = [a.y + way * a.h / 2, b.y - way * b.h / 2];
    return `M${a.x} ${y0}C${a.x} ${(y0 + y1) / 2} ${b.x} ${(y0 + y1) / 2} ${b.x} ${y1}`;
  }
  const start = a.x + a.w / 2, end = b.x - b.w / 2;
  const points = [[start, a.y], ...bends.filter(([x]) => x > start && x < end), [end, b.y]];
  return points.slice(1).reduce((path, [x, y], i) => {
    const [x0, y0] = points[i], middle = (x0 + x) / 2;
    return `${path}C${middle} ${y0} ${middle} ${y} ${x} ${y}`;
  }, `M${points[0].join(" ")}`);
}

function render({ model, el, signal }) {
  el.classList.add("xp-walk");
  const frame = document.createElement("div");
  const legend = document.createElement("p");
  frame.className = "xp-walk-frame";
  legend.className = "xp-walk-legend";
  const signs = { owned: "yours", hatch: "still to hatch", pill: "a pairing", now: "this season" };
  const note = document.createElement("span");
  note.textContent = "Sketches are schematic: animals vary.";
  note.className = "xp-walk-note";
  for (const [kind, words] of Object.entries(signs)) {
    const sign = document.createElement("span");
    sign.className = `xp-walk-sign xp-${kind}`;
    sign.setAttribute("aria-hidden", "true");
    legend.append(sign, words);
  }
  legend.append(note);
  el.append(frame, legend);
  const arrow = `xp-arrow-${Math.random().toString(36).slice(2)}`;

  function draw() {
    const nodes = model.get("nodes"), columns = model.get("columns");
    const focused = frame.contains(document.activeElement) ? document.activeElement.dataset.id : null;
    frame.replaceChildren();
    frame.hidden = legend.hidden = !nodes.length;
    if (!nodes.length) return;
    const laid = place(nodes, model.get("edges"), columns, Math.max(320, frame.clientWidth || 900));
    const size = { width: laid.width, height: laid.height };
    const svg = make("svg", { role: "group", "aria-label": model.get("label"), ...size }, frame);
    const tip = { viewBox: "0 0 8 8", refX: 7, refY: 4, markerWidth: 8, markerHeight: 8, orient: "auto", markerUnits: "userSpaceOnUse" };
    make("path", { d: "M0 0L8 4L0 8z", class: "xp-walk-arrow" }, make("marker", { id: arrow, ...tip }, make("defs", {}, svg)));
    laid.seasons.forEach(({ heading, left, right }, i) => {
      heading.forEach((words, line) => {
        const y = MARGIN + HEADING * (line + 0.75);
        make("text", { x: (left + right) / 2, y, class: line ? "xp-walk-year" : "xp-walk-heading" }, svg, words);
      });
      const x = i && (laid.seasons[i - 1].right + left) / 2;
      if (i) make("line", { x1: x, x2: x, y1: MARGIN / 2, y2: laid.height - MARGIN / 2, class: "xp-walk-rule" }, svg);
    });
    for (const edge of model.get("edges")) {
      const [a, b] = [laid.at.get(edge.a), laid.at.get(edge.b)];
      if (!a || !b) continue;
      const bends = (edge.pts ?? []).map(([x, y]) => [laid.toX(x), laid.toY(y)]);
      const path = { d: route(a, b, bends), "data-a": edge.a, "data-b": edge.b, "marker-end": `url(#${arrow})` };
      make("path", { ...path, class: "xp-walk-edge" }, svg);
    }
    const pick = (node) => { model.set("selected", node.id); model.save_changes(); };
    for (const node of nodes) {
      const { x, y, w, h, picture, title, lines } = laid.at.get(node.id);
      const said = node.title || [node.label, ...(node.lines ?? [])].join(", ");
      const group = make("g", {
        class: `xp-node xp-${node.kind} ${node.owned ? "xp-owned" : "xp-hatch"}`,
        transform: `translate(${x},${y})`,
        "data-id": node.id,
        role: "button",
        tabindex: 0,
        "aria-label": said,
        "data-lm-suppress-shortcuts": "true",
      }, svg);
      const rect = (css, more, rx) =>
        make("rect", { class: css, x: -w / 2 - more, y: -h / 2 - more, width: w + 2 * more, height: h + 2 * more, rx }, group);
      rect("xp-ring", 4, isPill(node) ? 16 : 7);
      rect("xp-shape", 0, isPill(node) ? 12 : 4);
      if (picture) {
        const href = "data:image/svg+xml;charset=utf-8," + encodeURIComponent(node.picture);
        make("image", { href, x: PAD - w / 2, y: PAD - h / 2, width: w - 2 * PAD, height: picture - PAD }, group);
      }
      [...title, ...lines].forEach((words, i, all) => {
        const bold = i < title.length && !isPill(node);
        make("text", { y: (i - (all.length - 1) / 2) * LINE + 4 + picture / 2, class: bold ? "xp-bold" : "" }, group, words);
      });
      make("title", {}, group, said);
      group.addEventListener("click", () => pick(node));
      group.addEventListener("keydown", (event) => {
        if (event.key !== "Enter" && event.key !== " ") return;
        event.preventDefault();
        event.stopPropagation();
        pick(node);
      });
    }
    mark();
    if (focused) [...frame.querySelectorAll(".xp-node")].find((one) => one.dataset.id === focused)?.focus();
  }

  function mark() {
    const selected = model.get("selected"), now = new Set(model.get("highlight"));
    for (const group of frame.querySelectorAll(".xp-node")) {
      group.classList.toggle("xp-on", group.dataset.id === selected);
      group.classList.toggle("xp-now", now.has(group.dataset.id));
      group.setAttribute("aria-pressed", String(group.dataset.id === selected));
    }
    for (const edge of frame.querySelectorAll(".xp-walk-edge")) {
      edge.classList.toggle("xp-on", selected !== "" && [edge.dataset.a, edge.dataset.b].includes(selected));
    }
  }

  let drawn = 0;
  const watch = new ResizeObserver(() => {
    if (frame.clientWidth && frame.clientWidth !== drawn) { drawn = frame.clientWidth; draw(); }
  });
  watch.observe(frame);
  for (const [names, action] of [["nodes edges columns label", draw], ["selected highlight", mark]]) {
    model.on(names.split(" ").map((name) => `change:${name}`).join(" "), action);
    signal.addEventListener("abort", () => model.off(null, action));
  }
  signal.addEventListener("abort", () => watch.disconnect());
  draw();
}
export default { render };

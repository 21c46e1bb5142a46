const WIDE = 8; // with more genes the names of the columns stand upright
const CORNER = 130, CELL = 44; // pixels: the row names, and the least a cell takes before the square scrolls

const make = (tag, attributes = {}, words = "") => {
  const element = document.createElement(tag);
  for (const [name, value] of Object.entries(attributes)) element.setAttribute(name, value);
  element.textContent = words;
  return element;
};

function render({ model, el, signal }) {
  el.classList.add("xp-matrix");
  const own = `xp-matrix-${Math.random().toString(36).slice(2)}`;
  const frame = make("div", { class: "xp-matrix-frame" });
  const summary = make("p", { id: own, class: "xp-matrix-summary" });
  const legend = make("ul", { class: "xp-matrix-legend" });
  el.append(frame, summary, legend);
  let at = [0, 1];

  const buttons = () => [...frame.querySelectorAll("button")];
  const here = ([row, column]) => buttons().find((one) => one.dataset.at === `${row},${column}`);

  function pick(row, column) {
    const genes = model.get("genes");
    at = [row, column];
    model.set("selected", [genes[row], genes[column]]);
    model.save_changes();
    mark();
  }

  // The next cell that way, over the diagonal and no further than the edge.
  function walk([down, right]) {
    const last = model.get("genes").length - 1;
    let [row, column] = [at[0] + down, at[1] + right];
    if (row === column) [row, column] = [row + down, column + right];
    if (Math.min(row, column) < 0 || Math.max(row, column) > last) return;
    at = [row, column];
    mark();
    here(at).focus();
  }

  function draw() {
    const [genes, cells] = [model.get("genes"), model.get("cells")];
    const focused = frame.contains(document.activeElement);
    const table = make("table", { role: "grid", "aria-label": model.get("caption"), "aria-describedby": own });
    table.classList.toggle("xp-upright", genes.length > WIDE);
    table.style.minWidth = `${CORNER + genes.length * CELL}px`;
    const head = table.createTHead().insertRow();
    head.setAttribute("role", "row");
    head.append(make("td", { role: "gridcell", class: "xp-matrix-corner" }));
    for (const gene of genes) {
      const name = make("th", { scope: "col", role: "columnheader" });
      name.append(make("span", {}, gene));
      head.append(name);
    }
    const body = table.createTBody();
    cells.forEach((row, down) => {
      const line = body.insertRow();
      line.setAttribute("role", "row");
      line.append(make("th", { scope: "row", role: "rowheader" }, genes[down]));
      row.forEach((cell, right) => {
        const box = make("td", { role: "gridcell" });
        line.append(box);
        if (!cell) return box.classList.add("xp-matrix-self");
        const button = make("button", {
          type: "button", title: cell.title, "aria-label": cell.title, "data-at": `${down},${right}`, "data-lm-suppress-shortcuts": "true",
        });
        button.style.backgroundColor = cell.shade;
        button.append(make("b", {}, cell.sign));
        if (cell.word) button.append(make("span", {}, cell.word));
        button.addEventListener("click", () => pick(down, right));
        box.append(button);
      });
    });
    frame.replaceChildren(table);
    frame.hidden = legend.hidden = genes.length < 2;
    summary.textContent = model.get("summary");
    legend.replaceChildren(...model.get("legend").map(([sign, shade, words]) => {
      const item = make("li");
      const box = make("b", { "aria-hidden": "true" }, sign);
      box.style.backgroundColor = shade;
      item.append(box, words);
      return item;
    }));
    if (Math.max(...at) >= genes.length) at = [0, 1];
    mark();
    if (focused) here(at)?.focus();
  }

  function mark() {
    const genes = model.get("genes"), chosen = new Set(model.get("selected"));
    for (const one of buttons()) {
      const [row, column] = one.dataset.at.split(",").map(Number);
      one.setAttribute("aria-pressed", String(chosen.size === 2 && chosen.has(genes[row]) && chosen.has(genes[column])));
      one.tabIndex = row === at[0] && column === at[1] ? 0 : -1;
    }
  }

  frame.addEventListener("keydown", (event) => {
    const way = { ArrowDown: [1, 0], ArrowUp: [-1, 0], ArrowRight: [0, 1], ArrowLeft: [0, -1] }[event.key];
    if (!way || event.target.tagName !== "BUTTON") return;
    event.preventDefault();
    event.stopPropagation();
    walk(way);
  }, { signal });
  frame.addEventListener("focusin", (event) => {
    if (event.target.dataset.at) { at = event.target.dataset.at.split(",").map(Number); mark(); }
  }, { signal });
  for (const [names, action] of [["genes cells legend summary caption", draw], ["selected", mark]]) {
    model.on(names.split(" ").map((name) => `change:${name}`).join(" "), action);
    signal.addEventListener("abort", () => model.off(null, action));
  }
  draw();
}
export default { render };

const ROOMY = 14, WRITTEN = 24; // up to so many columns: words in the cells, numbers in the cells
const CORNER = 128, LEAST = 16; // pixels: the names at the left, and what a cell takes before the grid scrolls

const make = (tag, attributes = {}, words = "") => {
  const element = document.createElement(tag);
  for (const [name, value] of Object.entries(attributes)) element.setAttribute(name, value);
  element.textContent = words;
  return element;
};

function render({ model, el, signal }) {
  el.classList.add("xp-grid-view");
  const own = `xp-grid-${Math.random().toString(36).slice(2)}`;
  const frame = make("div", { class: "xp-grid-frame" });
  const summary = make("p", { id: own, class: "xp-grid-summary" });
  const legend = make("ul", { class: "xp-grid-legend" });
  el.append(frame, summary, legend);
  let at = [1, 1]; // row and column; the names have the number 0

  const buttons = () => [...frame.querySelectorAll("button")];
  const here = ([row, column]) => buttons().find((one) => one.dataset.at === `${row},${column}`);

  function pick(row, column) {
    at = [row, column];
    const ids = [row && model.get("rows")[row - 1].id, column && model.get("columns")[column - 1].id];
    model.set("picked", ids.filter(Boolean));
    model.save_changes();
    mark();
  }

  function button(parent, row, column, title, text, word) {
    const made = make("button", {
      type: "button", title, "aria-label": title, "data-at": `${row},${column}`, "data-lm-suppress-shortcuts": "true",
    });
    made.append(make("b", {}, text));
    if (word) made.append(make("span", {}, word));
    made.addEventListener("click", () => pick(row, column));
    parent.append(made);
    return made;
  }

  function head(line, kind, row, column, name) {
    const cell = make("th", { scope: kind === "columnheader" ? "col" : "row", role: kind });
    cell.classList.toggle("xp-grid-out", Boolean(name.word));
    button(cell, row, column, name.title, name.label, name.word);
    line.append(cell);
  }

  function draw() {
    const [rows, columns, cells] = ["rows", "columns", "cells"].map((name) => model.get(name));
    const focused = frame.contains(document.activeElement);
    const table = make("table", { role: "grid", "aria-label": model.get("caption"), "aria-describedby": own });
    table.classList.toggle("xp-grid-roomy", columns.length <= ROOMY);
    table.classList.toggle("xp-grid-bare", columns.length > WRITTEN);
    table.style.minWidth = `${CORNER + columns.length * LEAST}px`;
    const top = table.createTHead().insertRow();
    top.setAttribute("role", "row");
    top.append(make("td", { role: "gridcell", class: "xp-grid-corner" }));
    columns.forEach((name, right) => head(top, "columnheader", 0, right + 1, name));
    const body = table.createTBody();
    cells.forEach((row, down) => {
      const line = body.insertRow();
      line.setAttribute("role", "row");
      head(line, "rowheader", down + 1, 0, rows[down]);
      row.forEach((cell, right) => {
        const box = make("td", { role: "gridcell" });
        line.append(box);
        const made = button(box, down + 1, right + 1, cell.title, cell.text, cell.word);
        made.style.backgroundColor = cell.shade;
        made.style.color = cell.ink;
        made.style.setProperty("--shade", cell.shade);
        made.dataset.marks = cell.marks;
        made.classList.toggle("xp-grid-none", cell.none);
      });
    });
    frame.replaceChildren(table);
    frame.hidden = legend.hidden = !cells.length || !columns.length;
    summary.textContent = model.get("summary");
    legend.replaceChildren(...model.get("legend").map(item));
    if (at[0] > rows.length || at[1] > columns.length) at = [1, 1];
    mark();
    if (focused) here(at)?.focus();
  }

  function item({ words, marks, from, to, then }) {
    const made = make("li");
    const box = make("i", { "aria-hidden": "true" });
    if (marks) box.dataset.marks = marks;
    else box.style.background = `linear-gradient(to right, ${from}, ${to})`;
    box.classList.toggle("xp-grid-ramp", !marks);
    made.append(...(marks ? [box, words] : [words, box, then]));
    return made;
  }

  function mark() {
    const alone = model.get("alone"), ticked = new Set(model.get("ticked"));
    const [rows, columns] = [model.get("rows"), model.get("columns")];
    for (const one of buttons()) {
      const [row, column] = one.dataset.at.split(",").map(Number);
      const [male, female] = [rows[row - 1]?.id, columns[column - 1]?.id];
      const pair = male && female;
      const on = pair
        ? (male === alone && ticked.has(female)) || (female === alone && ticked.has(male))
        : (male ?? female) === alone;
      one.setAttribute("aria-pressed", String(on));
      one.parentElement.classList.toggle("xp-grid-line", Boolean(pair) && (male === alone || female === alone));
      one.tabIndex = row === at[0] && column === at[1] ? 0 : -1;
    }
  }

  frame.addEventListener("keydown", (event) => {
    const way = { ArrowDown: [1, 0], ArrowUp: [-1, 0], ArrowRight: [0, 1], ArrowLeft: [0, -1] }[event.key];
    if (!way || event.target.tagName !== "BUTTON") return;
    event.preventDefault();
    event.stopPropagation();
    const next = [at[0] + way[0], at[1] + way[1]];
    if (!here(next)) return;
    at = next;
    mark();
    here(at).focus();
  }, { signal });
  frame.addEventListener("focusin", (event) => {
    if (event.target.dataset.at) { at = event.target.dataset.at.split(",").map(Number); mark(); }
  }, { signal });
  for (const [names, action] of [["rows columns cells legend summary", draw], ["alone ticked", mark]]) {
    model.on(names.split(" ").map((name) => `change:${name}`).join(" "), action);
    signal.addEventListener("abort", () => model.off(null, action));
  }
  draw();
}
export default { render };

// A number stays on one line with its unit.
const unbroken = (words) => words.replace(/(\d) (?=[%g]( |$|[,;:.)]))/g, "$1\u00a0");

const make = (tag, attributes = {}, words = "") => {
  const element = document.createElement(tag);
  for (const [name, value] of Object.entries(attributes)) element.setAttribute(name, value);
  element.textContent = unbroken(words);
  return element;
};

const NO_SHORTCUTS = { "data-lm-suppress-shortcuts": "true" }; // JupyterLab's own keys stay away from where this stands

function render({ model, el, signal }) {
  el.classList.add("xp-table");
  const caption = model.get("caption"), tick = model.get("tick");
  const search = make("input", { type: "search", placeholder: "search", "aria-label": `Search: ${caption}` });
  const count = make("span", { class: "xp-table-count", role: "status" });
  const top = make("div", { class: "xp-table-top" });
  const scroll = make("div", { class: "xp-table-scroll" });
  top.append(search, count);
  el.append(top, scroll);
  let sorted = { key: "", down: false };

  const pick = (id) => {
    const before = model.get("ticked"), others = before.filter((one) => one !== id);
    if (!tick) model.set("selected", id);
    else model.set("ticked", others.length < before.length ? others : [...others, id]);
    model.save_changes();
    mark();
  };

  const value = (row, column) => {
    const given = row.order?.[column.key];
    if (given !== undefined) return given;
    const words = String(row[column.key] ?? "");
    if (column.kind !== "number") return words.toLocaleLowerCase();
    const number = parseFloat(words.replace(/[,\s]/g, ""));
    return Number.isNaN(number) ? null : number;
  };

  const compare = (a, b) =>
    typeof a === "number" && typeof b === "number" ? a - b : String(a).localeCompare(String(b), undefined, { numeric: true });

  function inOrder(rows) {
    const column = model.get("columns").find((one) => one.key === sorted.key);
    if (!column) return rows;
    const blank = (v) => v === null || v === "";
    return [...rows].sort((a, b) => {
      const [x, y] = [value(a, column), value(b, column)];
      if (blank(x) || blank(y)) return blank(x) - blank(y);
      return sorted.down ? compare(y, x) : compare(x, y);
    });
  }

  function found(rows) {
    const words = search.value.toLocaleLowerCase().split(/\s+/).filter(Boolean);
    const keys = model.get("columns").map((column) => column.key);
    return rows.filter((row) => {
      const text = [row.word ?? "", ...keys.map((key) => row[key] ?? "")].join(" ").toLocaleLowerCase();
      return words.every((word) => text.includes(word));
    });
  }

  function head(table, columns) {
    const line = table.createTHead().insertRow();
    if (tick) line.append(make("th", { scope: "col", class: "xp-table-tick" }, tick));
    for (const column of columns) {
      const cell = make("th", { scope: "col", class: `xp-kind-${column.kind ?? "text"}`, "data-key": column.key });
      const state = sorted.key !== column.key ? "none" : sorted.down ? "descending" : "ascending";
      cell.setAttribute("aria-sort", state);
      const button = make("button", { type: "button", title: `sort by ${column.label}`, ...NO_SHORTCUTS }, column.label);
      button.append(make("span", { "aria-hidden": "true" }, { none: "\u00a0↕", ascending: "\u00a0↑", descending: "\u00a0↓" }[state]));
      button.addEventListener("click", () => {
        sorted = { key: column.key, down: sorted.key === column.key && !sorted.down };
        draw();
        [...scroll.querySelectorAll("thead th")].find((th) => th.dataset.key === column.key)?.firstChild.focus();
      });
      cell.append(button);
      line.append(cell);
    }
  }

  function body(table, columns, rows) {
    const part = table.createTBody();
    for (const row of rows) {
      const line = part.insertRow();
      line.dataset.id = row.id;
      if (row.mark) line.dataset.mark = row.mark;
      if (tick) line.append(ticking(row.id, String(row[columns[0].key] ?? "")));
      columns.forEach((column, at) => {
        const words = String(row[column.key] ?? "");
        const cell = make(at ? "td" : "th", { class: `xp-kind-${column.kind ?? "text"}`, "data-key": column.key });
        const [paper, ink] = row.shades?.[column.key] ?? [];
        if (/\S{25}/.test(words)) cell.classList.add("xp-table-long");
        if (paper) cell.style.cssText = `background-color: ${paper}; color: ${ink}`;
        if (at) cell.textContent = unbroken(words);
        else {
          cell.scope = "row";
          cell.append(make("button", { type: "button", ...NO_SHORTCUTS }, words));
          if (row.word) cell.append(make("span", { class: "xp-table-word" }, row.word));
        }
        line.append(cell);
      });
      line.addEventListener("click", () => pick(row.id));
    }
    part.addEventListener("keydown", (event) => {
      const step = { ArrowDown: "nextElementSibling", ArrowUp: "previousElementSibling" }[event.key];
      const next = step && event.target.closest("tr")?.[step];
      if (!next) return;
      event.preventDefault();
      event.stopPropagation();
      next.querySelector("button").focus();
    });
  }

  function ticking(id, name) {
    const cell = make("td", { class: "xp-table-tick" });
    const box = make("input", { type: "checkbox", "aria-label": `${tick} ${name}`, ...NO_SHORTCUTS });
    box.addEventListener("click", (event) => { event.stopPropagation(); pick(id); });
    cell.append(box);
    return cell;
  }

  function draw() {
    const [all, columns] = [model.get("rows"), model.get("columns")];
    const rows = inOrder(found(all));
    const focused = scroll.contains(document.activeElement) && document.activeElement.closest("tbody tr")?.dataset.id;
    const [left, up] = [scroll.scrollLeft, scroll.scrollTop];
    const table = make("table");
    table.append(make("caption", {}, caption));
    head(table, columns);
    body(table, columns, rows);
    scroll.replaceChildren(table);
    const empty = all.length ? "nothing matches the search" : model.get("empty");
    if (!rows.length) scroll.append(make("p", { class: "xp-table-empty" }, empty));
    const whole = all.length === 1 ? "1 row" : `${all.length} rows`;
    count.textContent = rows.length === all.length ? whole : `${rows.length} of ${whole}`;
    scroll.scrollTo(left, up);
    if (focused) line(focused)?.querySelector("button").focus();
    mark();
  }

  const line = (id) => [...scroll.querySelectorAll("tbody tr")].find((one) => one.dataset.id === id);

  function mark() {
    for (const one of scroll.querySelectorAll("tbody tr")) {
      const on = one.dataset.id === model.get("selected"), ticked = model.get("ticked").includes(one.dataset.id);
      one.classList.toggle("xp-on", on);
      one.classList.toggle("xp-ticked", ticked);
      one.querySelector("button").setAttribute("aria-pressed", String(tick ? ticked : on));
      if (tick) one.querySelector(".xp-table-tick input").checked = ticked;
    }
  }

  const size = () => { scroll.style.maxHeight = model.get("height") ? `${model.get("height")}px` : ""; };
  const reveal = () => line(model.get("selected"))?.scrollIntoView({ block: "nearest" });
  search.addEventListener("input", draw, { signal });
  for (const [names, action] of [["rows columns empty", draw], ["selected ticked", mark], ["height", size]]) {
    model.on(names.split(" ").map((name) => `change:${name}`).join(" "), action);
    signal.addEventListener("abort", () => model.off(null, action));
  }
  size();
  draw();
  reveal();
}
export default { render };

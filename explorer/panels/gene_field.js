const make = (tag, attributes = {}, words = "") => {
  const element = document.createElement(tag);
  for (const [name, value] of Object.entries(attributes)) element.setAttribute(name, value);
  element.textContent = words;
  return element;
};

function render({ model, el, signal }) {
  el.classList.add("xp-gene-field");
  const own = `xp-gene-${Math.random().toString(36).slice(2)}`;
  const label = make("label", { for: own }, model.get("label"));
  const input = make("input", {
    id: own, type: "text", role: "combobox", autocomplete: "off", spellcheck: "false", "aria-autocomplete": "list",
    "aria-expanded": "false", "aria-controls": `${own}-list`, "data-lm-suppress-shortcuts": "true",
  });
  const list = make("div", { id: `${own}-list`, role: "listbox", "aria-label": `genes: ${model.get("label")}` });
  list.hidden = true;
  const box = make("div", { class: "xp-gene-box" });
  box.append(input, list);
  el.append(label, box);
  let active = -1;

  const options = () => [...list.querySelectorAll("[role=option]")];
  const written = () => {
    input.value = model.get("value");
    if (document.activeElement === input) input.select();
  };

  function found() {
    const typed = input.value === model.get("value") ? [] : input.value.toLocaleLowerCase().split(/\s+/).filter(Boolean);
    return model.get("options").filter((one) => {
      const text = `${one.name} ${one.also}`.toLocaleLowerCase();
      return typed.every((word) => text.includes(word));
    });
  }

  function open() {
    list.replaceChildren();
    let group = null;
    found().forEach((one, at) => {
      if (!group || group.dataset.name !== one.group) {
        group = make("div", { role: "group", "aria-label": one.group, "data-name": one.group });
        group.append(make("p", { "aria-hidden": "true" }, one.group));
        list.append(group);
      }
      const option = make("div", { id: `${own}-${at}`, role: "option", "aria-selected": "false" }, one.name);
      if (one.also) option.append(make("span", {}, one.also));
      option.dataset.name = one.name;
      group.append(option);
    });
    list.hidden = !options().length;
    input.setAttribute("aria-expanded", String(!list.hidden));
    move(-1);
  }

  function close() {
    list.hidden = true;
    input.setAttribute("aria-expanded", "false");
    input.removeAttribute("aria-activedescendant");
  }

  function move(to) {
    const all = options();
    active = all.length ? Math.max(-1, Math.min(all.length - 1, to)) : -1;
    all.forEach((one, at) => one.setAttribute("aria-selected", String(at === active)));
    if (active < 0) input.removeAttribute("aria-activedescendant");
    else {
      input.setAttribute("aria-activedescendant", all[active].id);
      all[active].scrollIntoView({ block: "nearest" });
    }
  }

  function take(name) {
    close();
    if (name) {
      model.set({ value: name, taken: model.get("taken") + 1 });
      model.save_changes();
    }
    written();
  }

  // What is typed out in full wins over the list: a nickname or several genes are read where they are looked up.
  function meant() {
    const all = options(), typed = input.value.trim();
    const same = all.find((one) => one.dataset.name.toLocaleLowerCase() === typed.toLocaleLowerCase());
    return all[active]?.dataset.name ?? same?.dataset.name ?? (typed && all[0]?.dataset.name) ?? typed;
  }

  input.addEventListener("focus", () => { input.select(); open(); }, { signal });
  input.addEventListener("mousedown", (event) => {
    if (input.value !== model.get("value")) return;
    event.preventDefault(); // what stands there stays marked as a whole, so that typing takes its place
    input.focus();
    input.select();
    if (list.hidden) open();
  }, { signal });
  input.addEventListener("input", open, { signal });
  input.addEventListener("blur", () => { close(); input.value = model.get("value"); }, { signal });
  input.addEventListener("keydown", (event) => {
    const step = { ArrowDown: 1, ArrowUp: -1 }[event.key];
    if (step) {
      if (list.hidden) open();
      move(active + step);
    } else if (event.key === "Enter") take(meant());
    else if (event.key === "Escape" && (!list.hidden || input.value !== model.get("value"))) { close(); written(); }
    else return;
    event.preventDefault();
    event.stopPropagation();
  }, { signal });
  list.addEventListener("mousedown", (event) => {
    event.preventDefault();
    const option = event.target.closest("[role=option]");
    if (option) take(option.dataset.name);
  }, { signal });
  const show = () => {
    input.placeholder = model.get("empty");
    input.disabled = model.get("disabled");
    if (document.activeElement !== input || list.hidden) written();
  };
  model.on("change:value change:empty change:disabled", show);
  signal.addEventListener("abort", () => model.off(null, show));
  show();
}
export default { render };

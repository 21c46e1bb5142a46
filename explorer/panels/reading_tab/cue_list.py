"""What can be looked for on an animal, zone by zone: each cue is not looked at, seen, or clearly not."""

from __future__ import annotations

from typing import Any

import anywidget
import traitlets

__all__ = ["CueList"]

ESM = """
const STATES = [["seen", "seen"], ["not", "clearly not"]];
function render({ model, el, signal }) {
  el.classList.add("xp-cues");
  const rows = new Map();
  let answers = {};
  const add = (parent, tag, css, text) => {
    const made = document.createElement(tag);
    made.className = css;
    made.textContent = text;
    parent.append(made);
    return made;
  };
  const mark = () => {
    for (const [key, { row, note, buttons }] of rows) {
      const state = answers[key] || "";
      row.dataset.state = state;
      note.textContent = state === "implied" ? "ruled out" : note.dataset.points;
      for (const [name, button] of buttons) button.setAttribute("aria-pressed", String(name === state));
    }
  };
  const take = () => { answers = { ...model.get("answers") }; mark(); };
  const press = (key, name) => {
    answers[key] = answers[key] === name ? "" : name;
    mark();
    model.send({ key, state: answers[key] });
  };
  const line = (zone, cue) => {
    const row = add(zone, "div", "xp-cue", "");
    row.setAttribute("role", "group");
    row.setAttribute("aria-label", cue.text);
    row.dataset.key = cue.key;
    const said = add(row, "span", "xp-cue-text", `${cue.text} `);
    said.title = cue.more;
    const note = add(said, "span", "xp-cue-points", "");
    note.dataset.points = cue.points;
    const buttons = STATES.map(([name, label]) => {
      const button = add(row, "button", "", label);
      button.type = "button";
      button.setAttribute("data-lm-suppress-shortcuts", "true");
      button.addEventListener("click", () => press(cue.key, name), { signal });
      return [name, button];
    });
    rows.set(cue.key, { row, note, buttons });
  };
  const build = () => {
    el.replaceChildren();
    rows.clear();
    for (const { zone, cues } of model.get("zones")) {
      const part = add(el, "div", "xp-zone", "");
      part.setAttribute("role", "group");
      part.setAttribute("aria-label", zone);
      add(part, "h4", "", zone);
      for (const cue of cues) line(part, cue);
    }
    take();
  };
  model.on("change:zones", build);
  model.on("change:answers", take);
  signal.addEventListener("abort", () => { model.off(null, build); model.off(null, take); });
  build();
}
export default { render };
"""

CSS = """
.xp-cues { columns: 2; column-gap: 22px; font-size: 14px; line-height: 1.25; color: var(--jp-ui-font-color1) }
.xp-workbench .xp-cues h4 { margin: 0; padding: 4px 0 3px; border-bottom: 1px solid var(--xp-edge) }
.xp-zone { margin-bottom: 10px; break-inside: avoid }
.xp-cue { display: flex; align-items: center; gap: 4px; min-height: 31px; padding: 1px 0;
  border-bottom: 1px solid var(--jp-border-color2) }
.xp-cue-text { flex: 1 1 auto; min-width: 0 }
.xp-cue-points { font-size: 12px; white-space: nowrap; color: var(--xp-quiet) }
.xp-cue[data-state="implied"] .xp-cue-text { color: var(--xp-quiet) }
.xp-cue button { flex: none; box-sizing: border-box; width: 46px; min-height: 26px; padding: 0;
  border: 1px solid var(--jp-border-color1);
  border-radius: 3px; font: inherit; font-size: 13px; white-space: nowrap; color: var(--xp-quiet);
  background: var(--jp-layout-color1); cursor: pointer }
.xp-cue button:last-child { width: 84px }
.xp-cue button:hover { background: var(--jp-layout-color2) }
.xp-cue button[aria-pressed="true"] { font-weight: 600; color: var(--jp-ui-font-color1); background: var(--xp-soft);
  border-color: var(--xp-hue) }
"""


class CueList(anywidget.AnyWidget):
    """zones: dicts of zone (its name) and cues, each a dict of key, text, points (how strongly, in a word) and more.

    answers: key -> "seen", "not", or "implied" where another answer rules the cue out. A press sends a message with
    the key and the state wanted, "" to take an answer back; what follows from it is for who listens to say.
    """

    _esm = ESM
    _css = CSS
    zones: traitlets.List[Any] = traitlets.List().tag(sync=True)
    answers: traitlets.Dict[str, str] = traitlets.Dict().tag(sync=True)

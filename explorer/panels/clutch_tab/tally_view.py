"""A table of looks with counters: how many hatchlings of each look are female, male, or of unknown sex."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

import anywidget
import traitlets

__all__ = ["TallyView"]

ESM = """
const SEXES = ["female", "male", "sex not known"];
function render({ model, el, signal }) {
  el.classList.add("xp-tally");
  let cells = [];
  const make = (parent, tag, css, text) => {
    const made = document.createElement(tag);
    if (css) made.className = css;
    made.textContent = text;
    parent.append(made);
    return made;
  };
  let counts = { ...model.get("counts") };
  const numbers = (look) => counts[look] ?? [0, 0, 0];
  const refill = () => { counts = { ...model.get("counts") }; fill(); };
  const fill = () => {
    for (const { look, at, shown, less } of cells) {
      const number = numbers(look)[at];
      shown.textContent = String(number);
      shown.dataset.some = String(number > 0);
      less.setAttribute("aria-disabled", String(number === 0));
    }
  };
  const press = (look, at, step) => {
    const mine = [...numbers(look)];
    mine[at] = Math.max(0, Math.min(99, mine[at] + step));
    counts[look] = mine;
    model.send({ look, numbers: mine });
    fill();
  };
  const button = (parent, words, sign, action) => {
    const made = make(parent, "button", "", sign);
    made.type = "button";
    made.setAttribute("aria-label", words);
    made.setAttribute("data-lm-suppress-shortcuts", "true");
    made.addEventListener("click", action, { signal });
    return made;
  };
  const counter = (line, look, at) => {
    const cell = make(line, "td", "xp-tally-count", "");
    const less = button(cell, `one fewer ${look}, ${SEXES[at]}`, "−", () => press(look, at, -1));
    const shown = make(cell, "output", "", "0");
    shown.setAttribute("aria-label", `${look}, ${SEXES[at]}`);
    button(cell, `one more ${look}, ${SEXES[at]}`, "+", () => press(look, at, 1));
    cells.push({ look, at, shown, less });
  };
  const build = () => {
    const focused = el.contains(document.activeElement) && document.activeElement.getAttribute("aria-label");
    el.replaceChildren();
    cells = [];
    const table = make(el, "table", "", "");
    make(table, "caption", "xp-alt", "The looks of this clutch");
    const head = make(make(table, "thead", "", ""), "tr", "", "");
    for (const name of ["look", "chance", ...SEXES]) make(head, "th", "", name).scope = "col";
    const body = make(table, "tbody", "", "");
    for (const { look, chance, shade, note } of model.get("rows")) {
      const line = make(body, "tr", "", "");
      line.dataset.look = look;
      const name = make(line, "th", "", "");
      name.scope = "row";
      make(name, "i", "", "").style.background = shade;
      const said = make(name, "span", "", look);
      if (note) make(said, "small", "", ` ${note}`);
      make(line, "td", "xp-tally-chance", chance);
      SEXES.forEach((_, at) => counter(line, look, at));
    }
    fill();
    if (focused) [...el.querySelectorAll("button")].find((one) => one.getAttribute("aria-label") === focused)?.focus();
  };
  model.on("change:rows", build);
  model.on("change:filled", refill);
  signal.addEventListener("abort", () => { model.off(null, build); model.off(null, refill); });
  build();
}
export default { render };
"""

CSS = """
.xp-tally { overflow: auto; max-height: 520px }
.xp-tally table { border-collapse: collapse; width: 100%; font-size: 14px; line-height: 1.3;
  color: var(--jp-ui-font-color1) }
.xp-tally :is(th, td) { padding: 2px 8px; text-align: left; font-weight: 400;
  border-bottom: 1px solid var(--jp-border-color2) }
.xp-tally thead th { position: sticky; top: 0; z-index: 1; font-weight: 600; background: var(--jp-layout-color2);
  white-space: nowrap }
.xp-tally tbody th { font-weight: 600 }
.xp-tally tbody i { display: inline-block; width: 12px; height: 12px; margin-right: 8px; border: 1px solid #0b5357 }
.xp-tally small { font-size: 12px; font-weight: 400; color: var(--xp-quiet) }
.xp-tally-chance, .xp-tally output { font-variant-numeric: tabular-nums; white-space: nowrap }
.xp-tally-count { white-space: nowrap; width: 104px }
.xp-tally button { width: 28px; height: 26px; padding: 0; border: 1px solid var(--xp-edge); border-radius: 3px;
  font: inherit; font-size: 16px; line-height: 1; color: var(--jp-ui-font-color1); background: var(--jp-layout-color1);
  cursor: pointer }
.xp-tally button:hover { background: var(--jp-layout-color2) }
.xp-tally button[aria-disabled="true"] { color: var(--xp-quiet); border-color: var(--jp-border-color2) }
.xp-tally button:focus-visible { outline: 2px solid var(--xp-hue); outline-offset: 1px }
.xp-tally output { display: inline-block; width: 30px; text-align: center; color: var(--xp-quiet) }
.xp-tally output[data-some="true"] { font-weight: 600; color: var(--jp-ui-font-color1) }
"""


class TallyView(anywidget.AnyWidget):
    """rows: dicts of look (names the row), chance and note (texts), and shade (a colour: how near to the target).

    counts: look -> numbers of females, males, and hatchlings of unknown sex, 0 to 99 each. What is counted on the
    screen arrives as messages, in order with the clicks on other widgets; a change of state might come after them. So
    the screen takes up `counts` only where it is drawn anew or `filled` has changed.
    """

    _esm = ESM
    _css = CSS
    rows: traitlets.List[Any] = traitlets.List().tag(sync=True)
    counts: traitlets.Dict[str, list[int]] = traitlets.Dict().tag(sync=True)
    filled = traitlets.Int(0).tag(sync=True)

    def __init__(self, **given: Any) -> None:
        super().__init__(**given)
        self.on_msg(self._counted)

    def fill(self, counts: Mapping[str, Sequence[int]]) -> None:
        """Shows these counts in place of what was counted."""
        with self.hold_sync():
            self.counts = {look: list(numbers) for look, numbers in counts.items()}
            self.filled += 1

    def _counted(self, _: object, message: Mapping[str, Any], __: object) -> None:
        look, numbers = message.get("look"), message.get("numbers")
        if isinstance(look, str) and isinstance(numbers, list) and len(numbers) == 3:
            self.counts = {**self.counts, look: [min(99, max(0, int(number))) for number in numbers]}

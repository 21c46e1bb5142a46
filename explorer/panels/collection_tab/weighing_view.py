"""The weigh-in: a list of animals, type a weight, Enter, the next animal."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import anywidget
import traitlets
from ipywidgets import DatePicker, VBox

from ..desk import Desk
from ..guard import Guard
from ..markup import paragraph
from ..parts import button, row, show, words
from .weighing_model import WeighingModel

__all__ = ["ScalesView", "Weighing"]

ESM = """
function render({ model, el, signal }) {
  el.classList.add("xp-scales");
  let lines = new Map();
  const send = (id, text) => model.send({ id, text });
  function build() {
    const rows = model.get("rows");
    lines = new Map();
    el.replaceChildren(...rows.map((one, place) => {
      const line = document.createElement("label");
      const name = document.createElement("span");
      const last = document.createElement("span");
      const input = document.createElement("input");
      const said = document.createElement("output");
      last.className = "xp-quiet";
      input.type = "text";
      input.inputMode = "decimal";
      input.autocomplete = "off";
      input.setAttribute("data-lm-suppress-shortcuts", "true");
      input.addEventListener("keydown", (event) => {
        const step = { Enter: 1, ArrowDown: 1, ArrowUp: -1 }[event.key];
        if (!step) return;
        event.preventDefault();
        const next = el.querySelectorAll("input")[place + step];
        if (next) { next.focus(); next.select(); } else input.blur();
      }, { signal });
      input.addEventListener("change", () => send(one.id, input.value), { signal });
      line.append(name, last, input, said);
      lines.set(one.id, [name, last, input, said]);
      return line;
    }));
    fill();
  }
  function fill() {
    for (const one of model.get("rows")) {
      const [name, last, input, said] = lines.get(one.id);
      name.textContent = one.name;
      last.textContent = one.last;
      if (input.value !== one.typed && document.activeElement !== input) input.value = one.typed;
      said.textContent = one.said;
      said.className = one.problem ? "xp-problem" : "";
      input.setAttribute("aria-invalid", String(one.problem));
      input.setAttribute("aria-label", `${one.name}, grams`);
    }
  }
  const drawn = () => {
    const rows = model.get("rows");
    if (rows.length === lines.size && rows.every((one) => lines.has(one.id))) fill(); else build();
  };
  model.on("change:rows", drawn);
  signal.addEventListener("abort", () => model.off("change:rows", drawn));
  build();
}
export default { render };
"""

CSS = """
.xp-scales { display: grid; gap: 3px; max-height: 340px; overflow-y: auto; padding: 2px }
.xp-scales label { display: grid; grid-template-columns: 170px 190px 92px 1fr; gap: 12px; align-items: center }
.xp-scales input { width: 80px; padding: 3px 6px; font: inherit; text-align: right; border: 1px solid var(--xp-quiet) }
.xp-scales input:focus-visible { outline: 2px solid var(--xp-hue, #0b5357); outline-offset: 1px }
"""


class ScalesView(anywidget.AnyWidget):
    """rows: dicts of id, name, last, typed, said (texts) and problem (whether said tells of one). Sends id and text
    when a weight was typed."""

    _esm = ESM
    _css = CSS
    rows: traitlets.List[Any] = traitlets.List().tag(sync=True)

    def on_typed(self, call: Callable[[str, str], None]) -> None:
        """Calls with an animal's id and the text that was typed for it."""
        self.on_msg(lambda _, message, __: call(str(message["id"]), str(message["text"])))


class Weighing:
    """`root` is what the Collection tab shows while animals are weighed."""

    def __init__(self, desk: Desk, guard: Guard, closed: Callable[[], None]) -> None:
        self.model, self._closed = WeighingModel(desk), closed
        self.scales = ScalesView()
        self.day = DatePicker(value=self.model.day, description="weighed on", style={"description_width": "initial"})
        self.day.add_class("xp-weighed-on")
        self.said = words("xp-weigh-said")
        self.take = button("write them down", "xp-weigh-take", guard, self._take)
        self.take.button_style = "primary"
        close = button("close", "xp-weigh-close", guard, lambda: self.show(False))
        self.again = button("read the weights again", "xp-weigh-again", guard, self._read_again)
        hint = words("xp-hint")
        hint.value = paragraph("Type a weight in grams and press Enter; the next animal is waiting.", "xp-quiet")
        self.root = VBox([row([self.day, hint]), self.scales, row([self.take, close, self.again, self.said])])
        self.root.add_class("xp-box")
        self.root.add_class("xp-weighing")
        self.scales.on_typed(guard(self._typed))
        self.day.observe(guard(lambda change: self._on(change.new)), "value")
        self.shown = False
        show(self.root, False)

    def show(self, shown: bool) -> None:
        """Opens or closes the list."""
        self.shown = shown
        show(self.root, shown)
        if shown:
            self.update()
        else:
            self._closed()

    def update(self) -> None:
        """Shows the model as it is now, if the list is open."""
        if not self.shown:
            return
        model = self.model
        self.scales.rows = model.rows if model.possible else []
        refused = "; ".join(str(one) for one in model.desk.season.refused)
        self.said.value = paragraph(model.said if model.possible else refused, "" if model.possible else "xp-problem")
        show(self.again, model.conflict or not model.possible)
        self.take.disabled = not model.count
        self.take.description = f"write down {model.count}" if model.count else "write them down"

    def _typed(self, key: str, text: str) -> None:
        self.model.type(key, text)
        self.update()

    def _on(self, day: Any) -> None:
        self.model.on(day)
        self.update()

    def _read_again(self) -> None:
        self.model.read_again()
        self.update()

    def _take(self) -> None:
        self.model.take()
        self.update()

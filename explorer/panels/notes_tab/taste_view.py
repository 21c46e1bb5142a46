"""One slider a wish, each with the word for how much it counts."""

from __future__ import annotations

from typing import Any

import anywidget
import traitlets

__all__ = ["TasteView"]

ESM = """
function render({ model, el, signal }) {
  el.classList.add("xp-taste");
  const sliders = new Map();
  const word = (weight) => (model.get("words").find(([number]) => number === weight) ?? [0, ""])[1];
  const weights = model.get("words").map(([number]) => number);
  for (const wish of Object.keys(model.get("taste"))) {
    const label = document.createElement("label");
    const name = document.createElement("span");
    const input = document.createElement("input");
    const said = document.createElement("output");
    name.textContent = wish;
    input.type = "range";
    input.min = Math.min(...weights);
    input.max = Math.max(...weights);
    input.setAttribute("data-lm-suppress-shortcuts", "true");
    label.append(name, input);
    el.append(label, said);
    sliders.set(wish, [input, said]);
    input.addEventListener("input", () => written(wish), { signal });
    input.addEventListener("change", () => {
      model.set("taste", { ...model.get("taste"), [wish]: Number(input.value) });
      model.save_changes();
    }, { signal });
  }
  function written(wish) {
    const [input, said] = sliders.get(wish);
    said.textContent = word(Number(input.value));
    input.setAttribute("aria-valuetext", said.textContent);
  }
  function show() {
    for (const [wish, weight] of Object.entries(model.get("taste"))) {
      sliders.get(wish)[0].value = weight;
      written(wish);
    }
  }
  model.on("change:taste", show);
  signal.addEventListener("abort", () => model.off(null, show));
  show();
}
export default { render };
"""

CSS = """
.xp-taste { display: grid; grid-template-columns: repeat(3, max-content 92px); gap: 4px 12px; align-items: center }
.xp-taste label { display: grid; grid-template-columns: 130px 120px; gap: 10px; align-items: center }
.xp-taste input { width: 120px; margin: 0; accent-color: var(--xp-hue, #0b5357) }
.xp-taste output { font-size: 13px; color: var(--xp-quiet, #555) }
"""


class TasteView(anywidget.AnyWidget):
    """taste: wish -> weight; its wishes are set once, and a weight changes when its slider is let go. words: [weight,
    word for it] each, by rising weight.
    """

    _esm = ESM
    _css = CSS
    taste: traitlets.Dict[str, int] = traitlets.Dict().tag(sync=True)
    words: traitlets.List[Any] = traitlets.List().tag(sync=True)

"""A slider with a name that is read aloud and a value that is written beside it."""

from __future__ import annotations

import anywidget
import traitlets

__all__ = ["Slider"]

ESM = """
function render({ model, el, signal }) {
  el.classList.add("xp-slider");
  const label = document.createElement("label");
  const input = document.createElement("input");
  const value = document.createElement("output");
  const name = document.createElement("span");
  name.textContent = model.get("label");
  input.type = "range";
  input.setAttribute("data-lm-suppress-shortcuts", "true");
  label.append(name, input);
  el.append(label, value);
  const written = () => {
    value.textContent = input.value + model.get("unit");
    input.setAttribute("aria-valuetext", value.textContent);
  };
  const show = () => {
    for (const trait of ["min", "max", "step"]) input[trait] = model.get(trait);
    input.value = model.get("value");
    input.disabled = model.get("disabled");
    written();
  };
  input.addEventListener("input", written, { signal });
  const take = () => { model.set("value", Number(input.value)); model.save_changes(); };
  input.addEventListener("change", take, { signal });
  const traits = "change:value change:min change:max change:step change:disabled";
  model.on(traits, show);
  signal.addEventListener("abort", () => model.off(null, show));
  show();
}
export default { render };
"""

CSS = """
.xp-slider { display: flex; align-items: center; gap: 10px; margin: 2px 16px 2px 2px }
.xp-slider label { display: flex; align-items: center; gap: 10px }
.xp-slider input { width: 150px; margin: 0; accent-color: var(--xp-hue, #0b5357) }
.xp-slider output { min-width: 46px; font-variant-numeric: tabular-nums }
"""


class Slider(anywidget.AnyWidget):
    """label: its name. value: a whole number from min to max by step; it changes when the slider is let go. unit: what
    is written after the value.
    """

    _esm = ESM
    _css = CSS
    label = traitlets.Unicode("").tag(sync=True)
    unit = traitlets.Unicode("").tag(sync=True)
    value = traitlets.Int(0).tag(sync=True)
    min = traitlets.Int(0).tag(sync=True)
    max = traitlets.Int(100).tag(sync=True)
    step = traitlets.Int(1).tag(sync=True)
    disabled = traitlets.Bool(False).tag(sync=True)

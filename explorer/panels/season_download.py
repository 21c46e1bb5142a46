"""A link that saves a file from the page. What is saved is part of the link: nothing is fetched for it."""

from __future__ import annotations

import anywidget
import traitlets

__all__ = ["FileLink"]

ESM = """
function render({ model, el, signal }) {
  el.classList.add("xp-file-link");
  const link = document.createElement("a");
  el.replaceChildren(link);
  const forget = () => { if (link.href) URL.revokeObjectURL(link.href); };
  const fill = () => {
    forget();
    link.href = URL.createObjectURL(new Blob([model.get("content")], { type: model.get("kind") }));
    link.download = model.get("name");
    link.textContent = model.get("label");
  };
  const traits = "change:content change:kind change:name change:label";
  model.on(traits, fill);
  signal.addEventListener("abort", () => { model.off(null, fill); forget(); });
  fill();
}
export default { render };
"""

CSS = """
.xp-file-link a { font-weight: 600; color: var(--xp-hue); text-decoration: underline }
.xp-file-link a:focus-visible { outline: 2px solid var(--xp-hue); outline-offset: 2px }
"""


class FileLink(anywidget.AnyWidget):
    """content: the file's text; kind: its media type; name: what it is saved as; label: what the link says."""

    _esm = ESM
    _css = CSS
    content = traitlets.Unicode("").tag(sync=True)
    kind = traitlets.Unicode("text/plain;charset=utf-8").tag(sync=True)
    name = traitlets.Unicode("").tag(sync=True)
    label = traitlets.Unicode("").tag(sync=True)

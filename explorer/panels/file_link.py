"""A link that saves a text as a file or opens it as a page. The text is in the link: nothing is fetched."""

from __future__ import annotations

import anywidget
import traitlets

__all__ = ["PAGE", "FileLink"]

PAGE = "text/html;charset=utf-8"

ESM = """
function render({ model, el, signal }) {
  el.classList.add("xp-file-link");
  const link = document.createElement("a");
  link.rel = "noopener";
  el.replaceChildren(link);
  const forget = () => { if (link.href) URL.revokeObjectURL(link.href); };
  const fill = () => {
    forget();
    link.href = URL.createObjectURL(new Blob([model.get("content")], { type: model.get("kind") }));
    if (model.get("name")) link.download = model.get("name");
    else link.target = "_blank";
    link.textContent = model.get("label");
  };
  model.on("change:content change:kind change:name change:label", fill);
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
    """content: the text, which must not run anything if it is a page; kind: its media type; label: what the link says;
    name: what it is saved as, "" for a page that opens in a tab of its own."""

    _esm = ESM
    _css = CSS
    content = traitlets.Unicode("").tag(sync=True)
    kind = traitlets.Unicode(PAGE).tag(sync=True)
    name = traitlets.Unicode("").tag(sync=True)
    label = traitlets.Unicode("").tag(sync=True)
